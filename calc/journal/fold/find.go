package fold

import (
	"slices"
	"strings"
)

// DayFilter says which items of the days are wanted. What is empty or 0 asks nothing.
type DayFilter struct {
	Find  string `json:"find,omitempty"`  // all of these words occur, as beginnings or within others, in capitals or not
	Rig   string `json:"rig,omitempty"`   // of that rig
	Metal string `json:"metal,omitempty"` // a cut of that metal was tried, or stands on the list of the job
	From  int64  `json:"from,omitempty"`  // begun then or later, ms
	To    int64  `json:"to,omitempty"`    // begun before then, ms
}

// saying is what entries of a kind are looked for by: a word for the kind, and what stands
// under some keys.
type saying struct {
	word string
	keys []string
}

// sayings are those of the kinds that say something which somebody may look for. One look
// here tells that an arc says nothing: most entries are of arcs.
var sayings = map[string]saying{
	"note.added": {keys: []string{"text"}}, "cut.tried": {keys: []string{"metal", "verdict"}}, "pause.started": {keys: []string{"why"}},
	"part.fitted": {keys: []string{"slot"}}, "part.pulled": {keys: []string{"why"}}, "stock.moved": {keys: []string{"why"}},
	"trap.drained": {word: "drain"}, "filter.changed": {word: "filter"}, "upkeep.done": {keys: []string{"task", "note"}},
	"photo.added": {word: "photo"}, "watch.started": {word: "fire watch"},
	"guide.opened": {keys: []string{"guide"}}, "check.answered": {keys: []string{"guide", "step", "says"}}, "check.cleared": {keys: []string{"why"}},
	"fault.seen": {keys: []string{"symptom"}}, "fault.found": {keys: []string{"cause"}}, "fault.mended": {keys: []string{"how"}},
	"rig.set": {keys: []string{"name"}}, "site.set": {keys: []string{"name"}}, "line.set": {keys: []string{"name", "slot", "rating"}},
	"session.opened": {keys: []string{"title"}}, "session.set": {keys: []string{"title"}}, "session.closed": {keys: []string{"title"}},
}

// said adds to texts what an entry says, as it is looked for.
func (e *entry) said(add func(string)) {
	all, ok := sayings[e.kind]
	if !ok || e.odd || !e.known() {
		return
	}
	add(all.word)
	for _, key := range all.keys {
		add(e.body.Text(key))
	}
	if e.kind == "fault.seen" {
		for _, sign := range e.body.Texts("signs") {
			add(sign)
		}
	}
}

// sought is a text as it is looked for: words that the app writes with hyphens are read with
// spaces.
func sought(text string) string { return strings.ReplaceAll(strings.ToLower(text), "-", " ") }

// found is what is looked for in a session, as it is in short.
type found struct {
	of     *Session
	text   string
	metals []string // of cuts that were tried
}

// found returns it. It is kept until the session changes, and made when somebody looks for
// something.
func (s *session) found(x *index) *found {
	v := s.summary(x)
	if s.lookedIn != nil && s.lookedIn.of == v {
		return s.lookedIn
	}
	all := &found{of: v}
	seen := map[string]bool{"": true}
	var b strings.Builder
	add := func(text string) {
		if !seen[text] {
			seen[text] = true
			b.WriteString(text)
			b.WriteByte('\n')
		}
	}
	add(v.Title)
	for _, e := range s.all() {
		if e.hidden {
			continue
		}
		e.said(add)
		if e.counts("cut.tried") {
			if metal := e.body.Text("metal"); !slices.Contains(all.metals, metal) {
				all.metals = append(all.metals, metal)
			}
		}
	}
	all.text = sought(b.String())
	s.lookedIn = all
	return all
}

// finder finds what a filter asks for. Names of jobs, rigs and places are read once.
type finder struct {
	DayFilter
	x     *index
	words []string
	names map[string]string // of a job, a rig, a site: as it is looked for
	jobs  map[*job]bool     // whether the metal stands on its list
}

func newFinder(x *index, filter DayFilter) *finder {
	f := &finder{DayFilter: filter, x: x, words: strings.Fields(sought(filter.Find)), names: map[string]string{}, jobs: map[*job]bool{}}
	f.Rig = x.same.of(filter.Rig)
	return f
}

// isAll reports whether everything is wanted.
func (f *finder) isAll() bool {
	return len(f.words) == 0 && f.Rig == "" && f.Metal == "" && f.From == 0 && f.To == 0
}

// during reports whether what began at ms is within the time that is asked for.
func (f *finder) during(ms int64) bool { return ms >= f.From && (f.To == 0 || ms < f.To) }

// says reports whether each word occurs in one of these texts.
func (f *finder) says(texts ...string) bool {
	for _, word := range f.words {
		if !slices.ContainsFunc(texts, func(text string) bool { return strings.Contains(text, word) }) {
			return false
		}
	}
	return true
}

// name returns the name of a thing as it is looked for.
func (f *finder) name(sort, id string, of func() register) string {
	if id == "" {
		return ""
	}
	text, ok := f.names[sort+id]
	if !ok {
		text = sought(of().text("name"))
		f.names[sort+id] = text
	}
	return text
}

// rigName and siteName return those of a rig and a site.
func (f *finder) rigName(id string) string {
	return f.name("rig ", id, func() register {
		if r := f.x.rigs[id]; r != nil {
			return r.fields
		}
		return nil
	})
}

func (f *finder) siteName(id string) string {
	return f.name("site ", id, func() register { return f.x.sites[id] })
}

// session reports whether a session is wanted.
func (f *finder) session(s *session) bool {
	v := s.bookRow
	if !f.during(v.Opened) || f.Rig != "" && v.Rig != f.Rig && !s.hasArcsOf(f.Rig) {
		return false
	}
	if f.Metal != "" && !slices.Contains(s.found(f.x).metals, f.Metal) && !f.isOnList(s.job) {
		return false
	}
	if len(f.words) == 0 {
		return true
	}
	job := ""
	if s.job != nil {
		job = f.name("job ", s.job.id, func() register { return s.job.fields })
	}
	return f.says(s.found(f.x).text, job, f.rigName(v.Rig), f.siteName(v.Site))
}

// hasArcsOf reports whether an arc of that rig burnt in the session.
func (s *session) hasArcsOf(rig string) bool {
	t := s.timelines[rig]
	return t != nil && len(t.union()) > 0
}

// isOnList reports whether a cut of the metal stands on the list of a job.
func (f *finder) isOnList(j *job) bool {
	if j == nil {
		return false
	}
	is, known := f.jobs[j]
	if !known {
		is = slices.ContainsFunc(j.cuts(), func(c jobCut) bool { return !c.removed && c.metal() == f.Metal })
		f.jobs[j] = is
	}
	return is
}

// entry reports whether an entry outside of any session is wanted.
func (f *finder) entry(e *entry) bool {
	if !f.during(e.when()) || e.hidden && !f.isAll() {
		return false
	}
	if f.Metal != "" && !(e.counts("cut.tried") && e.body.Text("metal") == f.Metal) {
		return false
	}
	rig := f.rigOf(e)
	if f.Rig != "" && rig != f.Rig {
		return false
	}
	if len(f.words) == 0 {
		return true
	}
	var b strings.Builder
	e.said(func(text string) { b.WriteString(text + "\n") })
	return f.says(sought(b.String()), f.rigName(rig))
}

// rigOf returns the rig that an entry outside of any session is of, "" if of none.
func (f *finder) rigOf(e *entry) string {
	if e.kind == "rig.set" {
		return f.x.same.of(e.about)
	}
	return f.x.rigOf(e)
}
