package process

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
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
	id        int
	all       map[int]*member // by process
	busy      []int           // those that used more than a little since they were asked last
	still     []int           // those that were stopped
	looked    time.Time
	perThread time.Duration // what a thread uses for standing still once, and for going on
}

// member is a process of a group.
type member struct {
	clock   time.Duration // what it showed
	threads int
	owes    time.Duration // what stops took of it that was not deducted yet
}

// tries is how often a process is stopped to learn what that takes.
const tries = 5

// few threads tell little of what one takes.
const few = 5

// newGroup learns what stops take of the processes of a group.
func newGroup(id int) *group {
	g := &group{id: id, all: map[int]*member{}}
	g.look()
	var each []time.Duration
	for id, m := range g.all {
		for range tries {
			g.used()
			g.stop([]int{id})
			time.Sleep(burst / 2)
			g.resume()
			time.Sleep(burst)
			now, err := processClock(id)
			if err != nil || m.threads < few {
				break
			}
			each = append(each, (now-m.clock)/time.Duration(m.threads))
		}
	}
	if len(each) > 0 {
		slices.Sort(each)
		g.perThread = each[len(each)/4] // in some tries it was at work
	}
	for _, m := range g.all {
		m.owes = 0
	}
	return g
}

// used returns how much of the processors the group used since it was asked last,
// without what our stops took. What a new process used before it was listed does
// not count.
func (g *group) used() (sum, lost time.Duration, known bool) {
	if time.Since(g.looked) > lookAgain {
		g.look()
	}
	g.busy = g.busy[:0]
	for id, m := range g.all {
		now, err := processClock(id)
		if err != nil {
			delete(g.all, id)
			continue
		}
		used := now - m.clock
		m.clock = now
		ours := min(used, m.owes)
		m.owes -= ours
		sum += used - ours
		lost += ours / time.Duration(runtime.NumCPU()) // all of them wake threads
		if used-ours > little {
			g.busy = append(g.busy, id)
		}
	}
	return sum, lost, true
}

// pause stops the busy processes that do not stand still yet.
func (g *group) pause() { g.stop(g.busy) }

func (g *group) stop(list []int) {
	for _, id := range list {
		if slices.Contains(g.still, id) {
			continue
		}
		g.still = append(g.still, id)
		syscall.Kill(id, syscall.SIGSTOP)
		if m := g.all[id]; m != nil {
			m.owes += time.Duration(m.threads) * g.perThread
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
		if err != nil {
			continue
		}
		group, threads := statOf(path)
		if group != g.id {
			continue
		}
		if m := g.all[id]; m != nil {
			m.threads = threads
		} else if now, err := processClock(id); err == nil {
			g.all[id] = &member{clock: now, threads: threads}
		}
	}
	g.looked = time.Now()
}

// statOf reads the group of a process and how many threads it has, 0 if it is gone.
func statOf(stat string) (group, threads int) {
	text, err := os.ReadFile(stat)
	if err != nil {
		return 0, 0
	}
	// Fields 3, 5 and 20 of proc_pid_stat(5) follow the name, which may hold anything.
	fields := bytes.Fields(text[bytes.LastIndexByte(text, ')')+1:])
	if len(fields) < 18 {
		return 0, 0
	}
	group, _ = strconv.Atoi(string(fields[2]))
	threads, _ = strconv.Atoi(string(fields[17]))
	return group, threads
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
