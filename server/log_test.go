package server

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/fold"
)

// TestReleasedLogs: what a phone of a released version exported is entered on a
// phone of today, carried to the server, and from there to a second phone, which
// then holds the same bytes and shows what testdata/journal/logs says.
func TestReleasedLogs(t *testing.T) {
	paths, err := filepath.Glob("../testdata/journal/logs/*.jsonl")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no log of a released version: %v", err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			w := quietWorld(t, 2)
			read, err := engineCall[engine.Imported](engine.New(), "journal-import", map[string]string{"text": string(text)})
			if err != nil || len(read.Refused) > 0 {
				t.Fatalf("%v, refused are %+v", err, read.Refused)
			}
			for _, e := range read.Events {
				w.phones[0].disk.put(event.Record{ID: e.ID, Raw: e.Raw, T: e.T, O: e.O, Unsent: event.ToSend})
				w.ever[e.Raw], w.tapped[e.Raw] = true, true
			}
			if err := w.heal(); err != nil {
				t.Fatal(err)
			}
			if _, err := w.checkSets(&outcome{}); err != nil {
				t.Fatal(err)
			}
			for _, r := range w.phones[1].disk.all() {
				if !strings.Contains(string(text), r.Raw) {
					t.Errorf("the second phone holds what the log does not: %s", r.Raw)
				}
			}
			var want struct{ State state }
			beside, err := os.ReadFile(strings.TrimSuffix(path, ".jsonl") + ".json")
			if err == nil {
				err = json.Unmarshal(beside, &want)
			}
			if err != nil {
				t.Fatal(err)
			}
			if got := w.phones[1].state(t); !same(got, want.State) {
				t.Errorf("the second phone shows\n%+v\nwant\n%+v", got, want.State)
			}
		})
	}
}

// quietWorld is a simulation in which nothing happens by itself.
func quietWorld(t *testing.T, phones int) *world {
	w, err := newWorld(1, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.close() })
	w.now = simBegin + 400*86_400_000 // after all that the logs hold
	w.phones = w.phones[:phones]
	for _, p := range w.phones {
		p.skew = 0
	}
	return w
}

// state is of a fold's state what does not depend on a server's numbers.
type state struct {
	Now   fold.Now    `json:"now"`
	Stock fold.Stocks `json:"stock"`
	Rigs  fold.Things `json:"rigs"`
	Parts []fold.Part `json:"parts"`
}

