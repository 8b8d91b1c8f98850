package server

import (
	"errors"
	"sync"

	"kerfside/calc/problem"
)

// inFlight counts the requests of each sender that are being answered, from before
// their bodies are read on: a body that is held back takes as much memory as one
// that is being worked on. A sender is remembered only while it has one.
type inFlight struct {
	each, all int // most at a time, of one sender and of all
	mu        sync.Mutex
	of        map[string]int
	sum       int
}

// errCrowded is behind each problem of a request too many, of which no line is
// written: a sender could fill the disk with them.
var errCrowded = errors.New("its sender has too many under way")

// crowded is the problem of a request too many.
func crowded() error {
	p := problem.New(problem.Busy, "", "too many requests are waiting for an answer", "Wait a moment, then try again.").WithCause(errCrowded)
	p.Retry = 2
	return p
}

func newInFlight(each, all int) *inFlight {
	return &inFlight{each: each, all: all, of: map[string]int{}}
}

// enter lets a request begin; call leave when it has ended. If too many of its
// sender's are there already, or of everyone's, it is to come again.
func (f *inFlight) enter(sender string) (leave func(), err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.of[sender] >= f.each || f.sum >= f.all {
		return nil, crowded()
	}
	f.of[sender]++
	f.sum++
	return func() {
		f.mu.Lock()
		defer f.mu.Unlock()
		f.sum--
		if f.of[sender]--; f.of[sender] == 0 {
			delete(f.of, sender)
		}
	}, nil
}
