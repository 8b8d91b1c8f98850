package book

import (
	"encoding/json"

	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// reports are all reports by the name that their address on the phone has.
var reports = map[string]func(*book) (Report, error){
	"parts":     (*book).parts,
	"part":      (*book).part,
	"due":       (*book).due,
	"front":     (*book).front,
	"upkeep":    (*book).upkeep,
	"learned":   (*book).learned,
	"lives":     (*book).lives,
	"months":    (*book).months,
	"sessions":  (*book).sessions,
	"jobs":      (*book).jobs,
	"jobs-list": (*book).jobsList,
	"quote":     (*book).quote,
	"sheet":     (*book).sheet,

	"stock":    (*book).stock,
	"line":     (*book).line,
	"shopping": (*book).shoppingList,
	"cuts":     (*book).cuts,
}

// acts are what buttons do, by name.
var acts = map[string]func(*book, Act) (Done, error){
	"calendar":     (*book).calendar,
	"new-part":     (*book).newPart,
	"pulled":       (*book).pulled,
	"new-job":      (*book).newJob,
	"quote":        (*book).makeQuote,
	"on-paper":     (*book).setOnPaper,
	"words":        (*book).words,
	"billed":       (*book).setBilled,
	"upkeep-done":  (*book).upkeepDone,
	"upkeep-often": (*book).upkeepOften,
	"upkeep-own":   (*book).upkeepOwn,

	"stock-new":      (*book).newLine,
	"stock-count":    (*book).countLine,
	"stock-bought":   (*book).boughtLine,
	"stock-gone":     (*book).goneLine,
	"stock-move":     (*book).moveLine,
	"stock-price":    (*book).priceLine,
	"stock-least":    (*book).leastLine,
	"stock-read":     (*book).stockRead,
	"stock-enter":    (*book).stockEnter,
	"shopping-words": (*book).shoppingWords,
	"cuts-read":      (*book).cutsRead,
	"cuts-enter":     (*book).cutsEnter,
	"csv":            (*book).saveTable,
}

// Act is a button that was tapped, with what its questions were answered.
type Act struct {
	Look
	Act     string            `json:"act"`
	With    map[string]string `json:"with"`
	Answers map[string]string `json:"answers"`
}

// of returns what was answered, or what the button carries.
func (a Act) of(key string) string {
	if text, ok := a.Answers[key]; ok {
		return text
	}
	return a.With[key]
}

// Done is what comes of it: entries for the journal, a file, or another report.
type Done struct {
	Entries []Entry `json:"entries"`
	Said    string  `json:"said"` // once they are stored
	Href    string  `json:"href"` // where to go then
	Name    string  `json:"name"` // of a file to hand on
	Text    string  `json:"text"` // of the file; without a name, words to share
	Type    string  `json:"type"`
	Report  *Report `json:"report"` // shown in place of the one that is there
}

// Entry is an entry for the journal. About a name that begins with NewThing makes a thing
// of its own; entries with the same name are about the same one.
type Entry struct {
	Kind  string         `json:"kind"`
	About string         `json:"about"`
	In    string         `json:"in"`
	Body  map[string]any `json:"body"`
}

// NewThing begins what stands for an id that the phone makes. No id has a colon.
const NewThing = "new:"

// book is a journal as one person looks at it.
type book struct {
	Look
	fold   *fold.Fold
	things *fold.Things          // nil until they are asked for, as what follows
	rigs   map[string]fold.Thing // by id
	kept   []fold.RigUpkeep      // nil until it is asked for
}

func open(f *fold.Fold, in Look) *book {
	b := &book{Look: in, fold: f}
	if b.Units != unit.US {
		b.Units = unit.Metric
	}
	return b
}

// known returns rigs and sites.
func (b *book) known() *fold.Things {
	if b.things == nil {
		things := b.fold.Things()
		b.things, b.rigs = &things, map[string]fold.Thing{}
		for _, t := range things.Rigs {
			for _, id := range append([]string{t.ID}, t.Same...) {
				b.rigs[id] = t
			}
		}
	}
	return b.things
}

// thing returns the rig of that id.
func (b *book) thing(id string) (fold.Thing, bool) {
	b.known()
	t, ok := b.rigs[id]
	return t, ok
}

// fieldsOf returns what is said of a rig.
func (b *book) fieldsOf(id string) map[string]json.RawMessage {
	t, _ := b.thing(id)
	return t.Fields.Fields
}

// Make makes a report. Its error is a problem.
func Make(f *fold.Fold, in Look) (Report, error) {
	report, ok := reports[in.Report]
	if !ok {
		return Report{}, problem.Newf(problem.Unknown, "", "the Book has no %q", in.Report).WithHint("Update the app.")
	}
	r, err := report(open(f, in))
	if in.Coming > 0 {
		r.unfinished()
	}
	return r.withFiles().whole(), err
}

// Do answers a button. Its error is a problem; its field is the key of the question that
// was answered wrong.
func Do(f *fold.Fold, in Act) (Done, error) {
	act, ok := acts[in.Act]
	if !ok {
		return Done{}, problem.Newf(problem.Unknown, "", "the Book has no button %q", in.Act).WithHint("Update the app.")
	}
	d, err := act(open(f, in.Look), in)
	if d.Entries == nil {
		d.Entries = []Entry{}
	}
	if d.Report != nil {
		whole := d.Report.whole()
		d.Report = &whole
	}
	return d, err
}

// unfinished says of a report that it was made before all entries were here: what is not
// here yet may have been done, paid or changed.
func (r *Report) unfinished() {
	const coming = "Older entries are still on their way to this phone: not all is counted yet."
	if r.lines {
		for i := range r.Sections[0].Rows {
			r.Sections[0].Rows[i].Says, r.Sections[0].Rows[i].Tag = []string{"Older entries are still coming"}, ""
		}
		r.Says = nil
		return
	}
	r.Cautions = append([]string{coming}, r.Cautions...)
}

// whole returns the report with a list in the place of each that is nil: on the wire
// stands no null for a list.
func (r Report) whole() Report {
	r.Says, r.Cautions, r.Actions = list(r.Says), list(r.Cautions), wholeActions(r.Actions)
	r.Sections = list(r.Sections)
	for i := range r.Sections {
		s := &r.Sections[i]
		s.Says, s.Cautions, s.Figures, s.Pictures, s.Lengths = list(s.Says), list(s.Cautions), list(s.Figures), list(s.Pictures), list(s.Lengths)
		s.Sign = list(s.Sign)
		s.Photos, s.Actions, s.Rows = list(s.Photos), wholeActions(s.Actions), list(s.Rows)
		for j := range s.Rows {
			row := &s.Rows[j]
			row.Says = list(row.Says)
			if row.Action != nil {
				row.Action = &wholeActions([]Action{*row.Action})[0]
			}
		}
		if s.Table != nil {
			s.Table.Rows = list(s.Table.Rows)
		}
	}
	return r
}

func wholeActions(all []Action) []Action {
	for i := range all {
		a := &all[i]
		a.Ask = list(a.Ask)
		for j := range a.Ask {
			a.Ask[j].Options = list(a.Ask[j].Options)
		}
		if a.With == nil {
			a.With = map[string]string{}
		}
	}
	return list(all)
}

func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// rig is the name of a rig.
func (b *book) rig(id string) string {
	if name := textOf(b.fieldsOf(id)["name"]); name != "" {
		return name
	}
	return "a rig without a name"
}

// textOf returns a text of JSON, "" for anything else.
func textOf(raw json.RawMessage) string {
	var s string
	if json.Unmarshal(raw, &s) != nil {
		return ""
	}
	return s
}

// Names are the names of all reports, in order.
func Names() []string { return order.Keys(reports) }