func (p *phone) state(t *testing.T) state {
	fold := fold.NewFold()
	for _, r := range p.disk.all() {
		e, err := event.Decode([]byte(r.Raw))
		if err != nil {
			t.Fatal(err)
		}
		fold.Add(e, r.O, 0)
	}
	text, err := fold.State()
	var s state
	if err == nil {
		err = json.Unmarshal(text, &s)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func same(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && string(x) == string(y)
}

// newer are events as a later version may write them.
func newer(device string) []string {
	return []string{
		`{"id":"newerkind0000000000000","t":"0199f3c0b4000000","device":"` + device + `","kind":"drone.flown","v":1,"body":{"over":"weir"}}`,
		`{"id":"newerversion0000000000","t":"0199f3c0b4000001","device":"` + device + `","kind":"stock.moved","v":2,"about":"line-tip","body":{"pairs":3}}`,
		`{"mood":[1,{"deep":null}],"id":"newerkeys0000000000000","t":"0199f3c0b4000002","device":"` + device + `","kind":"note.added","v":1,"body":{"text":"a","lines":[1,2]},"sig":"x=="}`,
	}
}

// TestOlderPhoneKeepsAndPassesOn: a phone that does not know what another wrote
// holds it byte for byte, and brings it back to a server that lost it.
func TestOlderPhoneKeepsAndPassesOn(t *testing.T) {
	w := quietWorld(t, 2)
	later, today := w.phones[0], w.phones[1]
	for _, raw := range newer(later.device) {
		e, err := event.Decode([]byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		later.disk.put(event.Record{ID: e.ID, Raw: raw, T: e.T, Unsent: event.ToSend})
		w.tapped[raw], w.ever[raw] = true, true
	}
	w.hosts[0].saved = []int64{0}
	if err := w.heal(); err != nil {
		t.Fatal(err)
	}
	if err := w.wipe(later); err != nil { // only today's phone and the server hold it now
		t.Fatal(err)
	}
	if err := w.restoreServer(); err != nil { // and now only the phone
		t.Fatal(err)
	}
	for range 4 {
		if _, err := w.drain(today); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.heal(); err != nil {
		t.Fatal(err)
	}
	if _, err := w.checkSets(&outcome{}); err != nil {
		t.Fatal(err)
	}
	if len(later.disk.records) != len(newer("")) {
		t.Errorf("the newer phone gets %d of its events back", len(later.disk.records))
	}
	text, err := engineCall[engine.Exported](engine.New(), "journal-export", map[string]any{"events": today.disk.all()})
	for _, raw := range newer(later.device) {
		if err != nil || !strings.Contains(text.Text, raw) {
			t.Errorf("the export lacks %s, %v", raw, err)
		}
	}
}

// TestNewerServer: a reply with keys, lines and events that this version would
// not write is taken in, and what it would not take from a phone is kept and
// passed on as it is.
func TestNewerServer(t *testing.T) {
	deep := `{"id":"deeper0000000000000000","t":"0199f3c0b4000000","device":"x","kind":"a.b","v":1,"body":{"a":[[[[[[[[[[]]]]]]]]]]}}`
	if _, err := event.Decode([]byte(deep)); err == nil {
		t.Fatal("this version takes it: make it odder")
	}
	reply := exchange.NewReply(exchange.ReplyHead{Crew: crewID, Now: start, Max: 2})
	var chain event.Chain
	for i, raw := range []string{deep, note(1)} {
		id := []string{"deeper0000000000000000", "note000000000000000001"}[i]
		chain = chain.Next(id, 7, event.SumOf([]byte(raw)))
		reply.Arrival(exchange.Arrival{N: int64(i + 1), ID: id, O: 7, Raw: []byte(raw)}, chain)
	}
	text := strings.Replace(string(reply.Bytes()), `"max":2`, `"max":2,"weather":{"rain":true}`, 1)
	text = strings.Replace(text, "\n", "\n{\"hint\":\"a kind of line to come\",\"of\":[1]}\n", 1)
	text = strings.ReplaceAll(text, `"o":"0000000000000007"`, `"o":"0000000000000007","lane":3`)
	c := exchange.Apply(exchange.Exchange{Status: 200, Reply: text})
	if len(c.Put) != 2 || c.Put[0].Raw != deep || c.Meta.Cursor != 2 {
		t.Fatalf("taken in: %+v", c)
	}
	p := newPhone("phone-a", 0, nil)
	b, err := p.tab(0)
	if err != nil {
		t.Fatal(err)
	}
	p.apply(b, exchange.Exchange{}, c)
	if err := p.foldNew(b, true); err != nil {
		t.Errorf("the fold stops at it: %v", err)
	}
	p.forget(0) // the server lost both
	p.disk.meta.Cursor, p.disk.meta.Head = 0, event.Chain{}
	if f := p.read(b, start); !slices.Contains(f.x.Sent, "deeper0000000000000000") || !strings.Contains(f.body, deep) {
		t.Errorf("it is not passed on: %s", f.body)
	}
}

// TestOlderServer: a request with keys that this version does not know is taken;
// one in another protocol is refused in a way that costs the phone nothing.
func TestOlderServer(t *testing.T) {
	s := syncServer(t)
	body := strings.Replace(request(exchange.Mark{}, note(1)), `"proto":1`, `"proto":1,"zip":"zstd","since":{"x":1}`, 1)
	if out := post(s, strings.NewReader(body)); out.Code != 200 {
		t.Errorf("unknown keys: %d %s", out.Code, out.Body)
	}
	out := post(s, strings.NewReader(strings.Replace(body, `"proto":1`, `"proto":2`, 1)))
	x := exchange.Exchange{Status: out.Code, Reply: out.Body.String(), Sent: []string{"note000000000000000001"},
		Unsent: []event.Record{{ID: "note000000000000000001", Raw: note(1), Unsent: event.ToSend}}}
	c := exchange.Apply(x)
	if c.Say == nil || c.Say.Hint == "" || len(c.Rejected)+len(c.Ack)+len(c.Put) != 0 || c.WaitMs == 0 || c.Again {
		t.Errorf("another protocol: status %d, %+v", out.Code, c)
	}
}
