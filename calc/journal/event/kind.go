package event

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"kerfside/calc/order"
)

// ErasedKind is the kind of what stands in the place of an erased event. The
// fold keeps it as part of the set and shows nothing of it.
const ErasedKind = "erased"

// Kind declares a kind of event: what it is about, what its body says and how long
// it matters. The validator, the table of the specification, the generator of the
// property tests and the types of the phone follow from it; kinds.go has them all.
type Kind struct {
	Name   string // "family.verb"
	About  string // the sort of thing that it is about, "" for nothing in particular
	Always bool   // it must say what it is about
	Body   []Field
	Fields bool // any other key of the body is a field of the thing
	Lasts  Standing
}

// Field declares a key of a body.
type Field struct {
	Key     string
	Type    Type
	Need    Need
	Of      string // the kind of the event that a Link names, "" for any
	Note    string // its unit and what it says
	Example string // JSON
	Asked   Asked
	Private bool // it is of people outside of the crew: an export leaves it out by default
}

// Named returns how the keys begin of a field that stands once for each of many names,
// such as cut.KEY; false of any other.
func (f Field) Named() (string, bool) {
	i := strings.LastIndexByte(f.Key, '.') + 1
	return f.Key[:i], i > 0 && f.Key[i:] == strings.ToUpper(f.Key[i:])
}

// Says reports whether the declared body has that key.
func (k *Kind) Says(key string) bool {
	return slices.ContainsFunc(k.Body, func(f Field) bool { return f.Key == key })
}

// Type is the type of the value under a key.
type Type int

// Types. A Link is the id of another event, a Name that of a thing, such as a rig.
const (
	Text Type = iota
	Int
	Number
	Flag
	Texts
	Map
	Link
	Name
)

// Need says what the fold asks of a key. An event that does not keep to it is listed
// with a warning and counts nothing.
type Need int

// Needs.
const (
	Optional Need = iota // anything may stand there
	Checked              // it may be left out, but is of its type if it is there
	Must                 // it is there and of its type
)

// byName is Kinds by their names.
var byName = sync.OnceValue(func() map[string]*Kind {
	m := make(map[string]*Kind, len(kinds))
	for i := range kinds {
		m[kinds[i].Name] = &kinds[i]
	}
	return m
})

// Kinds returns the names of the kinds that this version folds, in order.
func Kinds() []string { return order.Keys(byName()) }

// KindOf returns the declaration of a kind, nil if this version does not know it.
func KindOf(name string) *Kind { return byName()[name] }

// All returns the declarations, in the order of the specification.
func All() []Kind { return kinds }

// IsKnown reports whether this version folds events of that kind and version.
func IsKnown(kind string, v int64) bool { return v == 1 && KindOf(kind) != nil }

// Missing says what the fold misses in an event of that kind, about that thing and
// with that body, "" if nothing.
func Missing(kind, about string, b Body) string {
	k := KindOf(kind)
	if k == nil {
		return ""
	}
	if k.Always && about == "" {
		return "it does not say what it is about"
	}
	for _, f := range k.Body {
		if lack := f.missing(b); lack != "" {
			return lack
		}
	}
	return ""
}

// missing says what is missing of the field in a body, "" if nothing.
func (f Field) missing(b Body) string {
	if f.Need == Optional || f.Need == Checked && b.Get(f.Key) == nil {
		return ""
	}
	switch f.Type {
	case Int:
		if _, ok := b.Int(f.Key); !ok {
			return fmt.Sprintf("its %s is no whole number", f.Key)
		}
	default:
		if b.Text(f.Key) == "" {
			return fmt.Sprintf("it has no %s", f.Key)
		}
	}
	return ""
}

// FailsCheck reports whether an answer of that result counts as a failed check.
func FailsCheck(result string) bool {
	return result == "fail" || result == "change" || result == "not-done"
}
