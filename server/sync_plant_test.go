package server

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// plants are bugs that people have written in such code before. Each is planted
// through the phone's storage or the transport, never by a flag in the code that
// ships, and the simulation has to find it. first is a seed that found it once
// and is tried first, to save time.
var plants = []struct {
	name  string
	first uint64
}{
	{"cursor is a time", 1},
	{"cursor saved before events", 1},
	{"acknowledged before answer", 1},
	{"no de-duplication", 1},
	{"fold in arrival order", 1},
	{"page applied past its last mark", 1},
	{"rewound ignored", 1},
	{"no relay after a restore", 23},
	{"single-id checkpoint", 229},
	{"promises kept", 58},
	{"reply applied over a changed cursor", 583},
	{"stock as last writer", 1},
	{"joining a crew offers everything", 2},
	{"what was erased is kept", 1},
}

// TestPlantedBugs looks for a seed that finds each of them.
func TestPlantedBugs(t *testing.T) {
	t.Parallel()
	for _, bug := range plants {
		t.Run(strings.ReplaceAll(bug.name, " ", "-"), func(t *testing.T) {
			const atMost = 1000
			for i := range uint64(atMost) {
				seed := i
				if i == 0 {
					seed = bug.first
				}
				if _, err := run(seed, &plant{bug.name}, nil); err != nil {
					t.Logf("seed %d finds it: %v", seed, err)
					return
				}
			}
			t.Errorf("no seed of %d finds it", atMost)
		})
	}
}

// TestShrunkStory: of a history that fails, the steps that matter are left, and
// the story is still one that fails.
func TestShrunkStory(t *testing.T) {
	t.Parallel()
	bug := &plant{"acknowledged before answer"}
	whole, err := run(1, bug, nil)
	steps := shrink(1, bug)
	if err == nil || len(steps) == 0 || len(steps) > whole.steps/4 {
		t.Fatalf("of %d steps %d are left; %v", whole.steps, len(steps), err)
	}
	for i := range steps {
		if _, err := run(1, bug, slices.Delete(slices.Clone(steps), i, i+1)); err != nil {
			t.Errorf("step %d could be left out too", steps[i])
		}
	}
	if text := shrunkStory(1, bug); !strings.Contains(text, "sends") {
		t.Errorf("the story does not say what happened:\n%s", text)
	}
}

// onRequest is a transport or a store in which a bug may be planted; undo is
// applied to the reply.
func (w *world) onRequest(h *host, body string) (string, func(string) string) {
	same := func(s string) string { return s }
	if w.bug.is("single-id checkpoint") {
		return w.sameID(h, body)
	}
	if !w.bug.is("no de-duplication") {
		return body, same
	}
	// An event that is there already is stored once more, as a store without a
	// unique key would.
	rows, err := h.after(0)
	if err != nil {
		return body, same
	}
	var swap []string
	for _, r := range rows {
		if strings.Contains(body, r.ID) {
			fresh, _, err := event.Reenter(r.Raw)
			if err == nil {
				swap = append(swap, r.ID, fresh)
			}
		}
	}
	back := make([]string, len(swap))
	for i := 0; i < len(swap); i += 2 {
		back[i], back[i+1] = `{"id":"`+swap[i+1], `{"id":"`+swap[i]
		swap[i], swap[i+1] = `"id":"`+swap[i], `"id":"`+swap[i+1]
	}
	return strings.NewReplacer(swap...).Replace(body), strings.NewReplacer(back...).Replace
}

// onReply damages a letter of an arrival and makes the marks fit, which is what
// a phone sees that takes lines without checking them against a mark.
func (w *world) onReply(h *host, body, reply string) string {
	if w.bug.is("cursor is a time") {
		return w.onlyNewer(h, body, reply)
	}
	if !w.bug.is("page applied past its last mark") || w.rand.IntN(3) > 0 || !strings.Contains(reply, `"text":"\u003c`) {
		return reply
	}
	lines := strings.SplitAfter(reply, "\n")
	from := int64(-1)
	for _, text := range lines {
		if n, ok := arrivalNumber(text); ok {
			from = n - 1
			break
		}
	}
	if from < 0 {
		return reply
	}
	chain, _, err := h.store.At(wContext, crewID, from)
	if err != nil {
		return reply
	}
	for i, text := range lines {
		if _, ok := arrivalNumber(text); ok {
			lines[i] = strings.Replace(text, `"text":"\u003c`, `"text":"\u003e`, 1)
		}
	}
	return chained(strings.Join(lines, ""), chain)
}

