package journal

import (
	"bytes"
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/order"
)

// laws checks a law on generated journals. The seed is 1, or what KERFSIDE_SEED
// says; one that fails is printed.
func laws(t *testing.T, law func(*rapid.T)) {
	seed := cmp.Or(os.Getenv("KERFSIDE_SEED"), "1")
	for name, value := range map[string]string{"rapid.checks": strconv.Itoa(cases()), "rapid.seed": seed, "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			t.Fatal(err)
		}
	}
	defer func() {
		if t.Failed() {
			t.Logf("KERFSIDE_SEED=%s", seed)
			return
		}
		t.Logf("tally: %d journals drawn", cases())
	}()
	rapid.Check(t, law)
}

// Invented things that generated events are about: few, so that they meet.
var (
	genSessions = []string{"s-1", "s-2", ""}
	genRigs     = []string{"rig-1", "rig-2", "rig-3"}
	genParts    = []string{"part-1", "part-2", "part-3"}
	genLines    = []string{"line-1", "line-2"}
	genDevices  = []string{"phone-a", "phone-b", "phone-c"}
)

// The ends of what a stamp and a time can be: first and last ms, first and last
// counter, and few enough that events often share one.
var (
	edgeStamps = []Stamp{1, 2, 0xffff, StampOf(1), LastStampOf(1), StampOf(t0), StampOf(maxMillis), LastStampOf(maxMillis)}
	edgeTimes  = []int64{1, 2, t0, maxMillis - 1, maxMillis}
	edgeWalls  = []string{`[0,0]`, `[1,0]`, `[-1,0]`, `[null,null]`, `[]`, `[281474976710655,0]`, `[9223372036854775807,0]`, `[-9223372036854775808,0]`, `[1760731116544,60]`}
)

// oddValues are what no kind asks for: each may stand under any key.
var oddValues = []string{`"x"`, `""`, `"\u0000"`, `0`, `-1`, `1.5`, `1e300`, `281474976710655`, `9223372036854775807`, `null`, `true`, `[]`, `{}`, `[null]`,
	`["x",1,null]`, `{"a":{"a":[0]}}`, `"__proto__"`, `{"__proto__":1}`}

// aims says which kind an event usually aims at.
var aims = map[string]string{"arc.stopped": "arc.started", "check.cleared": "check.answered", "watch.ended": "watch.started"}

