package journal

import (
	"fmt"

	"kerfside/calc/order"
)

// want says what the fold asks of the body of a kind. An event that does not
// keep to it is listed with a warning, and passed over otherwise.
type want struct {
	about bool     // the event must say what it is about
	text  []string // keys that must hold text
	whole []string // keys that must hold an integer
	maybe []string // keys that, if they are there, must hold an integer
}

// kinds are the kinds that this version folds, all of v 1.
var kinds = func() map[string]want {
	m := make(map[string]want, len(kindList))
	for _, k := range kindList {
		m[k.kind] = k.want
	}
	return m
}()

// kindList is kinds as a list, which a program holds as it stands: a map written
// out takes code for each entry.
var kindList = []struct {
	kind string
	want want
}{
	{"rig.set", want{about: true}},
	{"site.set", want{about: true}},
	{"job.set", want{about: true}},
	{"line.set", want{about: true}},
	{"setting.set", want{}},
	{"same", want{about: true, text: []string{"as"}}},
	{"session.opened", want{about: true}},
	{"session.closed", want{about: true}},
	{"session.set", want{about: true}},
	{"arc.started", want{}},
	{"arc.stopped", want{text: []string{"of"}, maybe: []string{"starts"}}},
	{"arc.run", want{whole: []string{"start", "stop"}, maybe: []string{"starts"}}},
	{"part.fitted", want{about: true, text: []string{"slot"}}},
	{"part.pulled", want{about: true}},
	{"part.reading", want{about: true}},
	{"trap.drained", want{}},
	{"filter.changed", want{}},
	{"cut.tried", want{}},
	{"note.added", want{}},
	{"photo.added", want{}},
	{"guide.opened", want{text: []string{"guide"}}},
	{"check.answered", want{text: []string{"guide", "step", "result"}}},
	{"check.cleared", want{text: []string{"of"}}},
	{"fault.seen", want{}},
	{"fault.found", want{about: true}},
	{"fault.mended", want{about: true}},
	{"watch.started", want{whole: []string{"ms"}}},
	{"watch.ended", want{text: []string{"of"}}},
	{"stock.moved", want{about: true, whole: []string{"n"}}},
	{"stock.counted", want{about: true, whole: []string{"n"}}},
	{"amend", want{text: []string{"of"}}},
	{"void", want{text: []string{"of"}}},
}

// Kinds returns the kinds that this version folds, in order.
func Kinds() []string { return order.Keys(kinds) }

// NeedsOf returns what the fold asks of the body of a kind.
func NeedsOf(kind string) want { return kinds[kind] }

// known reports whether this version folds events of that kind and version.
func known(kind string, v int64) bool {
	_, ok := kinds[kind]
	return ok && v == 1
}

// lacks says what the fold misses in an event of that kind, about that thing and
// with that body, "" if nothing.
func lacks(kind, about string, b body) string {
	w := kinds[kind]
	if w.about && about == "" {
		return "it does not say what it is about"
	}
	for _, key := range w.text {
		if b.text(key) == "" {
			return fmt.Sprintf("it has no %s", key)
		}
	}
	for _, key := range w.whole {
		if _, ok := b.whole(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	for _, key := range w.maybe {
		if b.get(key) == nil {
			continue
		}
		if _, ok := b.whole(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	return ""
}

// fails reports whether an answer of that result counts as a failed check.
func fails(result string) bool {
	return result == "fail" || result == "change" || result == "not-done"
}
