package journaltest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// history is n events as a crew of three trucks and four phones enters them, oldest
// first: days of work with a gate, a guide, arcs, cuts, notes and a fire watch each;
// parts fitted from stock and pulled, traps drained, faults, jobs; now and then an
// entry amended, removed or entered late, an arc or a watch forgotten. It ends amid
// a session that is open. The same n gives the same history.
type history struct {
	t      testing.TB
	n      int
	events []event.Event
	random *rand.Rand
	ms     int64 // of the last entry, after t0

	session, rig, phone string
	in                  map[string][4]string // rig → parts in its torch
	parts               int
	cuts                bool // jobs have lists of cuts, arcs name theirs
}

var historySlots = [4]string{"electrode", "tip", "diffuser", "cup"}

// cutList is the list of a job's cuts in its fields.
const cutList = `,"cut.k1":{"metal":"mild-steel","thickness":"6mm","length":"400mm","count":"8","surface":"rusty","at":1}` +
	`,"cut.k2":{"metal":"stainless","thickness":"3mm","length":"1.2m","pierces":"2","at":2}` +
	`,"cut.k3":{"metal":"mild-steel","thickness":"10mm","length":"250mm","count":"4","at":3}`

// History is the events of one, as of type history, of a crew that keeps no lists of cuts.
func History(t testing.TB, n int) []event.Event { return historyOf(t, n, false) }

// HistoryOfJobs is that of a crew that keeps them, and says of each arc which cut it is for.
func HistoryOfJobs(t testing.TB, n int) []event.Event { return historyOf(t, n, true) }

func historyOf(t testing.TB, n int, cuts bool) []event.Event {
	h := &history{t: t, n: n, cuts: cuts, random: rand.New(rand.NewPCG(7, uint64(n))), in: map[string][4]string{}}
	for i := range 3 {
		h.rig, h.phone = fmt.Sprintf("truck-%d", i+1), fmt.Sprintf("phone-%d", i+1)
		h.add("rig.set", h.rig, fmt.Sprintf(`{"name":"Truck %d","min_current":"20A","max_current":"45A","drainEvery":1500000}`, i+1))
	}
	for _, slot := range historySlots {
		h.add("line.set", "line-"+slot, `{"name":"`+slot+`","price":"3.10"}`)
		h.add("stock.moved", "line-"+slot, `{"n":40,"why":"bought"}`)
	}
	for day := 0; len(h.events) < n; day++ {
		h.day(day)
	}
	h.events = h.events[:n-1]
	h.session = fmt.Sprintf("session-%06d", n)
	h.add("session.opened", h.session, `{"rig":"`+h.rig+`","title":"Field gate"}`)
	return h.events
}

// add enters one event some seconds after the last.
func (h *history) add(kind, about, body string) event.Event {
	h.ms += 2000 + h.random.Int64N(40_000)
	m := map[string]any{"id": ID(fmt.Sprintf("%07d-%05d", len(h.events), h.random.IntN(100_000))), "t": event.StampOf(T0 + h.ms).String(), "wall": []int64{T0 + h.ms, 60},
		"device": h.phone, "kind": kind, "v": 1, "body": json.RawMessage(body)}
	if about != "" {
		m["about"] = about
	}
	if h.session != "" && !strings.HasPrefix(kind, "session.") {
		m["in"] = h.session
	}
	raw, err := json.Marshal(m)
	if err != nil {
		h.t.Fatal(err)
	}
	e, err := event.Decode(raw)
	if err != nil {
		h.t.Fatal(err)
	}
	h.events = append(h.events, e)
	return e
}

