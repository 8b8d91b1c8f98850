package load

import (
	"context"
	"errors"
	"time"
)

// Newcomer is what a phone went through that joined a crew with a long journal.
type Newcomer struct {
	Events   int64
	Complete time.Duration // until it had all of them
}

// Join takes in the whole journal as one phone does, page by page, and waits where
// the server asks it to.
func (k *Kerfside) Join(ctx context.Context) (n Newcomer, err error) {
	d := k.Device(0, true).(*phone)
	began := time.Now()
	for {
		before := d.at
		if _, err := d.Exchange(ctx, nil); err != nil {
			var refused *refusal
			if !errors.As(err, &refused) || refused.after == 0 {
				return n, err
			}
			select {
			case <-time.After(refused.after):
				continue
			case <-ctx.Done():
				return n, ctx.Err()
			}
		}
		if d.at.N <= before.N { // Exchange begins again at its end
			return Newcomer{before.N, time.Since(began)}, nil
		}
	}
}