// genEvent draws an event of that kind. ids are those of all events of the
// journal, by kind and under "" together: what amends, voids, stops and clears
// may stand before its target, name itself, one of another kind, or one that never
// comes. With edges its times are at the ends of what can be, its version may be a
// newer one, and a value of its body one that nobody asked for.
func genEvent(t *rapid.T, name, kind string, ids map[string][]string, edges bool) Event {
	pick := func(list []string, what string) string { return rapid.SampledFrom(list).Draw(t, what) }
	small := func(what string) int64 { return rapid.Int64Range(-3, 12).Draw(t, what) }
	m := map[string]any{"id": name, "kind": kind, "v": 1, "device": pick(genDevices, "device")}
	// Clocks up to ten years off, and often the same ms.
	ms := t0 + rapid.SampledFrom([]int64{0, 0, 0, -316e9, 316e9}).Draw(t, "jump") + rapid.Int64Range(0, 40).Draw(t, "ms")*7000
	m["t"] = StampOf(ms).String()
	if edges {
		stamp := rapid.SampledFrom(edgeStamps).Draw(t, "edge stamp")
		ms, m["t"] = stamp.Ms(), stamp.String()
		m["v"] = rapid.SampledFrom([]int{1, 1, 1, 2, 1 << 31}).Draw(t, "version")
		m["wall"] = json.RawMessage(rapid.SampledFrom(edgeWalls).Draw(t, "edge clock"))
	} else if rapid.Bool().Draw(t, "shows a clock") {
		m["wall"] = []int64{ms + small("skew")*1000, 60}
	}
	if in := pick(genSessions, "in"); in != "" {
		m["in"] = in
	}
	if rapid.IntRange(0, 3).Draw(t, "later") == 0 {
		m["at"] = min(max(1, ms-rapid.Int64Range(-5, 30).Draw(t, "ago")*7000), maxMillis)
		if edges {
			m["at"] = rapid.SampledFrom(edgeTimes).Draw(t, "edge time")
		}
	}
	target, rig := pick(ids[""], "target"), pick(genRigs, "rig")
	if aim := ids[aims[kind]]; len(aim) > 0 && rapid.IntRange(0, 3).Draw(t, "astray") > 0 {
		target = pick(aim, "aim")
	}
	body := map[string]any{}
	switch kind {
	case "rig.set", "site.set", "job.set":
		m["about"], m["over"] = rig, target
		body = map[string]any{"name": fmt.Sprint(small("name")), "drainEvery": 1_200_000 + 100_000*small("every"), pick([]string{"a", "b"}, "field"): nil}
	case "setting.set":
		body = map[string]any{"units": pick([]string{"us", "metric"}, "units")}
	case "same":
		things := slices.Concat(genRigs, genParts, genLines, genSessions[:2])
		m["about"], body["as"] = pick(things, "one"), pick(things, "other")
	case "session.opened", "session.closed", "session.set":
		m["about"] = pick(genSessions[:2], "session")
		body = map[string]any{"rig": rig, "title": fmt.Sprint(small("title"))}
	case "arc.started", "trap.drained", "filter.changed":
		if rapid.Bool().Draw(t, "names a rig") {
			body["rig"] = rig
		}
	case "arc.run":
		from := ms - rapid.Int64Range(0, 20).Draw(t, "from")*3000
		body = map[string]any{"rig": rig, "start": max(0, from), "stop": from + small("long")*3000, "starts": small("starts")}
	case "part.fitted", "part.pulled", "part.reading":
		m["about"] = pick(genParts, "part")
		body = map[string]any{"slot": pick([]string{"tip", "electrode"}, "slot"), "rig": rig, "line": pick(genLines, "line"), "dmin": small("dmin")}
	case "guide.opened", "check.answered":
		body = map[string]any{"guide": pick([]string{"bring-up", "may-i-cut"}, "guide"), "step": pick([]string{"clamp", "hose"}, "step"), "result": pick([]string{"good", "fail", "change"}, "result")}
		if rapid.Bool().Draw(t, "names a rig") {
			body["rig"] = rig
		}
	case "fault.seen", "fault.found", "fault.mended":
		m["about"] = pick([]string{"fault-1", "fault-2"}, "fault")
		body = map[string]any{"symptom": "no arc", "cause": small("cause")}
	case "watch.started":
		body["ms"] = 60_000 * small("minutes")
	case "line.set", "stock.moved", "stock.counted":
		m["about"] = pick(genLines, "line")
		body["n"] = small("n")
	case "amend":
		set := map[string]any{}
		for range rapid.IntRange(0, 2).Draw(t, "fields") {
			set[pick([]string{"n", "rig", "start", "slot", "result", "at", "title", "of", "as"}, "field")] =
				rapid.SampledFrom([]any{1, 5, nil, "rig-2", "tip", "good", t0 + 9000}).Draw(t, "value")
		}
		body["set"], body["why"] = set, "slip"
	case "void":
		body["on"] = rapid.Bool().Draw(t, "on")
	default:
		body["text"] = rapid.StringN(0, 5, 20).Draw(t, "text")
	}
	switch kind {
	case "arc.stopped", "check.cleared", "watch.ended", "amend", "void":
		body["of"] = target
	}
	if edges && rapid.Bool().Draw(t, "odd") {
		keys := slices.Concat(order.Keys(body), []string{"rig", "signs", "starts", "on", "set", "__proto__"})
		body[pick(keys, "odd key")] = json.RawMessage(pick(oddValues, "odd value"))
	}
	m["body"] = body
	raw, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	e, err := Decode(raw)
	if err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	return e
}

// genJournal draws a journal.
func genJournal(t *rapid.T) []Event {
	n, edges := rapid.IntRange(0, 40).Draw(t, "events"), rapid.IntRange(0, 2).Draw(t, "edges") == 0
	all := slices.Concat(Kinds(), []string{"drone.flown", "arc.started", "arc.started", "arc.stopped", "arc.stopped", "check.answered", "part.fitted"})
	ids := map[string][]string{"": {id("never-comes")}}
	var names, of []string
	for i := range n {
		name, kind := id(fmt.Sprintf("e%02d", i)), rapid.SampledFrom(all).Draw(t, "kind")
		names, of = append(names, name), append(of, kind)
		ids[""], ids[kind] = append(ids[""], name), append(ids[kind], name)
	}
	var list []Event
	for i, name := range names {
		list = append(list, genEvent(t, name, of[i], ids, edges))
	}
	return list
}

// confirmed is what the server said of the event number i of a journal: about
// half are confirmed, some with an o below t.
func confirmed(e Event, i int) (*Stamp, int64) {
	if i%2 == 0 {
		return nil, 0
	}
	o := Clamp(e.T, LastStampOf(t0+100_000))
	return &o, int64(i)
}

func stateOf(t rapid.TB, f *Fold) []byte {
	text, err := f.State()
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func foldAll(list []Event) *Fold {
	f := NewFold()
	for i, e := range list {
		o, n := confirmed(e, i)
		f.Add(e, o, n)
	}
	return f
}

// TestOrderAndRepetitionDoNotMatter: any permutation of a journal, with any of
// its events twice, and with views asked for in between, folds to the same bytes.
func TestOrderAndRepetitionDoNotMatter(t *testing.T) { laws(t, orderDoesNotMatter) }

func orderDoesNotMatter(t *rapid.T) {
	list := genJournal(t)
	want := stateOf(t, foldAll(list))
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 1))
	order := r.Perm(len(list))
	for range len(list) / 3 {
		order = append(order, r.IntN(len(list)))
	}
	f := NewFold()
	for _, i := range order {
		o, n := confirmed(list[i], i)
		f.Add(list[i], o, n)
		if r.IntN(4) == 0 { // builds the index, which the next event then has to keep right
			f.Now()
			f.Book("", 0)
		}
	}
	if got := stateOf(t, f); !bytes.Equal(got, want) {
		t.Fatalf("in order %v:\n%s\nin their own order:\n%s", order, got, want)
	}
}

