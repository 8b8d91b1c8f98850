// Package form declares calculators: their fields, units, limits, defaults,
// results and sources. One declaration drives the form on the phone, the help
// and arguments of the command line, the HTTP API and the table of calls in
// WebAssembly; package registry lists them all.
//
// A calculator is a file of its own with four parts: a doc comment that states
// the formula, its symbols, its range and its source; an Input and a Result of
// typed quantities; Compute(Input) (Result, error), which is pure; and a
// Calculator that ties them to keys:
//
//	var Pace = form.Declaration{Name: "travel-pace", Make: func() form.Calculator {
//		return form.Calculator{
//			Title: "Travel pace", …
//			Fields:  []form.Field{{Key: "speed", Label: "Travel speed", Takes: form.Number[unit.Speed]("mm/min", "in/min")}},
//			Results: []form.Result{{Key: "pace", Label: "Pace", Gives: form.Number[unit.Pace]("s per 100 mm", "s per 4 in")}},
//			Run:     runPace,
//		}
//	}}
//
//	func runPace(r *form.Reader, a *form.Answer) error {
//		in := PaceInput{Speed: form.Get[unit.Speed](r, "speed")}
//		if err := r.Err(); err != nil {
//			return err
//		}
//		res, err := ComputePace(in)
//		if err != nil {
//			return err
//		}
//		form.Put(a, "pace", res.Pace)
//		return nil
//	}
package form

import (
	"strings"
	"sync"

	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Declaration is a calculator that is made when it is first asked for. Making all
// of them at the start would take longer than the rest of a phone's start: the
// engine of a browser optimizes a long function that runs only once.
type Declaration struct {
	Name string            // "cut-plan": the name in calls, files and addresses
	Make func() Calculator // all but its name

	once sync.Once
	made Calculator
}

// Calculator returns the calculator, the same at each call.
func (d *Declaration) Calculator() *Calculator {
	d.once.Do(func() {
		d.made = d.Make()
		d.made.Name = d.Name
	})
	return &d.made
}

// Calculator is one declared calculation.
type Calculator struct {
	Name    string   // of its Declaration
	Title   string   // "Cut plan"
	About   string   // one sentence: what it tells
	Place   string   // where the phone lists it: "ready", "layout", "cut", "fix" or "book"
	Terms   []string // further words that a search should find it by
	Fields  []Field
	Results []Result

	Together []Together // sentences that answer several fields
	Sources  []source.ID

	// Run reads the fields, computes and fills in the answer. It returns a
	// *problem.Error for anything a person can mend.
	Run func(*Reader, *Answer) error
}

// Type says what a field takes or a result gives.
type Type struct {
	Kind     Kind
	Quantity *unit.Quantity // of a number; of the left half of a pair
	Bare     string         // unit of a bare number, and the metric unit in print
	US       string         // the unit a US device enters and prints
	Doubt    unit.Doubt     // how finely it is told
	Right    *Type          // of the right half of a pair
	Each     *Each          // how a pair is asked for and shown
	List     *Listing       // of a list
	Choices  []Choice       // of a choice
	Also     []string       // further words of a choice that are read: word, meaning, word, meaning, …
}

// Word returns the word of a choice, or the yes or no, that text means. Capitals,
// American spelling and a space for a hyphen do not count.
func (t *Type) Word(text string) (string, bool) {
	for i := range t.Choices { // as it is nearly always sent
		if t.Choices[i].Word == text {
			return text, true
		}
	}
	text = plain(text)
	if t.Kind == KindYesNo {
		switch text {
		case "yes", "y", "true", "1", "on":
			return "yes", true
		case "no", "n", "false", "0", "off":
			return "no", true
		}
	}
	for _, c := range t.Choices {
		if plain(c.Word) == text || plain(c.Label) == text {
			return c.Word, true
		}
	}
	for i := 0; i+1 < len(t.Also); i += 2 {
		if t.Also[i] == text {
			return t.Also[i+1], true
		}
	}
	return "", false
}

// american are spellings of words in choices that Americans write otherwise.
var american = [...]string{"aluminum", "aluminium", "galvanized", "galvanised", "gray", "grey", "odor", "odour", "tire", "tyre"}

// plain writes a word of a choice in one way.
func plain(text string) string {
	text = strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "-")
	for i := 0; i < len(american); i += 2 {
		text = strings.ReplaceAll(text, american[i], american[i+1])
	}
	return text
}

// Kind is the kind of a Type.
type Kind string

const (
	KindNumber Kind = "number" // a quantity with a unit
	KindCount  Kind = "count"  // a whole number without a unit
	KindFactor Kind = "factor" // a plain number without a unit
	KindChoice Kind = "choice" // one of some words
	KindYesNo  Kind = "yes-no"
	KindText   Kind = "text"  // free words
	KindPairs  Kind = "pairs" // left:right, left:right, …
	KindRows   Kind = "rows"  // a table; results only
	KindList   Kind = "list"  // rows of fields; fields only
)

// Choice is one word of a choice and how it is shown.
type Choice struct {
	Word  string `json:"word"`
	Label string `json:"label"`
}

// Number is the type of a quantity M with its bare (metric) and US unit.
func Number[M unit.Measure](bare, us string) *Type {
	var m M
	return &Type{Kind: KindNumber, Quantity: m.Quantity(), Bare: bare, US: us}
}

// As returns the type of what is measured as finely as that sort.
func (t *Type) As(sort unit.Sort) *Type {
	as := *t
	as.Doubt.Sort = sort
	return &as
}

