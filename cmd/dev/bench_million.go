package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"kerfside/cmd/internal/load"
)

// restarts is how often the server is killed.
const restarts = 5

// million fills our store to a million events and measures it again, amid kills
// and with its memory.
func (b *syncBench) million(ctx context.Context) error {
	heading("a million events")
	fill := load.Load{Devices: 100, Batch: 100, Total: max(million-b.acked.Count, 1)}
	f, err := b.run(ctx, fill)
	if err != nil {
		return err
	}
	say("%d events brought by %d devices, %d at a time: %s", f.Brought, fill.Devices, fill.Batch, aSecond(f.Rate()))
	if err := b.kills(ctx); err != nil {
		return err
	}
	if err := b.instance.rests(ctx); err != nil {
		say("the server may still be looking through its database: %v", err)
	}
	afterStart, err := b.instance.memory()
	if err != nil {
		b.missing("memory", err)
	}
	for _, l := range syncLoads[1:] {
		if f, err = b.run(ctx, l.load); err != nil {
			return fmt.Errorf("%s, at a million: %w", l.name, err)
		}
		b.row("at 1 M: "+l.name, l.load, f, nil)
		if l.load == push {
			b.found("grown", f.Rate()/b.youth)
		}
	}
	afterLoads, err := b.instance.memory()
	if err != nil {
		return nil // said above
	}
	say("memory after a start and the load over it %s, after these loads %s, at the most %s",
		megabytes(afterStart.now), megabytes(afterLoads.now), megabytes(afterLoads.peak))
	b.found("memory", float64(max(afterStart.now, afterLoads.now)))
	return nil
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
		d, err := b.instance.restart()
		if err != nil {
			return err
		}
		took = append(took, d)
		if err := <-loaded; err != nil {
			return fmt.Errorf("load over a kill: %w", err)
		}
	}
	slices.Sort(took)
	say("kill −9 under load to serving, ms, in order: %v", took)
	b.found("restart", milliseconds(took[restarts/2]))
	return nil
}

// memory is what a process holds resident, in bytes.
type memory struct{ now, peak int64 }

var residents = regexp.MustCompile(`(VmRSS|VmHWM):\s+(\d+) kB`)

// rests waits until the server does nothing. After a kill it looks through its
// database, which takes a processor for some seconds and keeps the write-ahead log
// from being emptied: a load meanwhile would tell of that.
func (r *instance) rests(ctx context.Context) error {
	for before := -1; ; {
		used, err := r.ticks()
		if err != nil {
			return err
		}
		if used-before <= 1 && before >= 0 {
			return nil
		}
		before = used
		select {
		case <-time.After(time.Second):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// ticks is how much of the processors the server has used, in hundredths of a
// second.
func (r *instance) ticks() (int, error) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", r.server.Process.Pid))
	if err != nil {
		return 0, err
	}
	_, fields, _ := strings.Cut(string(text), ") ") // behind the name, which may have blanks
	list := strings.Fields(fields)
	if len(list) < 13 {
		return 0, fmt.Errorf("the system says %q of the server", text)
	}
	user, err1 := strconv.Atoi(list[11])
	system, err2 := strconv.Atoi(list[12])
	return user + system, errors.Join(err1, err2)
}

// memory asks the system.
func (r *instance) memory() (m memory, err error) {
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