// TestConfirmationMovesAnEvent: an event that is folded before the server dated
// it ends up where it would have been had it come dated, and goes back when the
// server takes its word back.
func TestConfirmationMovesAnEvent(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f := NewFold()
		for _, e := range list {
			f.Add(e, nil, 0)
			f.Now()
		}
		before := stateOf(t, f)
		for i, e := range list {
			o, n := confirmed(e, i)
			f.Add(e, o, n)
		}
		if got, want := stateOf(t, f), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
			t.Fatalf("confirmed later:\n%s\nat once:\n%s", got, want)
		}
		for _, e := range list {
			f.Add(e, nil, 0)
		}
		if got := stateOf(t, f); !bytes.Equal(got, before) {
			t.Fatalf("taken back:\n%s\nas before:\n%s", got, before)
		}
	})
}

// TestRungsKeepTheFold: a fold that is put away and restored at any moment, with
// what arrives late after that, is the fold of all events.
func TestRungsKeepTheFold(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		want := stateOf(t, foldAll(list))
		order := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 2)).Perm(len(list))
		stop := rapid.IntRange(0, len(list)).Draw(t, "stop")
		f := NewFold()
		for _, i := range order[:stop] {
			f.Add(list[i], nil, 0)
		}
		rungs := f.log.take(int64(stop), true)
		restored, l, err := RestoreFold(rungs)
		if err != nil || stop > 0 && l != int64(stop) {
			t.Fatalf("restore: l %d, %v", l, err)
		}
		if got, want := stateOf(t, restored), stateOf(t, f); !bytes.Equal(got, want) {
			t.Fatalf("restored:\n%s\nput away:\n%s", got, want)
		}
		for _, i := range order {
			o, n := confirmed(list[i], i)
			restored.Add(list[i], o, n)
		}
		if got := stateOf(t, restored); !bytes.Equal(got, want) {
			t.Fatalf("restored and gone on:\n%s\nall at once:\n%s", got, want)
		}
	})
}

// TestOtherBytesTakeThePlace: an event that was folded and turns out to have
// other bytes on the server leaves no trace, also across a rung.
func TestOtherBytesTakeThePlace(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list, other := genJournal(t), genJournal(t)
		f := NewFold()
		for _, e := range other[:min(len(list), len(other))] {
			f.Add(e, nil, 0)
			f.Now()
		}
		restored, _, err := RestoreFold(f.log.take(1, true))
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range []*Fold{f, restored} {
			for i, e := range list {
				o, n := confirmed(e, i)
				g.Add(e, o, n)
			}
			if got, want := stateOf(t, g), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
				t.Fatalf("after others:\n%s\nalone:\n%s", got, want)
			}
			if again, _, err := RestoreFold(g.log.take(2, true)); err != nil && g == restored {
				t.Fatalf("the ladder broke: %v", err)
			} else if g == restored && again.Len() == 0 && len(list) > 0 {
				t.Fatal("the ladder is empty")
			}
		}
	})
}

// TestLossOnlyLoses: a fold of some of the events never fails, and adding the
// rest mends it.
func TestLossOnlyLoses(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f := NewFold()
		var lost []int
		for i, e := range list {
			if rapid.Bool().Draw(t, "lost") {
				lost = append(lost, i)
				continue
			}
			o, n := confirmed(e, i)
			f.Add(e, o, n)
		}
		stateOf(t, f)
		for _, i := range lost {
			o, n := confirmed(list[i], i)
			f.Add(list[i], o, n)
		}
		if got, want := stateOf(t, f), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
			t.Fatalf("mended:\n%s\nwhole:\n%s", got, want)
		}
	})
}

// TestUnion: the union of sets of events does not depend on sides, grouping or
// repetition, also where an id stands for different bytes.
func TestUnion(t *testing.T) {
	laws(t, func(t *rapid.T) {
		all := genJournal(t)
		for _, e := range all[:len(all)/4] { // the same ids with other bytes
			raw := bytes.Replace(e.Raw, []byte(`"v":1`), []byte(`"v":2`), 1)
			other, err := Decode(raw)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, other)
		}
		side := func() []Event {
			var list []Event
			for _, e := range all {
				if rapid.Bool().Draw(t, "here") {
					list = append(list, e)
				}
			}
			return list
		}
		a, b, c := side(), side(), side()
		union := func(x, y []Event) []Event {
			u, err := Union(x, y)
			if err != nil {
				t.Fatal(err)
			}
			return u
		}
		equal := func(law string, x, y []Event) {
			if !slices.EqualFunc(x, y, func(p, q Event) bool { return bytes.Equal(p.Raw, q.Raw) }) {
				t.Fatalf("%s: %d events against %d", law, len(x), len(y))
			}
		}
		equal("commutative", union(a, b), union(b, a))
		equal("associative", union(union(a, b), c), union(a, union(b, c)))
		equal("idempotent", union(a, union(a, b)), union(a, b))
	})
}