// InDoubt returns the type of what may be off by a tenth or more.
func (t *Type) InDoubt() *Type {
	rough := *t
	rough.Doubt.Share = unit.InDoubt.Share
	return &rough
}

// AnyNumber is the type of a result whose quantity depends on what is entered.
func AnyNumber() *Type { return &Type{Kind: KindNumber} }

// Count is the type of a whole number.
func Count() *Type { return &Type{Kind: KindCount} }

// Factor is the type of a plain number.
func Factor() *Type { return &Type{Kind: KindFactor} }

// YesNo is the type of a yes or no.
func YesNo() *Type { return &Type{Kind: KindYesNo} }

// Text is the type of free words.
func Text() *Type { return &Type{Kind: KindText} }

// OneOf is the type of a choice; give word, label, word, label, …
func OneOf(wordsAndLabels ...string) *Type {
	t := &Type{Kind: KindChoice}
	for i := 0; i+1 < len(wordsAndLabels); i += 2 {
		t.Choices = append(t.Choices, Choice{wordsAndLabels[i], wordsAndLabels[i+1]})
	}
	return t
}

// Each is how one pair of a list is asked for and shown: "Tip 1: amps", then
// "Tip 1: bore", then the row "45 A tip · bore 1.05 mm".
type Each struct {
	Name  string `json:"name"`            // "Tip"
	Left  string `json:"left"`            // "amps"
	Right string `json:"right"`           // "bore"
	Row   string `json:"row"`             // "{left} tip · bore {right}"
	Known string `json:"known,omitempty"` // stands for a right half that is not known; it may be left out then

	LeftChips  []string `json:"leftChips,omitempty"` // common values
	RightChips []string `json:"rightChips,omitempty"`
}

// Pairs is the type of a list such as 20A:0.7mm,40A:0.95mm.
func Pairs(left, right *Type, each Each) *Type {
	pairs := *left
	pairs.Kind, pairs.Right, pairs.Each = KindPairs, right, &each
	return &pairs
}

// Rows is the type of a result that is a table; give key, heading, key,
// heading, … of the columns that a person is shown, in their order.
func Rows(keysAndHeadings ...string) *Type {
	t := OneOf(keysAndHeadings...)
	t.Kind = KindRows
	return t
}

// Field is one thing to enter.
type Field struct {
	Key      string
	Label    string
	Help     string // one line; where to find it, or what it does
	Format   string // how a text is written on the command line, where that is not plain; of a choice of many words what they are like
	Takes    *Type
	Default  string // as a person would write it; "" for none
	Optional bool   // may be left out although it has no default
	Limits   Limits
	Chips    []string  // common values, offered for one tap
	ChipsUS  []string  // those of a device with US units, where they are others
	Gauge    bool      // a sheet gauge such as 16ga may stand here
	Basis    source.ID // where the default comes from; a number has one
	Only     *Only     // asked only when another field holds certain words
	Fine     bool      // an expert's field, folded away on the phone
	Owner    Owner     // what its value belongs to and is kept with
	Known    string    // as what the phone may know it: plan.KEY of today's cut plan, SLOT.KEY of the last reading of a part, kept.KEY of rig or site
	Item     string    // what the field is a part of, asked for under one heading; see Owned

	// Hazard marks a question whose wrong answer can hurt someone, or that only a
	// look at the part can answer. It has no
	// default and is never optional: somebody looks and says, each time anew.
	Hazard bool
}

// Owner is what a field's value belongs to. Nobody is asked again for what is
// kept with its owner.
type Owner string

const (
	OfNone  Owner = ""      // asked each time
	OfRig   Owner = "rig"   // the machine with its torch and tips
	OfPlate Owner = "plate" // what the machine's plates state; kept with the rig
	OfTruck Owner = "truck" // comes along on the rig's truck; kept with the rig, or with a site that has its own
	OfSite  Owner = "site"  // the place
)

// Owned gives an owner to those fields that have none yet, and the item that they
// are parts of, such as "hose", or "". A site that has any part of an item of its
// own has all of it.
func Owned(owner Owner, item string, fields ...Field) []Field {
	for i := range fields {
		if f := &fields[i]; f.Owner == OfNone {
			f.Owner, f.Item = owner, item
		}
	}
	return fields
}

// Together is one sentence that answers several fields, for one tap. It takes
// nothing for granted: whoever taps it has read what it says.
type Together struct {
	Title string            `json:"title"` // what the fields have in common
	Label string            `json:"label"` // the sentence
	Says  map[string]string `json:"says"`  // field → word
}

// Only limits a field to certain words of another.
type Only struct {
	Key   string   `json:"key"`
	Words []string `json:"words"`
}

// When is an Only that reads well.
func When(key string, words ...string) *Only { return &Only{key, words} }

// Limits are the smallest and largest value allowed, in SI, both included.
// The zero value allows everything.
type Limits struct {
	Min, Max float64
	Set      bool
}

// Within returns the limits from min to max.
func Within[M ~float64](min, max M) Limits {
	return Limits{Min: float64(min), Max: float64(max), Set: true}
}

// WithinCount returns limits for a whole number.
func WithinCount(min, max int) Limits { return Limits{Min: float64(min), Max: float64(max), Set: true} }

// Result is one thing that a calculator tells.
type Result struct {
	Key   string
	Label string
	Gives *Type
	Main  bool // shown large
}
