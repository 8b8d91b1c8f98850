package main

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"time"

	"kerfside/cmd/internal/load"
)

// restarts is how often the server is killed.
const restarts = 5

// million fills our store to a million events and measures it again, amid kills
// and with its memory.
func (b *syncBench) million(ctx context.Context) error {
	heading("a million events")
	fill := load.Load{Devices: 8, Batch: 500, Total: max(million-b.acked.Count, 0)}
	f, err := b.run(ctx, fill)
	if err != nil {
		return err
	}
	say("%d events brought by %d devices, %d at a time: %s", f.Brought, fill.Devices, fill.Batch, perSecond(f.Rate()))
	if err := b.kills(ctx); err != nil {
		return err
	}
	rest, err := b.release.memory()
	if err != nil {
		say("memory is not measured here: %v", err)
	}
	for _, l := range syncLoads[1:] {
		if f, err = b.run(ctx, l.load); err != nil {
			return fmt.Errorf("%s, at a million: %w", l.name, err)
		}
		rate := f.Rate()
		if l.load.Batch == 0 {
			rate = f.CameRate()
		}
		b.row("at 1 M: "+l.name, perSecond(rate), waits(f))
	}
	most, err := b.release.memory()
	if err != nil {
		return nil
	}
	b.judge(rest.now <= wantMemory, "at 1 M: memory after a start and the load over it", megabytes(rest.now), "", "", "", "", "≤ "+megabytes(wantMemory))
	b.judge(most.now <= wantMemory, "at 1 M: memory after these loads", megabytes(most.now), "", "", "", "", "≤ "+megabytes(wantMemory))
	b.row("at 1 M: memory at the most", megabytes(most.peak))
	return nil
}

// run puts our server alone under load.
func (b *syncBench) run(ctx context.Context, l load.Load) (load.Figures, error) {
	f, tally, err := load.Run(ctx, b.ours, l)
	b.acked.Join(tally)
	return f, err
}

// kills kills the server under load and starts it again, many times. What was
// not acknowledged by then is brought again, as phones do.
func (b *syncBench) kills(ctx context.Context) error {
	var took []time.Duration
	for range restarts {
		loaded := make(chan error, 1)
		go func() {
			f, err := b.run(ctx, load.Load{Devices: 20, Batch: 50, For: 2 * time.Second})
			if err == nil && f.Failures == 0 {
				err = fmt.Errorf("the kill met no request")
			}
			loaded <- err
		}()
		time.Sleep(time.Second) // amid the load
		d, err := b.release.restart()
		if err != nil {
			return err
		}
		took = append(took, d)
		if err := <-loaded; err != nil {
			return fmt.Errorf("load over a kill: %w", err)
		}
	}
	slices.Sort(took)
	b.judge(took[restarts/2] <= wantRestart, fmt.Sprintf("at 1 M: kill −9 under load to serving, median of %d", restarts),
		took[restarts/2].Round(time.Millisecond).String(), "", "", "", "", "≤ "+wantRestart.String())
	return nil
}

// memory is what a process holds resident, in bytes.
type memory struct{ now, peak int64 }

var residents = regexp.MustCompile(`(VmRSS|VmHWM):\s+(\d+) kB`)

// memory asks the system.
func (r *release) memory() (m memory, err error) {
	if runtime.GOOS != "linux" {
		return m, fmt.Errorf("this is %s", runtime.GOOS)
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", r.server.Process.Pid))
	if err != nil {
		return m, err
	}
	for _, found := range residents.FindAllSubmatch(text, -1) {
		kb, err := strconv.ParseInt(string(found[2]), 10, 64)
		if err != nil {
			return m, err
		}
		if string(found[1]) == "VmRSS" {
			m.now = kb * 1024
		} else {
			m.peak = kb * 1024
		}
	}
	return m, nil
}
