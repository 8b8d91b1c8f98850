package journaltest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"

	"pgregory.net/rapid"
)

// The ends of what a stamp and a time can be: first and last ms, first and last
// counter, and few enough that events often share one.
var (
	edgeStamps = []event.Stamp{1, 2, 0xffff, event.StampOf(1), event.LastStampOf(1), event.StampOf(T0), event.StampOf(event.MaxMillis), event.LastStampOf(event.MaxMillis)}
	edgeTimes  = []int64{1, 2, T0, event.MaxMillis - 1, event.MaxMillis}
	edgeWalls  = []string{`[0,0]`, `[1,0]`, `[-1,0]`, `[null,null]`, `[]`, `[281474976710655,0]`, `[9223372036854775807,0]`, `[-9223372036854775808,0]`, `[1760731116544,60]`}
)

// oddValues are what no kind asks for: each may stand under any key.
var oddValues = []string{`"x"`, `""`, `"\u0000"`, `0`, `-1`, `1.5`, `1e300`, `281474976710655`, `9223372036854775807`, `null`, `true`, `[]`, `{}`, `[null]`,
	`["x",1,null]`, `{"a":{"a":[0]}}`, `"__proto__"`, `{"__proto__":1}`}

// genEvent draws an event of that kind. ids are those of all events of the
// journal, by kind and under "" together: what amends, voids, stops and clears
// may stand before its target, name itself, one of another kind, or one that never
// comes. With edges its times are at the ends of what can be, its version may be a
// newer one, and a value of its body one that nobody asked for.
func genEvent(t *rapid.T, name, kind string, ids map[string][]string, edges bool) event.Event {
	pick := func(list []string, what string) string { return rapid.SampledFrom(list).Draw(t, what) }
	small := func(what string) int64 { return rapid.Int64Range(-3, 12).Draw(t, what) }
	m := map[string]any{"id": name, "kind": kind, "v": 1, "device": pick(genDevices, "device")}
	// Clocks up to ten years off, and often the same ms.
	ms := T0 + rapid.SampledFrom([]int64{0, 0, 0, -316e9, 316e9}).Draw(t, "jump") + rapid.Int64Range(0, 40).Draw(t, "ms")*7000
	m["t"] = event.StampOf(ms).String()
	if edges {
		stamp := rapid.SampledFrom(edgeStamps).Draw(t, "edge stamp")
		ms, m["t"] = stamp.Ms(), stamp.String()
		m["v"] = rapid.SampledFrom([]int{1, 1, 1, 2, 1 << 31}).Draw(t, "version")
		m["wall"] = json.RawMessage(rapid.SampledFrom(edgeWalls).Draw(t, "edge clock"))
	} else if rapid.Bool().Draw(t, "shows a clock") {
		m["wall"] = []int64{ms + small("skew")*1000, 60}
	}
	if in := pick(append(genAbouts["session"], ""), "in"); in != "" {
		m["in"] = in
	}
	if rapid.IntRange(0, 3).Draw(t, "later") == 0 {
		m["at"] = min(max(1, ms-rapid.Int64Range(-5, 30).Draw(t, "ago")*7000), event.MaxMillis)
		if edges {
			m["at"] = rapid.SampledFrom(edgeTimes).Draw(t, "edge time")
		}
	}
	target := pick(ids[""], "target")
	k := event.KindOf(kind)
	if k == nil { // of a version to come
		k = &event.Kind{Body: []event.Field{{Key: "text"}}}
	}
	g := bodyGen{t: t, ms: ms, target: target, ids: ids}
	if names := genAbouts[k.About]; names != nil {
		m["about"] = pick(names, "about")
	}
	if strings.HasSuffix(kind, ".set") {
		m["over"] = target
	}
	body := g.body(k)
	if edges && rapid.Bool().Draw(t, "odd") {
		keys := slices.Concat(order.Keys(body), []string{"rig", "signs", "starts", "on", "set", "__proto__"})
		body[pick(keys, "odd key")] = json.RawMessage(pick(oddValues, "odd value"))
	}
	m["body"] = body
	raw, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	return e
}

// Journal draws a journal. In a third of them times, versions and values are at the
// ends of what can be.
func Journal(t *rapid.T) []event.Event {
	return journalOf(t, rapid.IntRange(0, 2).Draw(t, "edges") == 0)
}

// PlainJournal draws a journal in which each entry says what its kind must.
func PlainJournal(t *rapid.T) []event.Event { return journalOf(t, false) }

func journalOf(t *rapid.T, edges bool) []event.Event {
	n := rapid.IntRange(0, 40).Draw(t, "events")
	all := slices.Concat(event.Kinds(), []string{"drone.flown", "arc.started", "arc.started", "arc.stopped", "arc.stopped", "check.answered", "part.fitted"})
	ids := map[string][]string{"": {ID("never-comes")}}
	var names, of []string
	for i := range n {
		name, kind := ID(fmt.Sprintf("e%02d", i)), rapid.SampledFrom(all).Draw(t, "kind")
		names, of = append(names, name), append(of, kind)
		ids[""], ids[kind] = append(ids[""], name), append(ids[kind], name)
	}
	var list []event.Event
	for i, name := range names {
		list = append(list, genEvent(t, name, of[i], ids, edges))
	}
	return list
}

// Confirmed is what the server said of the event number i of a journal: about
// half are confirmed, some with an o below t.
func Confirmed(e event.Event, i int) (*event.Stamp, int64) {
	if i%2 == 0 {
		return nil, 0
	}
	o := event.Clamp(e.T, event.LastStampOf(T0+100_000))
	return &o, int64(i)
}
