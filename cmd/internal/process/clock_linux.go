package process

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"syscall"
	"time"
	"unsafe"
)

// lookAgain is how often the processes of a group are listed.
const lookAgain = 100 * time.Millisecond

// little is what an idle process uses in a burst. It is let run: stopping and
// waking its threads would take more of the processors than it does.
const little = burst / 10

// group is a group of processes with their processor clocks.
type group struct {
	id     int
	last   map[int]time.Duration // by process: what its clock showed
	busy   []int                 // those that used more than a little since they were asked last
	still  []int                 // those that were stopped
	looked time.Time
}

func newGroup(id int) *group { return &group{id: id, last: map[int]time.Duration{}} }

// used returns how much of the processors the group used since it was asked last.
// What a new process used before it was listed does not count.
func (g *group) used() (sum time.Duration, known bool) {
	if time.Since(g.looked) > lookAgain {
		g.look()
	}
	g.busy = g.busy[:0]
	for id, before := range g.last {
		now, err := processClock(id)
		if err != nil {
			delete(g.last, id)
			continue
		}
		g.last[id] = now
		sum += now - before
		if now-before > little {
			g.busy = append(g.busy, id)
		}
	}
	return sum, true
}

// pause stops the busy processes that do not stand still yet.
func (g *group) pause() {
	for _, id := range g.busy {
		if !slices.Contains(g.still, id) {
			g.still = append(g.still, id)
			syscall.Kill(id, syscall.SIGSTOP)
		}
	}
}

// resume lets those go on that stand still.
func (g *group) resume() {
	for _, id := range g.still {
		syscall.Kill(id, syscall.SIGCONT)
	}
	g.still = g.still[:0]
}

// look lists the processes of the group.
func (g *group) look() {
	paths, _ := filepath.Glob("/proc/[0-9]*/stat")
	for _, path := range paths {
		id, err := strconv.Atoi(filepath.Base(filepath.Dir(path)))
		if _, known := g.last[id]; err != nil || known || groupOf(path) != g.id {
			continue
		}
		if now, err := processClock(id); err == nil {
			g.last[id] = now
		}
	}
	g.looked = time.Now()
}

// groupOf reads the group of a process, 0 if it is gone.
func groupOf(stat string) int {
	text, err := os.ReadFile(stat)
	if err != nil {
		return 0
	}
	_, rest, _ := bytes.Cut(text, []byte(") ")) // after the name: state, parent, group
	fields := bytes.Fields(rest)
	if len(fields) < 3 {
		return 0
	}
	group, _ := strconv.Atoi(string(fields[2]))
	return group
}

// processClock reads what all threads of a process used of the processor, by the
// clock that clock_getcpuclockid(3) names.
func processClock(id int) (time.Duration, error) {
	const scheduler = 2
	var at syscall.Timespec
	clock := uintptr(int32(^id<<3 | scheduler))
	if _, _, errno := syscall.Syscall(syscall.SYS_CLOCK_GETTIME, clock, uintptr(unsafe.Pointer(&at)), 0); errno != 0 {
		return 0, errno
	}
	return time.Duration(at.Nano()), nil
}
