package main

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"text/tabwriter"
	"time"

	"kerfside/cmd/internal/load"
	"kerfside/server/store"
)

const million = 1_000_000

// push is the load that the store's budgets go by.
var push = load.Load{Devices: 20, Batch: 50, For: turnTime}

// syncLoads are what our server and the general-purpose one get. They take turns,
// so that what else the machine does falls on both. Our server hands out with each
// sync what others brought meanwhile, so the ratio is held where the other does
// both as well.
var syncLoads = []struct {
	name string
	load load.Load
	held string // the figure that the ratio is, if there is a budget for it
}{
	{name: "1 device brings 1", load: load.Load{Devices: 1, Batch: 1, Total: 140}}, // fewer than make the server ask it to slow down
	{name: "20 devices bring 50 each", load: push},
	{name: "50 devices bring 100 each", load: load.Load{Devices: 50, Batch: 100, For: turnTime}},
	{name: "20 devices bring 50 and take in all", load: load.Load{Devices: 20, Batch: 50, Follows: true, For: turnTime}, held: "comparator"},
	{name: "20 devices take in pages", load: load.Load{Devices: 20, For: turnTime}},
}

const (
	syncTurns = 2
	turnTime  = 4 * time.Second
	syncLimit = 15 * time.Minute // ends a run that hangs
	phones    = 300              // as many that none brings more than a phone may in a day
	young     = 10_000           // events in a journal that has begun
)

// benchSync measures the release binary over loopback; the devices are in this
// process.
func benchSync(ctx context.Context, f figures) error {
	ctx, cancel := context.WithTimeout(ctx, syncLimit)
	defer cancel()
	r, err := startInstance()
	if err != nil {
		return err
	}
	defer r.stop()
	cookies, err := r.enrol(phones)
	if err != nil {
		return err
	}
	b := &syncBench{figures: f, instance: r, ours: load.NewKerfside(r.url, cookies)}
	for _, step := range []func(context.Context) error{b.young, b.besideComparator, b.million, b.join, b.held} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	heading("loads; the comparator acknowledges before its disk does, ours and the raw loop after")
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "   \tkerfside\tp50 / p95 ms\tbeside it\tp50 / p95 ms\tratio")
	for _, row := range b.rows {
		fmt.Fprintln(w, "   "+row)
	}
	return w.Flush()
}

// enrol lets so many devices join.
func (r *instance) enrol(devices int) ([]*http.Cookie, error) {
	access, err := store.OpenAccess(r.db())
	if err != nil {
		return nil, err
	}
	defer access.Close()
	return load.Enrol(access, r.url, devices)
}

// syncBench is one run.
type syncBench struct {
	figures
	instance *instance
	ours     *load.Kerfside
	acked    load.Tally // by ours
	rows     []string
	youth    float64 // events a second while the journal was young
}

// run puts our server under load.
func (b *syncBench) run(ctx context.Context, l load.Load) (load.Figures, error) {
	if err := b.ours.CatchUp(ctx); err != nil {
		return load.Figures{}, fmt.Errorf("to the journal's end before a load: %w", err)
	}
	f, tally, err := load.Run(ctx, b.ours, l)
	b.acked.Join(tally)
	if err == nil {
		err = ctx.Err() // a load that was broken off is no measurement
	}
	return f, err
}

// row adds a line about a load, alone or beside the same load on another.
func (b *syncBench) row(name string, l load.Load, ours load.Figures, beside *load.Figures) (ratio float64) {
	rate := load.Figures.Rate
	if l.Batch == 0 {
		rate = load.Figures.CameRate
	}
	line := name + "\t" + aSecond(rate(ours)) + "\t" + waits(ours)
	if beside != nil {
		ratio = rate(ours) / rate(*beside)
		line += "\t" + aSecond(rate(*beside)) + "\t" + waits(*beside) + "\t" + asRatio(ratio)
	}
	b.rows = append(b.rows, line)
	say("%s: done", name)
	return ratio
}

