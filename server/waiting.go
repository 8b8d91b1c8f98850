package server

import (
	"context"
	"sync"
)

// waiting keeps the requests of phones that wait for news. A browser may leave a
// request that it gave up open, and a phone that changes its network does, so the
// newest is the one that somebody listens to: with one too many of a phone's, its
// oldest is let go.
type waiting struct {
	each, all int // most at a time, of one phone and of all
	mu        sync.Mutex
	of        map[string][]*wait // oldest first
	sum       int
}

// wait is one request. A wait that was let go is in no list any more.
type wait struct{ letGo context.CancelCauseFunc }

func newWaiting(each, all int) *waiting {
	return &waiting{each: each, all: all, of: map[string][]*wait{}}
}

// enter lets a phone wait with a context that ends, with errCrowded as its cause,
// when the phone has too many others; call leave when the request has ended. If too
// many of everyone's wait, it is to come again.
func (w *waiting) enter(ctx context.Context, phone string) (_ context.Context, leave func(), err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.sum >= w.all {
		return ctx, nil, crowded()
	}
	ctx, letGo := context.WithCancelCause(ctx)
	one := &wait{letGo}
	w.of[phone] = append(w.of[phone], one)
	w.sum++
	if list := w.of[phone]; len(list) > w.each {
		list[0].letGo(errCrowded)
		w.remove(phone, list[0])
	}
	return ctx, func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		w.remove(phone, one)
		letGo(nil)
	}, nil
}

// count is how many wait.
func (w *waiting) count() int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.sum
}

// remove takes a request out of the list, if it is still there.
func (w *waiting) remove(phone string, one *wait) {
	list := w.of[phone]
	for i := range list {
		if list[i] != one {
			continue
		}
		w.sum--
		if len(list) == 1 {
			delete(w.of, phone)
		} else {
			w.of[phone] = append(list[:i:i], list[i+1:]...)
		}
		return
	}
}
