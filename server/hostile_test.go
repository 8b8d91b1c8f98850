package server

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// hostile are requests that no phone sends, and what each is answered.
func hostile(other string) map[string]struct {
	body string
	want problem.Kind
} {
	ok := note(1)
	with := func(from, to string) string { return request(exchange.Mark{}, strings.Replace(ok, from, to, 1)) }
	head := func(text string) string { return text + "\n" }
	var marks []exchange.Mark
	for i := range 9000 {
		marks = append(marks, exchange.Mark{N: int64(1<<62 - i*i), H: event.Chain{byte(i), 1}})
	}
	forged, _ := json.Marshal(exchange.RequestHead{Proto: 1, Marks: marks})
	return map[string]struct {
		body string
		want problem.Kind
	}{
		"another crew's id":           {head(`{"proto":1,"crew":"` + other + `","count":0}`), problem.WrongCrew},
		"a crew that climbs":          {head(`{"proto":1,"crew":"../` + other + `","count":0}`), problem.Malformed},
		"a crew with SQL":             {head(`{"proto":1,"crew":"x' OR '1'='1","count":0}`), problem.Malformed},
		"a cursor beyond all":         {head(`{"proto":1,"at":{"n":9223372036854775807,"h":"` + strings.Repeat("f", 32) + `"},"count":0}`), problem.Rewound},
		"a cursor above 64 bits":      {head(`{"proto":1,"at":{"n":9223372036854775808},"count":0}`), problem.Malformed},
		"a cursor with an exponent":   {head(`{"proto":1,"at":{"n":1e300},"count":0}`), problem.Malformed},
		"a chain that is no hex":      {head(`{"proto":1,"at":{"n":1,"h":"` + strings.Repeat("z", 32) + `"},"count":0}`), problem.Malformed},
		"a chain too long":            {head(`{"proto":1,"at":{"n":1,"h":"` + strings.Repeat("0", 1<<16) + `"},"count":0}`), problem.Malformed},
		"the lowest generation":       {head(`{"proto":1,"gen":-9223372036854775808,"count":0}`), problem.Malformed},
		"nine thousand forged marks":  {string(forged) + "\n", ""},
		"more events than it says":    {strings.Replace(request(exchange.Mark{}, ok, note(2), note(3)), `"count":3`, `"count":2`, 1), problem.Cut},
		"fewer events than it says":   {strings.Replace(request(exchange.Mark{}, ok), `"count":1`, `"count":499`, 1), problem.Cut},
		"a count of all":              {strings.Replace(request(exchange.Mark{}, ok), `"count":1`, `"count":2147483647`, 1), problem.TooLarge},
		"a line of a megabyte":        {request(exchange.Mark{}, `{"id":"`+strings.Repeat("A", 1<<20)+`"}`), problem.TooLarge},
		"a head of a megabyte":        {head(`{"proto":1,"x":"` + strings.Repeat("x", 1<<20) + `","count":-1}`), problem.Malformed},
		"a body without end":          {strings.Repeat("{", maxSyncBody+1), problem.TooLarge},
		"half a million empty lines":  {head(`{"proto":1,"count":500}`) + strings.Repeat("\n", 1<<19), problem.Cut},
		"nested without end":          {request(exchange.Mark{}, strings.Repeat("[", 1<<19)), problem.TooLarge},
		"nested as deep as it fits":   {request(exchange.Mark{}, strings.Repeat("[", event.MaxEvent)), problem.Malformed},
		"a line of 120,000 keys":      {request(exchange.Mark{}, manyKeys(120_000)), problem.TooLarge},
		"offered with 120,000 keys":   {request(exchange.Mark{}, `{"o":"0199f3c0b4000000","raw":`+manyKeys(110_000)+`}`), problem.TooLarge},
		"an o of nothing":             {request(exchange.Mark{}, `{"o":"0000000000000000","raw":`+ok+`}`), problem.Malformed},
		"a head nested without end":   {head(strings.Repeat(`{"at":`, 1<<16)), problem.Malformed},
		"nine levels deep":            {with(`"body":{"text":1}`, `"body":{"a":[[[[[[[]]]]]]]}`), problem.Malformed},
		"a raw NUL":                   {with(`"text":1`, "\"text\":\"\x00\""), problem.Malformed},
		"a lone surrogate as bytes":   {with(`"text":1`, "\"text\":\"\xed\xa0\xbd\""), problem.Malformed},
		"an overlong slash":           {with(`"text":1`, "\"text\":\"\xc0\xaf\""), problem.Malformed},
		"an id that climbs":           {with(`"id":"note000000000000000001"`, `"id":"../../../../etc/passwd"`), problem.Malformed},
		"an id with a NUL":            {with(`"id":"note000000000000000001"`, `"id":"note00000000000000000\u0000"`), problem.Malformed},
		"the id twice":                {with(`"v":1`, `"v":1,"id":"note000000000000000002"`), problem.Malformed},
		"the id hidden by an escape":  {with(`"v":1`, `"v":1,"i\u0064":"note000000000000000002"`), problem.Malformed},
		"a version above 32 bits":     {with(`"v":1`, `"v":4294967297`), problem.Malformed},
		"at the end of time":          {with(`"v":1`, `"v":1,"at":9007199254740993000`), problem.Malformed},
		"a stamp that is no hex":      {request(exchange.Mark{}, `{"o":"fffffffffffffffg","raw":`+ok+`}`), problem.Malformed},
		"an event wrapped in another": {request(exchange.Mark{}, `{"o":"0199f3c0b4000000","raw":{"o":"0199f3c0b4000000","raw":`+ok+`}}`), problem.Malformed},
		"marks and events at once":    {strings.Replace(request(exchange.Mark{}, ok), `"count":1`, `"marks":[{"n":0}],"count":1`, 1), problem.Malformed},
		"the protocol of tomorrow":    {head(`{"proto":99999999999,"count":0}`), problem.OldApp},
		"a reply instead of a head":   {head(`{"proto":1,"crew":"` + crewID + `","now":1,"max":9,"count":"0"}`), problem.Malformed},
	}
}