// day is one session of one truck.
func (h *history) day(number int) {
	truck := h.random.IntN(3)
	h.rig, h.phone, h.session = fmt.Sprintf("truck-%d", truck+1), fmt.Sprintf("phone-%d", 1+h.random.IntN(4)), ""
	h.ms += 3 * 3600_000
	h.add("check.answered", "", `{"guide":"may-i-cut","step":"asked","result":"go","rig":"`+h.rig+`","answers":{"ground":"bare"}}`)
	name := fmt.Sprintf("session-%06d", len(h.events))
	site, job := fmt.Sprintf("site-%d", h.random.IntN(20+number/10)), fmt.Sprintf("job-%d", h.random.IntN(20+number/5))
	h.add("session.opened", name, `{"rig":"`+h.rig+`","title":"Gate and hopper","site":"`+site+`","job":"`+job+`"}`)
	h.session = name
	h.add("site.set", site, `{"name":"Heron Croft","ground":"dry grass"}`)
	list := ""
	if h.cuts {
		list = cutList
	}
	h.add("job.set", job, `{"name":"Gate and hopper"`+list+`}`)
	h.add("guide.opened", "", `{"guide":"bring-up"}`)
	for _, step := range []string{"clamp", "hose", "trap"} {
		result := "good"
		if h.random.IntN(12) == 0 {
			result = "fail"
		}
		e := h.add("check.answered", "", `{"guide":"bring-up","step":"`+step+`","result":"`+result+`"}`)
		if result == "fail" && h.random.IntN(20) > 0 {
			h.add("check.cleared", "", `{"of":"`+e.ID+`","why":"paint ground off"}`)
		}
	}
	for arc := range 4 + h.random.IntN(16) {
		if !h.cuts {
			h.arc("")
			h.between()
			continue
		}
		cut := fmt.Sprintf("k%d", 1+arc/6)
		h.arc(`,"cut":"` + cut + `"`)
		if h.random.IntN(2) == 0 {
			h.add("cut.done", job, `{"cut":"`+cut+`"}`)
		}
		h.between()
	}
	watch := h.add("watch.started", "", `{"ms":1800000}`)
	if h.random.IntN(40) > 0 {
		h.add("watch.ended", "", `{"of":"`+watch.ID+`"}`)
	}
	h.add("session.closed", name, `{"left":"clean"}`)
}

// arc is one arc; cut is what it says of the cut that it is for.
func (h *history) arc(cut string) {
	if h.random.IntN(10) == 0 {
		stop := T0 + h.ms
		h.add("arc.run", "", fmt.Sprintf(`{"rig":"%s","start":%d,"stop":%d,"starts":2%s}`, h.rig, stop-30_000, stop, cut))
		return
	}
	e := h.add("arc.started", "", `{"rig":"`+h.rig+`"`+cut+`}`)
	if h.random.IntN(300) > 0 { // else it was forgotten
		h.add("arc.stopped", "", `{"of":"`+e.ID+`","starts":1}`)
	}
}

// between is what happens between two arcs.
func (h *history) between() {
	switch h.random.IntN(16) {
	case 0, 1:
		h.fit(h.random.IntN(2))
	case 2:
		h.fit(2 + h.random.IntN(2))
	case 3:
		h.add("cut.tried", "", `{"metal":"mild-steel","thickness":6000,"amps":40,"pressure":500000,"speed":15000,"verdict":"good"}`)
	case 4:
		h.add("note.added", "", `{"text":"Zinc ground back to bright metal, edge cleaned with the flap disc"}`)
	case 5:
		h.add("trap.drained", "", `{"rig":"`+h.rig+`"}`)
	case 6:
		if part := h.in[h.rig][1]; part != "" {
			h.add("part.reading", part, fmt.Sprintf(`{"dmin":%d,"dmax":1060,"pit":300}`, 900+h.random.IntN(200)))
		}
	case 7:
		if h.random.IntN(6) == 0 {
			fault := fmt.Sprintf("fault-%06d", len(h.events))
			h.add("fault.seen", fault, `{"symptom":"will not transfer","signs":["will not transfer","cuts out"]}`)
			h.add("fault.found", fault, `{"cause":"clamp on paint"}`)
			if h.random.IntN(20) > 0 {
				h.add("fault.mended", fault, `{"how":"ground off"}`)
			}
		}
	case 10:
		if !h.cuts {
			return
		}
		pause := h.add("pause.started", "", `{"why":"air","rig":"`+h.rig+`"}`)
		h.add("pause.ended", "", `{"of":"`+pause.ID+`"}`)
	case 8:
		of := h.events[len(h.events)-1-h.random.IntN(min(60, len(h.events)))]
		h.add("amend", "", `{"of":"`+of.ID+`","set":{"said":"otherwise"},"why":"slip"}`)
	case 9:
		if h.random.IntN(4) == 0 {
			e := h.add("note.added", "", `{"text":"wrong truck"}`)
			h.add("void", "", `{"of":"`+e.ID+`","on":true}`)
		}
	}
}

// fit pulls what is in a slot and fits a new one from stock.
func (h *history) fit(slot int) {
	in := h.in[h.rig]
	if in[slot] != "" {
		h.add("part.pulled", in[slot], `{"why":"worn"}`)
	}
	h.parts++
	in[slot] = fmt.Sprintf("part-%06d", h.parts)
	h.in[h.rig] = in
	h.add("part.fitted", in[slot], `{"slot":"`+historySlots[slot]+`","rig":"`+h.rig+`","line":"line-`+historySlots[slot]+`"}`)
}
