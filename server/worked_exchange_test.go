package server

import (
	"encoding/json"
	"flag"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

var update = flag.Bool("update", false, "write the blocks of the worked exchange anew")

const workedExchange = "../calc/journal/exchange.md"

// block is a fenced block of a page: "```word word", text, "```".
var block = regexp.MustCompile("(?ms)^```(\\w+) ?([^\n]*)\n(.*?)^```$")

// TestWorkedExchange plays the page against the server and against the phone's side
// of the protocol, and compares every block with what they say.
func TestWorkedExchange(t *testing.T) {
	page, err := os.ReadFile(workedExchange)
	if err != nil {
		t.Fatal(err)
	}
	p := &play{t: t, server: syncServer(t), phones: map[string]*phone{}, tabs: map[*phone]*tab{}}
	steps := 0
	played := block.ReplaceAllStringFunc(string(page), func(text string) string {
		steps++
		m := block.FindStringSubmatch(text)
		return fmt.Sprintf("```%s\n%s```", strings.TrimSpace(m[1]+" "+m[2]), p.step(m[1], m[2], m[3]))
	})
	if steps < 20 {
		t.Errorf("%s has %d blocks: this test looks in the wrong place", workedExchange, steps)
	}
	if *update {
		if err := os.WriteFile(workedExchange, []byte(played), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if played != string(page) && !*update {
		t.Errorf("%s is not what is said. Read the difference after: go test ./server -run %s -update%s", workedExchange, t.Name(), firstDifference(string(page), played))
	}
}

// TestExamplesOfThePages: what the other pages show of events, requests and replies is
// what the worked exchange says, byte for byte.
func TestExamplesOfThePages(t *testing.T) {
	played, err := os.ReadFile(workedExchange)
	if err != nil {
		t.Fatal(err)
	}
	examples := 0
	for _, name := range []string{"event.md", "protocol.md"} {
		page, err := os.ReadFile(filepath.Join(filepath.Dir(workedExchange), name))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range block.FindAllStringSubmatch(string(page), -1) {
			examples++
			if !strings.Contains(string(played), "\n"+m[3]+"```\n") {
				t.Errorf("%s: this %s is not in the worked exchange:\n%s", name, m[1], m[3])
			}
		}
	}
	if examples < 3 {
		t.Errorf("the pages have %d examples: this test looks in the wrong place", examples)
	}
}

// play is the state of a worked exchange: one server, phones by name, and what is
// on its way between them.
type play struct {
	t       *testing.T
	server  *Server
	phones  map[string]*phone
	tabs    map[*phone]*tab
	asking  *phone
	request *flight
}

// step plays a block and returns what it ought to hold.
func (p *play) step(what, who, text string) string {
	switch what {
	case "event":
		return p.enter(who, text)
	case "request":
		p.asking = p.phones[who]
		p.request = p.asking.read(p.tabs[p.asking], start-100)
		return p.request.body
	case "reply":
		return p.reply(who)
	case "state":
		return p.state(p.phones[who])
	case "server":
		return p.serverDoes(text)
	}
	p.t.Fatalf("%s: nobody knows the block %q", workedExchange, what)
	return ""
}

// enter stores an event on a phone, which is new if nobody has heard of it.
func (p *play) enter(name, raw string) string {
	e, err := event.Decode([]byte(strings.TrimSuffix(raw, "\n")))
	if err != nil {
		p.t.Fatal(err)
	}
	if p.phones[name] == nil {
		p.phones[name] = newPhone(name, 0, nil)
		p.phones[name].disk.meta.Crew = crewID
		p.tabs[p.phones[name]] = &tab{}
	}
	p.phones[name].disk.put(event.Record{ID: e.ID, Raw: string(e.Raw), T: e.T, Unsent: event.ToSend})
	return string(e.Raw) + "\n"
}

// reply posts the request that is on its way and lets the phone take the answer.
func (p *play) reply(status string) string {
	out := httptest.NewRecorder()
	who := store.Device{Crew: crewID, ID: p.asking.device, Role: store.Member}
	p.server.as(who, p.server.syncJournal).ServeHTTP(out, httptest.NewRequest("POST", "/api/journal/sync", strings.NewReader(p.request.body)))
	if strconv.Itoa(out.Code) != status {
		p.t.Errorf("%s is answered %d, the page says %s: %s", p.asking.name, out.Code, status, out.Body)
	}
	x := p.request.x
	x.Status, x.Reply, x.GotAt = out.Code, out.Body.String(), start-100
	p.asking.apply(p.tabs[p.asking], x, exchange.Apply(x))
	return strings.TrimSuffix(out.Body.String(), "\n") + "\n"
}

// state tells what a phone holds: its cursor and its records, one a line.
func (p *play) state(of *phone) string {
	var b strings.Builder
	m := of.disk.meta
	head, _ := json.Marshal(map[string]any{"cursor": m.Cursor, "head": m.Head, "gen": m.Gen, "gone": m.ErasuresDigest})
	fmt.Fprintf(&b, "meta  %s\n", head)
	for _, r := range of.disk.all() {
		where := "to send"
		if r.N > 0 {
			where = fmt.Sprintf("arrival %d", r.N)
		}
		fmt.Fprintf(&b, "event %s %s: %s\n", r.ID, where, r.Raw)
	}
	return b.String()
}

// serverDoes makes happen to the server what a person does there.
func (p *play) serverDoes(text string) string {
	verb, object, _ := strings.Cut(strings.TrimSpace(text), " ")
	var err error
	switch verb {
	case "erase":
		_, err = p.server.store.Erase(p.t.Context(), crewID, object, "", "", start)
	case "restore":
		err = p.restore(object)
	default:
		err = fmt.Errorf("%s: a server does not %q", workedExchange, verb)
	}
	if err != nil {
		p.t.Fatal(err)
	}
	return text
}

// restore gives the server a store that holds its first arrivals only.
func (p *play) restore(upTo string) error {
	n, err := strconv.ParseInt(upTo, 10, 64)
	if err != nil {
		return err
	}
	rows, err := p.server.store.After(p.t.Context(), crewID, 0, int(n), exchange.MaxBody)
	if err != nil {
		return err
	}
	db, err := store.Open(filepath.Join(p.t.TempDir(), "journal.db"), store.Options{Crew: crewID})
	if err != nil {
		return err
	}
	p.t.Cleanup(func() { db.Close() })
	batch := store.Batch{Crew: crewID, Relay: "backup", Now: start}
	for _, row := range rows {
		e, err := event.Decode(row.Raw)
		if err != nil {
			return err
		}
		batch.Events = append(batch.Events, exchange.Push{Event: e, O: row.O, Sum: row.Sum, Reoffered: true})
	}
	p.server.store = db
	_, err = db.Append(p.t.Context(), batch)
	return err
}

// firstDifference shows the first line in which two texts differ.
func firstDifference(page, said string) string {
	a, b := strings.Split(page, "\n"), strings.Split(said, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("\nline %d of the page: %s\nsaid:              %s", i+1, a[i], b[i])
		}
	}
	return ""
}
