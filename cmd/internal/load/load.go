package load

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"
)

// Server is what can be put under load.
type Server interface {
	// Device returns a device of the crew. One that follows takes in all that
	// the others bring, a page with each exchange; one that does not asks only
	// for what is newer than anything seen yet.
	Device(number int, follows bool) Device
}

// Device is one phone on the line to a server.
type Device interface {
	// Exchange brings events and returns, when they are acknowledged, how many
	// of others came back.
	Exchange(ctx context.Context, events [][]byte) (came int, err error)
}

// Load is what devices do all at once.
type Load struct {
	Devices int
	Batch   int           // events that each brings at a time; 0 only takes in
	Follows bool          // each also takes in what the others bring
	For     time.Duration // how long
	Total   int64         // or until so many events were brought
}

// again is how long a device waits after a failure, unless the server says how long.
const again = 20 * time.Millisecond

// Run puts a server under load and returns the figures and a tally of what was
// acknowledged. Ending ctx ends the load early; what waits is then not counted
// and nobody knows whether it was stored.
func Run(ctx context.Context, s Server, l Load) (Figures, Tally, error) {
	var (
		all    sync.WaitGroup
		mu     sync.Mutex
		sum    Figures
		tally  Tally
		failed error
		taken  int64 // events that devices have taken on to bring, for Total
	)
	more := func() bool {
		mu.Lock()
		defer mu.Unlock()
		if l.Total > 0 && taken >= l.Total || failed != nil {
			return false
		}
		taken += int64(l.Batch)
		return true
	}
	began := time.Now()
	for number := range l.Devices {
		all.Go(func() {
			f, t, err := work(ctx, s.Device(number, l.Follows || l.Batch == 0), l, number, began, more)
			mu.Lock()
			defer mu.Unlock()
			sum.Join(f)
			tally.Join(t)
			if failed == nil {
				failed = err
			}
		})
	}
	all.Wait()
	sum.Took = time.Since(began)
	return sum, tally, failed
}

// work is what one device does.
func work(ctx context.Context, d Device, l Load, number int, began time.Time, more func() bool) (f Figures, t Tally, err error) {
	m := maker{device: fmt.Sprintf("load-%d", number)}
	for ctx.Err() == nil && (l.For == 0 || time.Since(began) < l.For) && more() {
		events := m.batch(l.Batch)
		start := time.Now()
		came, failures, err := persist(ctx, d, events)
		f.Failures += failures
		if err != nil {
			return f, t, err
		}
		f.waits = append(f.waits, time.Since(start))
		f.Brought += int64(len(events))
		f.Came += int64(came)
		for _, raw := range events {
			t.Add(raw)
		}
	}
	return f, t, nil
}

// maxFailures in a row end a load: a server that was killed is back long before.
const maxFailures = 500

// persist repeats an exchange until it is answered.
func persist(ctx context.Context, d Device, events [][]byte) (came, failures int, err error) {
	for ; failures < maxFailures; failures++ {
		if came, err = d.Exchange(ctx, events); err == nil {
			return came, failures, nil
		}
		pause := again
		var refused *refusal
		if errors.As(err, &refused) {
			pause = max(pause, refused.after)
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
			return 0, failures, ctx.Err()
		}
	}
	return 0, failures, err
}
