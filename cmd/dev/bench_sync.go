package main

import (
	"context"
	"fmt"
	"net/http"
	"time"

	"kerfside/cmd/internal/load"
	"kerfside/server/store"
)

// Targets of the sync that are no figures of a load.
const (
	wantRestart = 150 * time.Millisecond // from kill −9 to an answer, with a million events
	wantMemory  = 64e6                   // bytes resident, with a million events
	million     = 1_000_000
)

// syncLoads are what both servers get. They take turns, so that what else the
// machine does falls on both. Our server hands out with each sync what others
// brought meanwhile, so the ratio is held where the other does both as well.
var syncLoads = []struct {
	name        string
	load        load.Load
	rate, ratio float64 // at least, 0 for no target
}{
	{"1 device brings 1", load.Load{Devices: 1, Batch: 1, Total: 140}, 0, 0}, // fewer than make the server ask it to slow down
	{"20 devices bring 50 each", load.Load{Devices: 20, Batch: 50, For: turnTime}, 20_000, 0},
	{"50 devices bring 100 each", load.Load{Devices: 50, Batch: 100, For: turnTime}, 0, 0},
	{"20 devices bring 50 and take in all", load.Load{Devices: 20, Batch: 50, Follows: true, For: turnTime}, 0, 8},
	{"20 devices take in pages", load.Load{Devices: 20, For: turnTime}, 0, 0},
}

const (
	syncTurns = 2
	turnTime  = 5 * time.Second
)

// benchSync measures the release binary over loopback; the devices are in this
// process.
func benchSync() error {
	if err := setUp(partCompiler, partWasm, partPack, partBundle); err != nil {
		return err
	}
	other, err := startComparator()
	if err != nil {
		heading("NO COMPARATOR: %v", err)
		say("The figures below stand alone, and no ratio is judged.")
	} else {
		defer other.stop()
	}
	r, err := startRelease()
	if err != nil {
		return err
	}
	defer r.stop()
	cookies, err := r.enrol(50)
	if err != nil {
		return err
	}
	b := &syncBench{release: r, ours: load.NewKerfside(r.url, cookies), other: other}
	for _, step := range []func(context.Context) error{b.loads, b.million, b.held, b.taps} {
		if err := step(context.Background()); err != nil {
			return err
		}
	}
	heading("figures; compare them within this run only")
	err = b.print("", "kerfside", "p50/p95 ms", "comparator", "p50/p95 ms", "ratio", "target", "")
	say("The comparator acknowledges before its disk does; ours after.")
	return err
}

// enrol lets so many devices join.
func (r *release) enrol(devices int) ([]*http.Cookie, error) {
	access, err := store.OpenAccess(r.db())
	if err != nil {
		return nil, err
	}
	defer access.Close()
	return load.Enrol(access, r.url, devices)
}

// syncBench is one run.
type syncBench struct {
	verdicts
	release *release
	ours    *load.Kerfside
	other   *comparator // nil if it cannot be run
	acked   load.Tally  // by ours
	taken   int64       // by the other
}

// loads puts both servers under each load in turns.
func (b *syncBench) loads(ctx context.Context) error {
	heading("loads, %d turns of %v each", syncTurns, turnTime)
	for _, l := range syncLoads {
		var ours, theirs load.Figures
		for range syncTurns {
			f, tally, err := load.Run(ctx, b.ours, l.load)
			if err != nil {
				return fmt.Errorf("%s: %w", l.name, err)
			}
			ours.Join(f)
			b.acked.Join(tally)
			if b.other == nil {
				continue
			}
			if f, _, err = load.Run(ctx, b.other, l.load); err != nil {
				return fmt.Errorf("the comparator: %s: %w", l.name, err)
			}
			theirs.Join(f)
			b.taken += f.Brought
		}
		say("%s: done", l.name)
		b.compare(l.name, l.load.Batch == 0, l.rate, l.ratio, ours, theirs)
	}
	return nil
}

// compare adds a line for a load.
func (b *syncBench) compare(name string, pull bool, wantRate, wantRatio float64, ours, theirs load.Figures) {
	rate := load.Figures.Rate
	if pull {
		rate = load.Figures.CameRate
	}
	cells := []string{name, perSecond(rate(ours)), waits(ours), "", "", ""}
	ratio := rate(ours) / rate(theirs)
	if b.other != nil {
		cells[3], cells[4], cells[5] = perSecond(rate(theirs)), waits(theirs), fmt.Sprintf("%.1f ×", ratio)
	}
	switch {
	case wantRate > 0:
		b.judge(rate(ours) >= wantRate, append(cells, "≥ "+perSecond(wantRate))...)
	case wantRatio > 0 && b.other != nil:
		b.judge(ratio >= wantRatio, append(cells, fmt.Sprintf("≥ %.0f ×", wantRatio))...)
	default:
		b.row(cells...)
	}
}

// held compares what the servers hold with what they acknowledged.
func (b *syncBench) held(ctx context.Context) error {
	heading("reading it all back")
	began := time.Now()
	held, err := b.ours.Held(ctx)
	if err == nil {
		err = b.acked.Check(held)
	}
	if err != nil {
		say("%v", err)
	}
	say("%d events, their numbers, sums and chain (%s)", held.Count, took(began))
	b.judge(err == nil, "lost, or not as they were brought", fmt.Sprint(max(b.acked.Count-held.Count, 0)), "", "", "", "", "0, sums equal")
	if b.other == nil {
		return nil
	}
	count, err := b.other.Held(ctx)
	if err == nil && count != b.taken {
		say("the comparator took %d documents and holds %d", b.taken, count)
	}
	return err
}

// taps measures the other end of the way: from a tap in the browser until the
// phone's disk has it. The test holds the figures to their budgets.
func (b *syncBench) taps(context.Context) error {
	heading("tap to durable in Chromium, at full speed and six times slower")
	err := needChromium()
	if err == nil {
		err = cmd("go", "test", "-count=1", "-run", "^$", "-bench", "^BenchmarkBrowserTap$", "-benchtime", "1x", "./cmd/kerfside").loud()
	}
	b.judge(err == nil, "tap to durable, p95: see above", "", "", "", "", "", "≤ 20 ms, ≤ 100 ms at 6 ×")
	return nil
}

func perSecond(rate float64) string { return fmt.Sprintf("%.0f/s", rate) }

// waits prints how long an exchange took.
func waits(f load.Figures) string {
	ms := func(p int) float64 { return float64(f.Wait(p).Microseconds()) / 1e3 }
	return fmt.Sprintf("%.1f / %.1f", ms(50), ms(95))
}