// manyKeys is an object with n keys.
func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `,"%x":0`, i)
	}
	return "{" + b.String()[1:] + "}"
}

// TestHostileSync: each is refused in the one shape and stores nothing, and an
// honest phone goes on.
func TestHostileSync(t *testing.T) {
	p := newShop(t)
	evil, honest := p.join(crewID, store.Member, "phone-x"), p.join(crewID, store.Member, "phone-a")
	for name, c := range hostile(p.other) {
		out := evil.send("POST", "/api/journal/sync", c.body)
		var e problem.Envelope
		if err := json.Unmarshal(out.Body.Bytes(), &e); (err != nil || e.Error == nil) && c.want != "" {
			t.Errorf("%s: status %d %.200s", name, out.Code, out.Body)
			continue
		}
		if c.want != "" && (e.Error.Kind != c.want || e.Error.Hint == "") || out.Code >= 500 {
			t.Errorf("%s: status %d, %+v, want %s with a hint", name, out.Code, e.Error, c.want)
		}
		for _, crew := range []string{crewID, p.other} {
			if state, _ := p.server.store.State(crew); state.Max != 0 {
				t.Fatalf("%s: %d events were stored", name, state.Max)
			}
		}
	}
	if out := honest.send("POST", "/api/journal/sync", request(exchange.Mark{}, note(1))); out.Code != 200 {
		t.Errorf("after all that an honest phone gets %d %s", out.Code, out.Body)
	}
}

// TestHostileEventsAreKept: what is odd but well formed is stored and handed on
// byte for byte, under a stamp that is not to come, and once.
func TestHostileEventsAreKept(t *testing.T) {
	p := newShop(t)
	evil, honest := p.join(crewID, store.Member, "phone-x"), p.join(crewID, store.Member, "phone-a")
	var odd []string
	for i, change := range [][2]string{
		{`"text":1`, `"text":"\u0000\ud83d\udead\u202e"`}, {`"text":1`, `"n":1e999999`}, {`"text":1`, `"n":` + strings.Repeat("9", 4000)},
		{`"v":1`, `"v":1,"__proto__":{"x":1},"constructor":[]`}, {`"kind":"note.added"`, `"kind":"drop.table"`}, {`"kind":"note.added"`, `"kind":"__proto__"`},
		{`"device":"phone-a"`, `"device":"phone-of-another"`}, {`"body":{"text":1}`, `"body":{"":"","a":{"a":{"a":{"a":{"a":{}}}}}}`},
		{`"v":1`, `"v":2147483648`}, {`"text":1`, `"text":"</script><img src=x onerror=alert(1)>"`},
	} {
		plain := strings.Replace(note(i), `"text":`+fmt.Sprint(i), `"text":1`, 1)
		raw := strings.Replace(plain, change[0], change[1], 1)
		if raw == plain {
			t.Fatalf("nothing was changed: %v", change)
		}
		odd = append(odd, raw)
	}
	far := `{"o":"ffffffffffffffff","raw":` + note(90) + `}`
	odd = append(odd, note(90))
	body := request(exchange.Mark{}, append(append([]string{}, odd[:len(odd)-1]...), far, odd[0])...) // and one twice
	for range 3 {
		if out := evil.send("POST", "/api/journal/sync", body); out.Code != 200 {
			t.Fatalf("status %d: %s", out.Code, out.Body)
		}
	}
	other := strings.Replace(odd[4], "drop.table", "note.added", 1) // the same id with other bytes
	if out := evil.send("POST", "/api/journal/sync", request(exchange.Mark{}, other)).Body.String(); !strings.Contains(out, `"taken":true`) {
		t.Errorf("other bytes under an id: %s", out)
	}
	reply := honest.send("POST", "/api/journal/sync", request(exchange.Mark{})).Body.String()
	for _, raw := range odd {
		if n := strings.Count(reply, `"raw":`+raw+"}\n"); n != 1 {
			t.Errorf("it comes back %d times: %s", n, raw)
		}
	}
	state, _ := p.server.store.State(crewID)
	if state.Max != int64(len(odd)) || state.Highest > event.LastStampOf(start) {
		t.Errorf("%d events up to %v, want %d up to %v", state.Max, state.Highest, len(odd), event.LastStampOf(start))
	}
	if state, _ := p.server.store.State(p.other); state.Max != 0 {
		t.Errorf("the other crew got %d events", state.Max)
	}
	c := exchange.Apply(exchange.Exchange{Status: 200, Reply: reply, Meta: exchange.Meta{Crew: crewID}})
	if len(c.Put) != len(odd) || c.Meta.Cursor != int64(len(odd)) {
		t.Errorf("an honest phone takes %d of them in, cursor %d", len(c.Put), c.Meta.Cursor)
	}
}