// young measures a journal that has begun beside a raw loop of SQLite on the same
// disk. The first few turns of both are longer than those of a warm one, so the
// events that make it young come first.
func (b *syncBench) young(ctx context.Context) error {
	heading("a journal of %d events, beside a raw loop of SQLite; %d turns of %v each", young, syncTurns, turnTime)
	raw, err := load.NewRaw(filepath.Join(b.instance.dir, "raw.db"))
	if err != nil {
		return err
	}
	defer raw.Close()
	start := load.Load{Devices: 20, Batch: 50, Total: young}
	if _, _, err := load.Run(ctx, raw, start); err != nil {
		return fmt.Errorf("the raw loop: %w", err)
	}
	if _, err := b.run(ctx, start); err != nil {
		return err
	}
	var ours, theirs load.Figures
	for turn := range syncTurns {
		f, err := b.run(ctx, push)
		if err != nil {
			return err
		}
		if turn == 0 {
			b.youth = f.Rate() // before it has grown
		}
		ours.Join(f)
		if f, _, err = load.Run(ctx, raw, push); err != nil {
			return fmt.Errorf("the raw loop: %w", err)
		}
		theirs.Join(f)
	}
	share := b.row("20 devices bring 50 each, beside the raw loop", push, ours, &theirs)
	b.found("share", share)
	b.found("rate", ours.Rate())
	return nil
}

// besideComparator puts both servers under each load in turns. Without the other
// one the figures stand alone.
func (b *syncBench) besideComparator(ctx context.Context) error {
	heading("loads, %d turns of %v each", syncTurns, turnTime)
	other, err := startComparator(ctx)
	if err != nil {
		b.missing("comparator", fmt.Errorf("there is no comparator: %w", err))
		say("NO COMPARATOR: %v", err)
	} else {
		defer other.stop() // it would take of the machine that is measured next
	}
	var taken int64
	for _, l := range syncLoads {
		var ours, theirs load.Figures
		for range syncTurns {
			f, err := b.run(ctx, l.load)
			if err != nil {
				return fmt.Errorf("%s: %w", l.name, err)
			}
			ours.Join(f)
			if other == nil {
				continue
			}
			if f, _, err = load.Run(ctx, other, l.load); err != nil {
				return fmt.Errorf("the comparator: %s: %w", l.name, err)
			}
			theirs.Join(f)
			taken += f.Brought
		}
		if other == nil {
			b.row(l.name, l.load, ours, nil)
			continue
		}
		if ratio := b.row(l.name, l.load, ours, &theirs); l.held != "" {
			b.found(l.held, ratio)
		}
	}
	if other == nil {
		return nil
	}
	if count, err := other.Held(ctx); err == nil && count != taken {
		say("the comparator took %d documents and holds %d", taken, count)
	}
	return nil
}

// join lets a phone join that has nothing yet.
func (b *syncBench) join(ctx context.Context) error {
	heading("a phone that is new to all of it")
	n, err := b.ours.Join(ctx)
	if err != nil {
		return err
	}
	if n.Events != b.acked.Count {
		return fmt.Errorf("a phone that joined has %d events of %d", n.Events, b.acked.Count)
	}
	say("%d events in %v; %d early ones taken in and folded after %v", n.Events, n.Complete.Round(time.Millisecond), n.Early, n.Usable.Round(time.Millisecond))
	b.found("complete", milliseconds(n.Complete))
	if n.Early == 0 {
		return fmt.Errorf("a phone that joined was given nothing before the oldest")
	}
	b.found("usable", milliseconds(n.Usable))
	return nil
}

// held compares what the server holds with what it acknowledged.
func (b *syncBench) held(ctx context.Context) error {
	heading("reading it all back")
	began := time.Now()
	held, err := b.ours.Held(ctx)
	if err == nil {
		err = b.acked.Check(held)
	}
	say("%d events, their numbers, sums and chain (%s)", held.Count, took(began))
	if err != nil {
		b.missing("lost", err)
		return err
	}
	b.found("lost", float64(b.acked.Count-held.Count))
	return nil
}

func milliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1e3 }

// waits prints how long an exchange took.
func waits(f load.Figures) string {
	return fmt.Sprintf("%.1f / %.1f", milliseconds(f.Wait(50)), milliseconds(f.Wait(95)))
}
