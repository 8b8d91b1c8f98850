package server

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// long reports whether the long tests were asked for.
func long() bool { return os.Getenv("KERFSIDE_LONG") != "" }

// firstSeed is where tests with seeds begin: 1, or what KERFSIDE_SEED says.
func firstSeed() uint64 {
	if n, err := strconv.ParseUint(os.Getenv("KERFSIDE_SEED"), 10, 64); err == nil {
		return n
	}
	return 1
}

// seedCount is how many histories are simulated: what KERFSIDE_SEEDS says, or what
// there is time for. The planted bugs show within the first 600 seeds; more of them
// are for the task soak.
func seedCount() uint64 {
	n, err := strconv.ParseUint(os.Getenv("KERFSIDE_SEEDS"), 10, 64)
	switch {
	case err == nil:
	case testing.Short():
		n = 100
	default:
		n = 3_000
	}
	if raceDetector {
		n = min(n, 300)
	}
	return n
}

// TestSimulation runs histories of three to nine phones and a server, with
// requests lost, repeated, cut and late, tabs side by side, clocks off by up to
// ten years and the server's by one, phones cloned, wiped, killed and restored,
// the server restored from a backup, two servers under one name, and the crew moved
// to another server. After all
// that the network heals, and then the promises of the journal must hold. A seed
// that fails prints the steps that matter; KERFSIDE_SEED begins there, and
// KERFSIDE_SEEDS says how many histories there are.
func TestSimulation(t *testing.T) {
	t.Parallel()
	seeds := seedCount()
	// Each history leaves much garbage and keeps little.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	first := firstSeed()
	var next, acknowledged, lost atomic.Int64
	var failed sync.Once
	var each sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		each.Go(func() {
			for !t.Failed() {
				seed := first + uint64(next.Add(1)) - 1
				if seed >= first+seeds {
					return
				}
				got, err := run(seed, nil, nil)
				acknowledged.Add(int64(got.acknowledged))
				lost.Add(int64(got.lost))
				if err != nil {
					failed.Do(func() { t.Errorf("seed %d: %v\n%s", seed, err, shrunkStory(seed, nil)) })
				}
			}
		})
	}
	each.Wait()
	tally(t, min(next.Load(), int64(seeds)), "histories simulated")
	tally(t, acknowledged.Load(), "events acknowledged")
	tally(t, lost.Load(), "events lost")
}

// tally prints a figure that the task test sums up.
func tally(t testing.TB, n int64, what string) { t.Logf("tally: %d %s", n, what) }

// outcome is what a history came to.
type outcome struct {
	steps              int
	acknowledged, lost int
	story              []string
}

// run runs one seed to its end. With only, no other steps than those of these
// numbers are done, and the story is told.
func run(seed uint64, bug *plant, only []int) (o outcome, err error) {
	w, err := newWorld(seed, bug)
	if err != nil {
		return o, err
	}
	defer func() { err = errors.Join(err, w.close()) }()
	w.telling = only != nil
	defer func() { o.story = w.story }()
	o.steps = 40 + w.rand.IntN(60)
	if only == nil {
		for i := range o.steps {
			only = append(only, i)
		}
	}
	for _, i := range only {
		w.turn(1 + i)
		if err := w.step(); err != nil {
			return o, err
		}
		if i%10 == 9 {
			if err := w.checkServers(); err != nil {
				return o, err
			}
		}
	}
	w.turn(1 + o.steps)
	if err := w.heal(); err != nil {
		return o, err
	}
	return o, w.check(&o)
}

// shrunkStory tells a failing history with only the steps that it needs to fail.
func shrunkStory(seed uint64, bug *plant) string {
	steps := shrink(seed, bug)
	o, err := run(seed, bug, steps)
	return fmt.Sprintf("%d of its %d steps are enough, for this: %v\n%s", len(steps), o.steps, err, strings.Join(o.story, "\n"))
}

// shrink leaves out steps, by halves and then one by one, as long as the history
// still fails in some way.
func shrink(seed uint64, bug *plant) []int {
	o, _ := run(seed, bug, nil)
	steps := make([]int, 0, o.steps)
	for i := range o.steps {
		steps = append(steps, i)
	}
	for chunk := len(steps) / 2; chunk > 0; {
		smaller := false
		for at := 0; at+chunk <= len(steps); {
			less := append(append([]int{}, steps[:at]...), steps[at+chunk:]...)
			if _, err := run(seed, bug, less); err != nil {
				steps, smaller = less, true
				continue
			}
			at += chunk
		}
		if chunk > 1 || !smaller {
			chunk /= 2
		}
	}
	return steps
}

// heal lets all phones sync without faults until nothing moves any more.
func (w *world) heal() error {
	w.tell("the network heals")
	if err := w.oneServerLess(); err != nil {
		return err
	}
	for _, p := range w.phones {
		for _, b := range p.tabs {
			for len(b.held) > 0 {
				if err := w.land(p); err != nil {
					return err
				}
			}
		}
		if p.crew != crewID {
			if err := w.join(p, false); err != nil {
				return err
			}
		}
	}
	for range 8 {
		w.now += 2 * 3600 * 1000
		moved := false
		for _, p := range w.phones {
			m, err := w.drain(p)
			if err != nil {
				return err
			}
			moved = moved || m
		}
		if !moved {
			return nil
		}
	}
	return fmt.Errorf("the phones do not come to rest")
}

// drain syncs one phone until it has nothing to do, within the promised rounds.
func (w *world) drain(p *phone) (moved bool, err error) {
	parted, unsent := w.parted(p), 0
	state, _ := w.hosts[0].store.State(crewID)
	for _, r := range p.disk.records {
		if r.Unsent == event.ToSend || r.N > 0 && (parted || r.N > state.Max) {
			unsent++
		}
	}
	bound := (unsent+exchange.MaxPush-1)/exchange.MaxPush + (int(state.Max)+unsent+w.page-1)/w.page + 10 // what it brings it also takes in
	bound += 2*(int(state.Max)+unsent) + 5                                                               // a page of early arrivals may hold a single one, its own among them, and some come in two stages
	bound += 4 * len(w.erased)                                                                           // a clash with what the phone holds begins again, and a reply may tell of a single one
	// An event that is refused is found by halving: at each of nine sizes up to
	// two tries fail and one goes through, and nine more double the size again.
	bound += 36*len(w.bad) + 3*w.clashes
	for round := 0; ; round++ {
		before := p.disk.meta
		if err := w.sync(p, 0, ""); err != nil {
			return moved, err
		}
		after := p.disk.meta
		moved = moved || before.Cursor != after.Cursor || before.Gen != after.Gen
		if !before.Rewinding && !after.Rewinding && before.Gen == after.Gen && after.Stopped == nil &&
			after.Cursor == after.Max && after.EarlyEnd == 0 && after.ErasuresDigest == w.hosts[0].store.ErasuresDigest(crewID) && !p.disk.waiting() && (len(p.tabs) == 0 || len(p.tabs[0].extra) == 0) {
			return moved, nil
		}
		if round > bound {
			return moved, fmt.Errorf("%s does not drain within %d rounds: cursor %d of %d, %d to come, fails %d, rewinding %t",
				p.name, bound, after.Cursor, after.Max, after.EarlyEnd, after.Failures, after.Rewinding)
		}
	}
}

// parted reports whether the phone's history is not the server's, so that all
// it holds may have to be offered again.
func (w *world) parted(p *phone) bool {
	chain, ok, err := w.hosts[0].store.At(wContext, crewID, p.disk.meta.Cursor)
	return err != nil || !ok || chain != p.disk.meta.Head
}