// TestHostileBodyIsNotUnpacked: a request may claim to be packed; nothing here
// unpacks, so 64 MiB of zeros in 64 KiB stay 64 KiB.
func TestHostileBodyIsNotUnpacked(t *testing.T) {
	p := newShop(t)
	evil := p.join(crewID, store.Member, "phone-x")
	var bomb bytes.Buffer
	z := gzip.NewWriter(&bomb)
	for range 64 {
		z.Write(make([]byte, 1<<20))
	}
	z.Close()
	for _, path := range []string{"/api/journal/sync", "/api/calc/air-tank", "/api/enrol"} {
		out := evil.send("POST", path, bomb.String(), func(r *http.Request) { r.Header.Set("Content-Encoding", "gzip") })
		if out.Code < 400 || out.Code >= 500 {
			t.Errorf("%s: status %d %.200s", path, out.Code, out.Body)
		}
	}
}

// TestHostilePictureNames: no name leads out of the folder.
func TestHostilePictureNames(t *testing.T) {
	p := newShop(t)
	evil := p.join(crewID, store.Member, "phone-x")
	sum := strings.Repeat("a", 64)
	for _, name := range []string{"../../journal.db", "..%2f..%2fjournal.db", "%2e%2e/" + sum, sum + "%00.png", sum[:62] + "..", strings.ToUpper(sum),
		sum + "a", sum[:63], "%00" + sum[:63], `..\..\journal.db`, p.other + "%2f" + sum, "", strings.Repeat("a", 1<<15)} {
		for _, method := range []string{"GET", "HEAD", "PUT"} {
			out := evil.send(method, "/api/photos/"+name, "not a picture")
			if out.Code < 300 || out.Code >= 500 {
				t.Errorf("%s %.80s: status %d", method, name, out.Code)
			}
		}
	}
	filepath.WalkDir(filepath.Dir(filepath.Dir(p.path)), func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.HasPrefix(filepath.Base(path), "journal.db") {
			t.Errorf("a file was made: %s", path)
		}
		return nil
	})
}

// TestSlowSenders: half-sent requests hold nobody up, and nothing of them is
// stored when their senders hang up.
func TestSlowSenders(t *testing.T) {
	s := syncServer(t)
	web := httptest.NewServer(s.as(phoneA, s.syncJournal))
	defer web.Close()
	body := request(exchange.Mark{}, note(1), note(2))
	var lines []net.Conn
	for i := range 40 {
		c, err := net.Dial("tcp", web.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close() // or closing the server would wait for it if the test breaks off
		fmt.Fprintf(c, "POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: %d\r\n\r\n%s", len(body), body[:len(body)*i/40])
		lines = append(lines, c)
	}
	reply, err := http.Post(web.URL, "", strings.NewReader(request(exchange.Mark{}, note(7))))
	if err != nil || reply.StatusCode != 200 {
		t.Fatalf("an honest phone meanwhile: %v, %v", reply, err)
	}
	reply.Body.Close()
	for _, c := range lines {
		c.Close()
	}
	web.Close() // waits for all handlers
	if state, _ := s.store.State(crewID); state.Max != 1 {
		t.Errorf("%d events are stored, want the honest one", state.Max)
	}
}

// TestHostileCrowd: hostile and honest phones at once, in many goroutines. Each
// honest entry is there once, the numbers have no gap and the chain holds.
func TestHostileCrowd(t *testing.T) {
	s := syncServer(t)
	rounds := 30
	if long() {
		rounds = 300
	}
	var bad []string
	for _, c := range hostile("someone-else") {
		bad = append(bad, c.body)
	}
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			chance := rand.New(rand.NewPCG(firstSeed(), uint64(i)))
			for j := range rounds {
				if i%2 == 0 {
					post(s, strings.NewReader(bad[chance.IntN(len(bad))]))
					continue
				}
				body := request(exchange.Mark{}, note(i*10_000+2*j), note(i*10_000+2*j+1), note(j))
				for range 1 + chance.IntN(2) {
					if out := post(s, strings.NewReader(body)); out.Code != 200 {
						t.Errorf("status %d: %s", out.Code, out.Body)
					}
				}
			}
		})
	}
	all.Wait()
	h := &host{crew: crewID, given: map[string]string{}}
	rows, err := s.store.After(t.Context(), crewID, 0, 1<<20, 1<<30)
	if err == nil {
		err = h.follow(rows)
	}
	if want := 4*2*rounds + rounds; err != nil || len(rows) != want {
		t.Errorf("%d events, want %d; %v", len(rows), want, err)
	}
}
