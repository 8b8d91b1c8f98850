package server

import (
	"cmp"
	"log/slog"
	"slices"
	"sync"
	"time"

	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// Budget is what one phone may have stored in a day: so much at once, and as much
// again over each day that follows.
type Budget struct {
	Events int64
	Bytes  int64 // of events and pictures
}

// Budgets far above a day's work: some thousand taps and two hundred pictures.
var (
	dayBudget = Budget{Events: 20_000, Bytes: 200e6}

	// broughtBudget is for what a phone brings along and did not enter today: a
	// journal that it kept before it joined, an import, weeks without signal, or
	// all that a restored server has lost. It holds a crew's journal of years. A
	// phone that lies about the age of its entries is bounded by it.
	broughtBudget = Budget{Events: 500_000, Bytes: 500e6}
)

// broughtAge is how old an entry is that its phone brings along.
const broughtAge = 24 * time.Hour

// budgets counts what each phone has had stored. The zero value has the budgets
// above. The counts begin anew with the server.
type budgets struct {
	day, brought Budget // zero for those above

	mu    sync.Mutex
	spent map[string]*spending // by crew and device; only phones that joined are here
}

// spending is of one phone.
type spending struct {
	fresh, brought Budget
	at             time.Time // up to when what was spent has come back
	refused        time.Time // when it last asked for more, zero if never
	healing        time.Time // when it last began to bring what is missing here, zero if never
	told           time.Time // when the log last said so
}

// healTime is how long the pictures of a phone count as brought after it brought
// entries with pictures, or found that the server has lost some: a picture does not
// say how old it is, and a slow line takes days for them.
const healTime = 7 * 24 * time.Hour

// tellBudget is how often the log tells of one phone, and how long its owner is
// shown it.
const (
	tellBudget = time.Hour
	showBudget = 24 * time.Hour
)

// retryBudget is when a phone asks again, in seconds; meanwhile it fetches.
const retryBudget = 60

// isBrought reports whether an event was not entered just now: an o says that a
// server had it before.
func isBrought(p exchange.Push, now time.Time) bool {
	return p.Reoffered || now.UnixMilli()-p.Event.T.Ms() > broughtAge.Milliseconds()
}

// cost adds up what events would take of either budget.
func cost(list []exchange.Push, now time.Time) (fresh, brought Budget) {
	for _, p := range list {
		to := &fresh
		if isBrought(p, now) {
			to = &brought
		}
		to.Events++
		to.Bytes += int64(len(p.Event.Raw))
	}
	return fresh, brought
}

// of returns what a phone has spent; call it with mu held.
func (b *budgets) of(who store.Device, now time.Time) *spending {
	key := who.Crew + " " + who.ID
	x := b.spent[key]
	if x == nil {
		if b.spent == nil {
			b.spent = map[string]*spending{}
		}
		x = &spending{at: now}
		b.spent[key] = x
	}
	if past := now.Sub(x.at); past >= time.Minute { // by the minute, so that small parts are not rounded away
		x.fresh.regain(b.limits().day, past)
		x.brought.regain(b.limits().brought, past)
		x.at = now
	} else if past < 0 {
		x.at = now // the server's clock was put back
	}
	return x
}

// limits returns the budgets that count.
func (b *budgets) limits() (l struct{ day, brought Budget }) {
	l.day = Budget{cmp.Or(b.day.Events, dayBudget.Events), cmp.Or(b.day.Bytes, dayBudget.Bytes)}
	l.brought = Budget{cmp.Or(b.brought.Events, broughtBudget.Events), cmp.Or(b.brought.Bytes, broughtBudget.Bytes)}
	return l
}

// regain gives back what the time allows.
func (b *Budget) regain(limit Budget, past time.Duration) {
	part := min(1, past.Hours()/24)
	b.Events = max(0, b.Events-int64(part*float64(limit.Events)))
	b.Bytes = max(0, b.Bytes-int64(part*float64(limit.Bytes)))
}

// within reports whether something of limit is left, or nothing is wanted.
func (b Budget) within(limit, wanted Budget) bool {
	return wanted == (Budget{}) || b.Events < limit.Events && b.Bytes < limit.Bytes
}

// check refuses what a phone has no budget left for. It goes over by at most one
// request of each that it has under way.
func (b *budgets) check(who store.Device, fresh, brought Budget, now time.Time, log *slog.Logger) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	x, limit := b.of(who, now), b.limits()
	if x.fresh.within(limit.day, fresh) && x.brought.within(limit.brought, brought) {
		return nil
	}
	x.refused = now
	if x.told.IsZero() || now.Sub(x.told) >= tellBudget {
		x.told = now
		log.Warn("a phone has used up its budget for the day; what it sends more waits on it", "crew", who.Crew, "device", who.ID,
			"entries", x.fresh.Events, "bytes", x.fresh.Bytes, "older entries", x.brought.Events, "older bytes", x.brought.Bytes)
	}
	p := problem.New(problem.SlowDown, "", "this phone has sent as much as the server takes from one phone in a day",
		"What you enter stays on this phone and goes up by itself, bit by bit. If the work needs more, ask whoever runs the server.")
	p.Retry = retryBudget
	return p
}

// spend counts what was stored.
func (b *budgets) spend(who store.Device, fresh, brought Budget, now time.Time) {
	b.mu.Lock()
	defer b.mu.Unlock()
	x := b.of(who, now)
	x.fresh.Events, x.fresh.Bytes = x.fresh.Events+fresh.Events, x.fresh.Bytes+fresh.Bytes
	x.brought.Events, x.brought.Bytes = x.brought.Events+brought.Events, x.brought.Bytes+brought.Bytes
}

// heal notes that a phone brings what is missing here.
func (b *budgets) heal(who store.Device, now time.Time) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.of(who, now).healing = now
}

// picture is cost for a picture of so many bytes.
func (b *budgets) picture(who store.Device, size int64, now time.Time) (fresh, brought Budget) {
	b.mu.Lock()
	defer b.mu.Unlock()
	x := b.of(who, now)
	if past := now.Sub(x.healing); !x.healing.IsZero() && past.Abs() < healTime {
		return Budget{}, Budget{Bytes: size}
	}
	return Budget{Bytes: size}, Budget{}
}

// bringsPictures reports whether events that a phone brings along tell of pictures.
func bringsPictures(list []exchange.Push, now time.Time) bool {
	return slices.ContainsFunc(list, func(p exchange.Push) bool { return isBrought(p, now) && exchange.PictureOf(p.Event) != "" })
}

// over returns when a phone was last refused for its budget, ms, 0 if that was
// not within the day.
func (b *budgets) over(who store.Device, now time.Time) int64 {
	b.mu.Lock()
	defer b.mu.Unlock()
	x := b.spent[who.Crew+" "+who.ID]
	if x == nil || x.refused.IsZero() || now.Sub(x.refused) > showBudget {
		return 0
	}
	return x.refused.UnixMilli()
}

// stored returns those of the pushed events that were not there before.
func stored(pushes []exchange.Push, acks []exchange.Ack, before int64) (list []exchange.Push) {
	seen := map[int64]bool{}
	for i, a := range acks {
		if a.N > before && !a.Conflict && !seen[a.N] {
			seen[a.N] = true
			list = append(list, pushes[i])
		}
	}
	return list
}
