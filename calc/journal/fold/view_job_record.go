package fold

import (
	"bytes"
	"encoding/json"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// JobRecord is what was done in the sessions of a job beside cutting, in the order in which
// it happened. Nothing of it is there that was removed.
type JobRecord struct {
	Parts   []JobPart  `json:"parts,omitempty"` // fitted and pulled
	Watches []JobWatch `json:"watches,omitempty"`
	Checks  JobChecks  `json:"checks,omitempty"`
	Photos  []JobPhoto `json:"photos,omitempty"`
	Notes   []JobNote  `json:"notes,omitempty"`
	Faults  []JobFault `json:"faults,omitempty"` // of which a cause was found
	Drains  int        `json:"drains,omitempty"`
	Tried   []JobTried `json:"tried,omitempty"` // cuts, with how they went
}

// JobPart is a part that was fitted or pulled.
type JobPart struct {
	ID     string `json:"id"`
	At     int64  `json:"at"`
	In     string `json:"in"`
	Kind   string `json:"kind"`
	Part   string `json:"part"`
	Rig    string `json:"rig"`
	Slot   string `json:"slot"` // of one that was pulled, where it was; "" if nobody knows
	Line   string `json:"line"`
	Why    string `json:"why"`
	Device string `json:"device"`
}

// JobWatch is a fire watch as it in fact ran.
type JobWatch struct {
	ID     string `json:"id"`
	In     string `json:"in"`
	Rig    string `json:"rig"`
	Device string `json:"device"` // the phone that began it
	At     int64  `json:"at"`     // when it was begun
	Arc    string `json:"arc"`    // the last arc that it counts from, "" if it counts from when it was begun
	From   int64  `json:"from"`   // the end of that arc, or when it was begun
	To     int64  `json:"to"`     // when it was ended, 0 if nobody did
	Ms     int64  `json:"ms"`     // that it was to last
	Open   bool   `json:"open"`
}

// JobChecks are the guides that were answered, and what may-i-cut said.
type JobChecks struct {
	Guides []JobGuide `json:"guides"`
	Gates  []JobGate  `json:"gates"`
}

// JobGuide is a guide that was gone through in a session.
type JobGuide struct {
	Guide   string  `json:"guide"`
	In      string  `json:"in"`
	At      int64   `json:"at"`      // of the last answer
	Results []Share `json:"results"` // how many steps ended with each result
	Fails   int     `json:"fails"`   // failed checks that nobody cleared
}

// JobGate is one answer of may-i-cut.
type JobGate struct {
	ID      string    `json:"id"` // of its first entry
	At      int64     `json:"at"`
	In      string    `json:"in"`
	Rig     string    `json:"rig"`
	Device  string    `json:"device"`
	Verdict string    `json:"verdict"` // "stop", "conditions" or "go"
	Stops   []JobStop `json:"stops"`
}

// JobStop is a stop that may-i-cut told.
type JobStop struct {
	ID        string `json:"id"`
	Step      string `json:"step"`
	Says      string `json:"says"`
	By        string `json:"by"`      // who may clear it
	Cleared   string `json:"cleared"` // the event that cleared it, "" if none did
	ClearedAt int64  `json:"clearedAt"`
	ClearedBy string `json:"clearedBy"` // the phone that did
	How       string `json:"how"`
}

// JobPhoto is a photo with its small picture.
type JobPhoto struct {
	ID     string          `json:"id"`
	At     int64           `json:"at"`
	In     string          `json:"in"`
	Device string          `json:"device"`
	Body   json.RawMessage `json:"body"`
}

// JobNote is a note.
type JobNote struct {
	ID     string `json:"id"`
	At     int64  `json:"at"`
	In     string `json:"in"`
	Device string `json:"device"`
	Text   string `json:"text"`
}

// JobFault is a fault of which a cause was found.
type JobFault struct {
	Fault   string   `json:"fault"`
	ID      string   `json:"id"` // the event that told the cause
	At      int64    `json:"at"`
	In      string   `json:"in"`
	Rig     string   `json:"rig"`
	Symptom string   `json:"symptom"`
	Signs   []string `json:"signs"`
	Cause   string   `json:"cause"`
	Helped  string   `json:"helped"` // "in part" if something is left of it
	Mended  bool     `json:"mended"`
}

// JobTried is a cut with how it went.
type JobTried struct {
	ID      string          `json:"id"`
	At      int64           `json:"at"`
	In      string          `json:"in"`
	Rig     string          `json:"rig"`
	Verdict string          `json:"verdict"`
	Body    json.RawMessage `json:"body"`
}

// record returns what was done in the sessions of a job. It looks through their entries
// alone, whatever else the crew has done.
func (j *job) record(x *index) *JobRecord {
	v := &JobRecord{Parts: []JobPart{}, Watches: []JobWatch{}, Checks: JobChecks{Guides: []JobGuide{}, Gates: []JobGate{}}, Photos: []JobPhoto{}, Notes: []JobNote{},
		Faults: []JobFault{}, Tried: []JobTried{}}
	var all []*entry
	for s := range j.sessions {
		all = append(all, visible(s.all())...)
		v.Drains += s.sums.drains
	}
	order.Sort(all, byPlace)
	guides := map[guideKey]bool{}
	for i, e := range all {
		if e.odd || !e.known() {
			continue
		}
		in := x.sessionOf(e)
		switch e.kind {
		case "part.fitted", "part.pulled":
			v.Parts = append(v.Parts, x.jobPart(e))
		case "watch.started":
			v.Watches = append(v.Watches, x.watches[e.id].ran(x))
		case "check.answered":
			if ofGate(e) {
				v.Checks.addGate(x, e, i > 0 && isOneTap(all[i-1], e))
				continue
			}
			key := guideKey{in, e.body.Text("guide")}
			if !guides[key] {
				guides[key] = true
				v.Checks.Guides = append(v.Checks.Guides, x.guides[key].result(x))
			}
		case "photo.added":
			v.Photos = append(v.Photos, JobPhoto{ID: e.id, At: e.when(), In: in, Device: e.device, Body: e.raw()})
		case "note.added":
			v.Notes = append(v.Notes, JobNote{ID: e.id, At: e.when(), In: in, Device: e.device, Text: e.body.Text("text")})
		case "fault.found":
			if f := x.faults[x.same.of(e.about)]; f.finding() == e {
				v.Faults = append(v.Faults, f.result(x))
			}
		case "cut.tried":
			v.Tried = append(v.Tried, JobTried{ID: e.id, At: e.when(), In: in, Rig: x.rigOf(e), Verdict: e.body.Text("verdict"), Body: e.raw()})
		}
	}
	return v
}

// jobPart returns a fitting or a pulling.
func (x *index) jobPart(e *entry) JobPart {
	v := JobPart{ID: e.id, At: e.when(), In: x.sessionOf(e), Kind: e.kind, Part: x.same.of(e.about), Rig: x.rigOf(e), Slot: e.body.Text("slot"), Line: x.same.of(e.body.Text("line")),
		Why: e.body.Text("why"), Device: e.device}
	if e.kind == "part.fitted" {
		return v
	}
	for _, f := range x.parts[v.Part].fits {
		if f.out == e {
			v.Rig, v.Slot, v.Line = f.rig, f.slot, f.line
		}
	}
	return v
}

// ran returns a watch as it in fact ran: arcs that were struck after it was ended do not
// count.
func (w *watch) ran(x *index) JobWatch {
	e := w.started
	v := JobWatch{ID: e.id, In: x.sessionOf(e), Rig: x.same.of(w.rig), Device: e.device, At: e.when(), Open: true}
	v.Ms, _ = e.body.Int("ms")
	until := int64(forever)
	if ended := visible(w.ended); len(ended) > 0 {
		v.To = slices.MinFunc(ended, byPlace).when()
		v.Open, until = false, v.To
	}
	burnt := w.burn(x, v.At, v.Ms, until)
	v.From, v.Arc = burnt.from, burnt.arc
	return v
}

// result returns how a guide ended.
func (g *guide) result(x *index) JobGuide {
	p, results := g.progress(x), shares{}
	v := JobGuide{Guide: p.Guide, In: p.In, Fails: len(p.Fails)}
	for _, a := range p.Steps {
		v.At = max(v.At, a.At)
		results.add(a.Result, 1)
	}
	v.Results = results.list()
	return v
}

// isOneTap reports whether two answers of may-i-cut were told by one tap: it tells each stop
// as an entry of its own.
func isOneTap(a, b *entry) bool {
	return ofGate(a) && a.device == b.device && a.wall != nil && bytes.Equal(a.wall, b.wall)
}

// addGate adds an answer of may-i-cut; together, to the one before it.
func (v *JobChecks) addGate(x *index, e *entry, together bool) {
	if !together || len(v.Gates) == 0 {
		v.Gates = append(v.Gates, JobGate{ID: e.id, At: e.when(), In: x.sessionOf(e), Rig: x.rigOfGate(e), Device: e.device, Verdict: e.body.Text("result"), Stops: []JobStop{}})
	}
	g := &v.Gates[len(v.Gates)-1]
	if !event.FailsCheck(e.body.Text("result")) {
		return
	}
	g.Verdict = "stop"
	stop := JobStop{ID: e.id, Step: e.body.Text("step"), Says: saysOf(e), By: e.body.Text("by")}
	if c := x.clearing(e); c != nil {
		stop.Cleared, stop.ClearedAt, stop.ClearedBy, stop.How = c.id, c.when(), c.device, c.body.Text("why")
	}
	g.Stops = append(g.Stops, stop)
}

// result returns a fault of which a cause was found.
func (f *fault) result(x *index) JobFault {
	e := f.finding()
	v := JobFault{Fault: f.id, ID: e.id, At: e.when(), In: x.sessionOf(e), Cause: e.body.Text("cause"), Helped: e.body.Text("helped"), Signs: []string{}, Mended: len(visible(f.mended)) > 0}
	v.Rig = f.rig(x)
	if first := f.first(); first != nil {
		v.Symptom, v.Signs = first.body.Text("symptom"), first.body.Texts("signs")
	}
	return v
}
