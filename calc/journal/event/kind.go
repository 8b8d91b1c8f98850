package event

import (
	"fmt"

	"kerfside/calc/order"
)

// ErasedKind is the kind of what stands in the place of an erased event. The
// fold keeps it as part of the set and shows nothing of it.
const ErasedKind = "erased"

// Needs says what the fold asks of the body of a kind. An event that does not
// keep to it is listed with a warning, and passed over otherwise.
type Needs struct {
	About        bool     // the event must say what it is about
	Texts        []string // keys that must hold text
	Ints         []string // keys that must hold an integer
	OptionalInts []string // keys that, if they are there, must hold an integer
}

// kinds are the kinds that this version folds, all of v 1.
var kinds = func() map[string]Needs {
	m := make(map[string]Needs, len(kindList))
	for _, k := range kindList {
		m[k.kind] = k.want
	}
	return m
}()

// kindList is kinds as a list, which a program holds as it stands: a map written
// out takes code for each entry.
var kindList = []struct {
	kind string
	want Needs
}{
	{"rig.set", Needs{About: true}},
	{"site.set", Needs{About: true}},
	{"job.set", Needs{About: true}},
	{"line.set", Needs{About: true}},
	{"setting.set", Needs{}},
	{"same", Needs{About: true, Texts: []string{"as"}}},
	{"session.opened", Needs{About: true}},
	{"session.closed", Needs{About: true}},
	{"session.set", Needs{About: true}},
	{"arc.started", Needs{}},
	{"arc.stopped", Needs{Texts: []string{"of"}, OptionalInts: []string{"starts"}}},
	{"arc.run", Needs{Ints: []string{"start", "stop"}, OptionalInts: []string{"starts"}}},
	{"part.fitted", Needs{About: true, Texts: []string{"slot"}}},
	{"part.pulled", Needs{About: true}},
	{"part.reading", Needs{About: true}},
	{"trap.drained", Needs{}},
	{"filter.changed", Needs{}},
	{"cut.tried", Needs{}},
	{"note.added", Needs{}},
	{"photo.added", Needs{}},
	{"guide.opened", Needs{Texts: []string{"guide"}}},
	{"check.answered", Needs{Texts: []string{"guide", "step", "result"}}},
	{"check.cleared", Needs{Texts: []string{"of"}}},
	{"fault.seen", Needs{}},
	{"fault.found", Needs{About: true}},
	{"fault.mended", Needs{About: true}},
	{"watch.started", Needs{Ints: []string{"ms"}}},
	{"watch.ended", Needs{Texts: []string{"of"}}},
	{"stock.moved", Needs{About: true, Ints: []string{"n"}}},
	{"stock.counted", Needs{About: true, Ints: []string{"n"}}},
	{"amend", Needs{Texts: []string{"of"}}},
	{"void", Needs{Texts: []string{"of"}}},
}

// Kinds returns the kinds that this version folds, in order.
func Kinds() []string { return order.Keys(kinds) }

// NeedsOf returns what the fold asks of the body of a kind.
func NeedsOf(kind string) Needs { return kinds[kind] }

// IsKnown reports whether this version folds events of that kind and version.
func IsKnown(kind string, v int64) bool {
	_, ok := kinds[kind]
	return ok && v == 1
}

// Missing says what the fold misses in an event of that kind, about that thing and
// with that body, "" if nothing.
func Missing(kind, about string, b Body) string {
	w := kinds[kind]
	if w.About && about == "" {
		return "it does not say what it is about"
	}
	for _, key := range w.Texts {
		if b.Text(key) == "" {
			return fmt.Sprintf("it has no %s", key)
		}
	}
	for _, key := range w.Ints {
		if _, ok := b.Int(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	for _, key := range w.OptionalInts {
		if b.Get(key) == nil {
			continue
		}
		if _, ok := b.Int(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	return ""
}

// FailsCheck reports whether an answer of that result counts as a failed check.
func FailsCheck(result string) bool {
	return result == "fail" || result == "change" || result == "not-done"
}
