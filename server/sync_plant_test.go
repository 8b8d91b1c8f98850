package server

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"kerfside/calc/journal"
)

// plants are bugs that people have written in such code before. Each is planted
// through the phone's storage or the transport, never by a flag in the code that
// ships, and the simulation has to find it.
var plants = []string{
	"cursor saved before events",
	"acknowledged before answer",
	"no de-duplication",
	"page applied past its last mark",
	"rewound ignored",
	"no relay after a restore",
	"promises kept",
	"cursor is a time",
}

// TestPlantedBugs looks for the first seed that finds each of them.
func TestPlantedBugs(t *testing.T) {
	for _, name := range plants {
		t.Run(strings.ReplaceAll(name, " ", "-"), func(t *testing.T) {
			const most = 400
			for seed := uint64(1); seed <= most; seed++ {
				if err := run(t, seed, &plant{name}); err != nil {
					t.Logf("seed %d finds it: %v", seed, err)
					return
				}
			}
			t.Errorf("no seed of %d finds it", most)
		})
	}
}

// onRequest is a transport or a store in which a bug may be planted; undo is
// applied to the reply.
func (w *world) onRequest(body string) (string, func(string) string) {
	same := func(s string) string { return s }
	if !w.bug.is("no de-duplication") {
		return body, same
	}
	// An event that is there already is stored once more, as a store without a
	// unique key would.
	rows, err := w.rows()
	if err != nil {
		return body, same
	}
	var swap []string
	for _, r := range rows {
		if strings.Contains(body, r.ID) {
			fresh, _, err := journal.Reenter(r.Raw)
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
func (w *world) onReply(body, reply string) string {
	if w.bug.is("cursor is a time") {
		return w.onlyNewer(body, reply)
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
	chain, _, err := w.store.At(wContext, crewID, from)
	if err != nil {
		return reply
	}
	for i, text := range lines {
		var l struct {
			ID  string
			N   int64
			O   *journal.Stamp
			H   *string
			Sum *journal.Sum
			Raw json.RawMessage
		}
		switch {
		case json.Unmarshal([]byte(text), &l) != nil:
		case l.H != nil:
			lines[i] = fmt.Sprintf(`{"n":%d,"h":"%v"}`+"\n", l.N, chain)
		case l.Raw != nil:
			lines[i] = strings.Replace(text, `"text":"\u003c`, `"text":"\u003e`, 1)
			raw := strings.Replace(string(l.Raw), `"text":"\u003c`, `"text":"\u003e`, 1)
			e, err := journal.Decode([]byte(raw))
			if err != nil {
				return reply
			}
			chain = chain.Next(e.ID, *l.O, journal.SumOf([]byte(raw)))
		case l.Sum != nil:
			chain = chain.Next(l.ID, *l.O, *l.Sum)
		}
	}
	return strings.Join(lines, "")
}

// onlyNewer leaves out of a reply what is older than the newest event that the
// phone holds, as a server does that takes a time for the cursor.
func (w *world) onlyNewer(body, reply string) string {
	first, _, _ := strings.Cut(body, "\n")
	var head journal.RequestHead
	if json.Unmarshal([]byte(first), &head) != nil || head.At.N == 0 {
		return reply
	}
	rows, err := w.rows()
	if err != nil || head.At.N > int64(len(rows)) {
		return reply
	}
	var newest journal.Stamp
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
func (w *world) ignoreRewound(body string) string {
	first, events, _ := strings.Cut(body, "\n")
	var head journal.RequestHead
	if json.Unmarshal([]byte(first), &head) != nil {
		return ""
	}
	state, _ := w.store.State(crewID)
	head.At.N = min(head.At.N, state.Max)
	head.At.H, _, _ = w.store.At(wContext, crewID, head.At.N)
	text, err := json.Marshal(head)
	if err != nil {
		return ""
	}
	_, reply := w.post(string(text) + "\n" + events)
	return reply
}
