package server

import (
	"math"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"kerfside/calc/problem"
)

// limits keep one sender from taking the server from all others. They are far
// above what a phone does, which halves and waits by itself when told to.
type limits struct {
	address *limiter // requests without a token
	device  *limiter // requests of a phone
	enrol   *limiter // typed codes, by address
	codes   *limiter // typed codes, of everyone: each costs some 20 ms to hash
	invites *limiter // invitations that a phone makes, which cost as much

	held          *inFlight // requests of a phone at a time: each may hold a megabyte or two
	heldByAddress *inFlight // those without a token, which are small, by address
	waiting       *waiting  // for news: they hold next to nothing
}

func newLimits(now func() time.Time) *limits {
	return &limits{
		address: newLimiter(now, 50, 1000),
		device:  newLimiter(now, 50, 300),
		enrol:   newLimiter(now, 1./3, 20),
		codes:   newLimiter(now, 2, 40),
		invites: newLimiter(now, 1./3, 40),

		held:          newInFlight(8, 400),
		heldByAddress: newInFlight(32, 1000),
		waiting:       newWaiting(4, 2000),
	}
}

// maxSenders is how many senders a limiter remembers.
const maxSenders = 10_000

// limiter is a token bucket for each sender.
type limiter struct {
	now    func() time.Time
	each   rate.Limit
	burst  int
	mu     sync.Mutex
	bucket map[string]*rate.Limiter
	swept  time.Time // when quiet senders were last looked for
}

func newLimiter(now func() time.Time, perSecond float64, burst int) *limiter {
	return &limiter{now: now, each: rate.Limit(perSecond), burst: burst, bucket: map[string]*rate.Limiter{}}
}

// take takes one from the sender's bucket; if that is empty it says when there
// will be one.
func (l *limiter) take(sender string) error {
	now := l.now()
	l.mu.Lock()
	b, ok := l.bucket[sender]
	if !ok {
		l.makeRoom(now)
		b = rate.NewLimiter(l.each, l.burst)
		l.bucket[sender] = b
	}
	l.mu.Unlock()
	if b.AllowN(now, 1) {
		return nil
	}
	p := problem.New(problem.SlowDown, "", "too many requests", "Wait a moment, then try again.")
	p.Retry = max(1, int(math.Ceil((1-b.TokensAt(now))/float64(l.each))))
	return p
}

// makeRoom forgets senders that have been quiet, and if there are none, one at
// random; call it with mu held.
func (l *limiter) makeRoom(now time.Time) {
	if len(l.bucket) < maxSenders {
		return
	}
	if now.Sub(l.swept) >= time.Second { // a crowd must not make each of its requests look at all
		l.swept = now
		for sender, b := range l.bucket {
			if b.TokensAt(now) >= float64(l.burst) {
				delete(l.bucket, sender)
			}
		}
	}
	for sender := range l.bucket {
		if len(l.bucket) < maxSenders {
			return
		}
		delete(l.bucket, sender) // the order of a map is random
	}
}
