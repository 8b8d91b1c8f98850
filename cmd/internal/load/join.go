package load

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// Newcomer is what a phone went through that joined a crew with a long journal.
type Newcomer struct {
	Events   int64
	Early    int           // events that it was given before all the rest
	Usable   time.Duration // until it had taken those in and folded them, natively; 0 if there were none
	Complete time.Duration // until it had all of them
}

// Join takes in the whole journal as one phone does: first the early arrivals, with the
// phone's own state machine and its fold, then page by page all there is. It waits where
// the server asks it to.
func (k *Kerfside) Join(ctx context.Context) (n Newcomer, err error) {
	d := k.Device(0, true).(*phone)
	began := time.Now()
	if n.Early, err = d.takeEarly(ctx); err != nil {
		return n, err
	}
	if n.Early > 0 {
		n.Usable = time.Since(began)
	}
	for {
		before := d.at
		if err := patiently(ctx, func() error { _, err := d.Exchange(ctx, nil); return err }); err != nil {
			return n, err
		}
		if d.at.N <= before.N { // Exchange begins again at its end
			n.Events, n.Complete = before.N, time.Since(began)
			return n, nil
		}
	}
}

// takeEarly takes in the early arrivals and folds them. The phone goes on where the last
// of these replies left it.
func (p *phone) takeEarly(ctx context.Context) (came int, err error) {
	var meta exchange.Meta
	var records []event.Record
	for meta.Cursor == 0 {
		var text []byte
		was, request := meta, exchange.NextRequest(meta, nil, time.Now().UnixMilli())
		if err := patiently(ctx, func() error {
			text, err = p.k.line.post(ctx, "/api/journal/sync", "application/x-ndjson", []byte(request.Body), p.cookie)
			return err
		}); err != nil {
			return 0, err
		}
		c := exchange.Apply(exchange.Exchange{Meta: meta, Status: 200, Reply: string(text)})
		if meta = c.Meta; meta.Failures > 0 || meta.Early == was.Early {
			return 0, fmt.Errorf("the early arrivals do not go on at %q: %w", was.Early, errors.Join(c.Say, errors.New(string(text[:min(len(text), 200)]))))
		}
		for i := range c.Put {
			if c.Put[i].N > meta.Cursor {
				came++
			}
			c.Put[i].L = int64(len(records) + i + 1)
		}
		records = append(records, c.Put...)
		if meta.Max == 0 {
			break
		}
	}
	p.at = exchange.Mark{N: meta.Cursor, H: meta.Head}
	if came == 0 {
		return 0, nil
	}
	return came, fold(records)
}

// fold folds records in the portions of the phone's worker, up to the views.
func fold(records []event.Record) error {
	const portion = 1000
	worker := engine.New()
	for len(records) > 0 {
		part := records[:min(portion, len(records))]
		records = records[len(part):]
		in, err := json.Marshal(map[string]any{"events": part, "more": len(records) > 0})
		if err != nil {
			return err
		}
		if _, err := worker.Call("journal-fold", in); err != nil {
			return err
		}
	}
	return nil
}

// patiently does something until the server no longer asks to wait with it.
func patiently(ctx context.Context, do func() error) error {
	for {
		err := do()
		var refused *refusal
		if !errors.As(err, &refused) || refused.after == 0 {
			return err
		}
		select {
		case <-time.After(refused.after):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}