// chained makes the marks of a reply fit what it brings after chain.
func chained(reply string, chain event.Chain) string {
	lines := strings.SplitAfter(reply, "\n")
	for i, text := range lines {
		var l struct {
			ID  string
			N   int64
			O   *event.Stamp
			H   *string
			Sum *event.Sum
			Raw json.RawMessage
		}
		switch {
		case json.Unmarshal([]byte(text), &l) != nil:
		case l.H != nil:
			lines[i] = fmt.Sprintf(`{"n":%d,"h":"%v"}`+"\n", l.N, chain)
		case l.Raw != nil:
			e, err := event.Decode(l.Raw)
			if err != nil {
				return reply
			}
			chain = chain.Next(e.ID, *l.O, event.SumOf(l.Raw))
		case l.Sum != nil:
			chain = chain.Next(l.ID, *l.O, *l.Sum)
		}
	}
	return strings.Join(lines, "")
}

// onlyNewer leaves out of a reply what is older than the newest event that the
// phone holds, as a server does that takes a time for the cursor.
func (w *world) onlyNewer(h *host, body, reply string) string {
	first, _, _ := strings.Cut(body, "\n")
	var head exchange.RequestHead
	if json.Unmarshal([]byte(first), &head) != nil || head.At.N == 0 {
		return reply
	}
	rows, err := h.after(0)
	if err != nil || head.At.N > int64(len(rows)) {
		return reply
	}
	var newest event.Stamp
	for _, r := range rows[:head.At.N] {
		newest = max(newest, r.O)
	}
	var kept strings.Builder
	for _, text := range strings.SplitAfter(reply, "\n") {
		if n, ok := arrivalNumber(text); !ok || rows[n-1].O > newest {
			kept.WriteString(text)
		}
	}
	return kept.String()
}

// arrivalNumber returns n of an arrival's line.
func arrivalNumber(text string) (int64, bool) {
	var l struct {
		N   int64
		Sum *string
		Raw json.RawMessage
	}
	err := json.Unmarshal([]byte(text), &l)
	return l.N, err == nil && (l.Sum != nil || l.Raw != nil)
}

// ignoreRewound answers as a server would that compares nothing: with what comes
// after the phone's cursor, as if that were its own.
func (w *world) ignoreRewound(h *host, body string) string {
	first, events, _ := strings.Cut(body, "\n")
	var head exchange.RequestHead
	if json.Unmarshal([]byte(first), &head) != nil {
		return ""
	}
	state, _ := h.store.State(crewID)
	head.At.N = min(head.At.N, state.Max)
	head.At.H, _, _ = h.store.At(wContext, crewID, head.At.N)
	text, err := json.Marshal(head)
	if err != nil {
		return ""
	}
	_, reply := w.post(h, string(text)+"\n"+events)
	return reply
}

// sameID makes a cursor good whose last event the server has at that number, as
// a server and a phone do that compare no more than this id.
func (w *world) sameID(h *host, body string) (string, func(string) string) {
	first, events, _ := strings.Cut(body, "\n")
	same := func(s string) string { return s }
	var head exchange.RequestHead
	if json.Unmarshal([]byte(first), &head) != nil || head.At.N == 0 {
		return body, same
	}
	chain, ok, err := h.store.At(wContext, crewID, head.At.N)
	if err != nil || !ok || chain == head.At.H {
		return body, same
	}
	rows, err := h.after(head.At.N - 1)
	if err != nil || len(rows) == 0 || !w.knows(head.At, rows[0].ID) {
		return body, same
	}
	mine := head.At.H
	head.At.H = chain
	text, err := json.Marshal(head)
	if err != nil {
		return body, same
	}
	return string(text) + "\n" + events, func(reply string) string { return chained(reply, mine) }
}

// knows reports whether the phone that stands at a cursor has id there.
func (w *world) knows(at exchange.Mark, id string) bool {
	for _, p := range w.phones {
		if p.disk.meta.Cursor == at.N && p.disk.meta.Head == at.H && p.disk.records[id].N == at.N {
			return true
		}
	}
	return false
}
