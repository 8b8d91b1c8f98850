package load

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// Kerfside is a Kerfside server under load.
type Kerfside struct {
	line    line
	cookies []*http.Cookie // of the devices

	mu     sync.Mutex
	next   int           // the cookie that the next device gets
	newest exchange.Mark // of all that any device was told
}

// NewKerfside returns the server at url. Each device shows the next of the cookies:
// what one phone may have stored in a day is bounded.
func NewKerfside(url string, cookies []*http.Cookie) *Kerfside {
	return &Kerfside{line: newLine(url), cookies: cookies}
}

// By has all devices go by that client, and show a cookie more that a proxy asks for.
func (k *Kerfside) By(client *http.Client, more *http.Cookie) *Kerfside {
	k.line.client, k.line.more = client, more
	return k
}

// Device returns a phone with an empty journal.
func (k *Kerfside) Device(_ int, follows bool) Device {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.next++
	return &phone{k: k, follows: follows, cookie: k.cookies[k.next%len(k.cookies)]}
}

// phone is one device.
type phone struct {
	k       *Kerfside
	cookie  *http.Cookie
	follows bool
	at      exchange.Mark
}

// Exchange is one sync.
func (p *phone) Exchange(ctx context.Context, events [][]byte) (int, error) {
	if !p.follows {
		p.at = p.k.seen(p.at)
	}
	text, err := p.sync(ctx, events)
	if err != nil {
		return 0, err
	}
	was := p.at.N
	if err := lastMark(text, &p.at); err != nil {
		return 0, err
	}
	p.k.seen(p.at)
	if p.follows && p.at.N == was && len(events) == 0 {
		p.at = exchange.Mark{} // it has all there is: begin again
	}
	return int(max(p.at.N-was, 0)), nil
}

// sync posts events and returns the lines of the reply.
func (p *phone) sync(ctx context.Context, events [][]byte) ([]byte, error) {
	head, err := json.Marshal(exchange.RequestHead{Proto: exchange.Proto, Now: time.Now().UnixMilli(), At: p.at, Count: len(events)})
	if err != nil {
		return nil, err
	}
	body := append(head, '\n')
	for _, raw := range events {
		body = append(append(body, raw...), '\n')
	}
	return p.k.line.post(ctx, "/api/journal/sync", "application/x-ndjson", body, p.cookie)
}

// seen notes a mark and returns the newest.
func (k *Kerfside) seen(m exchange.Mark) exchange.Mark {
	k.mu.Lock()
	defer k.mu.Unlock()
	if m.N > k.newest.N {
		k.newest = m
	}
	return k.newest
}

// CatchUp moves the newest mark that any device was told to the journal's end. A load
// in which more arrives than a reply holds leaves it behind, and devices that do not
// follow would be handed full pages for ever after.
func (k *Kerfside) CatchUp(ctx context.Context) error {
	p := k.Device(0, true).(*phone)
	p.at = k.seen(exchange.Mark{})
	for page := 1; ; page++ {
		if _, err := p.Exchange(ctx, nil); err != nil {
			return err
		}
		if p.at.N == 0 {
			return nil // it had all there is
		}
		p.cookie = k.cookies[page%len(k.cookies)] // one alone would be told to slow down
	}
}

// lastMark reads the mark that ends a reply into m, which stays as it is if no
// arrivals came.
func lastMark(text []byte, m *exchange.Mark) error {
	if len(text) == 0 || text[len(text)-1] != '\n' {
		return fmt.Errorf("the reply was cut: %.200q", text)
	}
	text = text[:len(text)-1]
	last := text[bytes.LastIndexByte(text, '\n')+1:]
	if !bytes.HasPrefix(last, []byte(`{"n":`)) || !bytes.Contains(last, []byte(`,"h":"`)) {
		return nil
	}
	return json.Unmarshal(last, m)
}

// Held reads the whole journal from its beginning, checks that its numbers have
// no gap and that its chain is right, and counts it.
func (k *Kerfside) Held(ctx context.Context) (Tally, error) {
	var (
		tally Tally
		p     = k.Device(0, true).(*phone)
	)
	for page := 1; ; page++ {
		text, err := p.sync(ctx, nil)
		if err != nil {
			return tally, err
		}
		was := p.at
		if err := tally.takePage(text, &p.at); err != nil {
			return tally, fmt.Errorf("after %d: %w", was.N, err)
		}
		if p.at == was {
			return tally, nil
		}
		p.cookie = k.cookies[page%len(k.cookies)] // one alone would be told to slow down
	}
}

// takePage counts a page and moves at to its end.
func (t *Tally) takePage(text []byte, at *exchange.Mark) error {
	for i, line := range bytes.Split(bytes.TrimSuffix(text, []byte("\n")), []byte("\n")) {
		if i == 0 {
			continue // the head
		}
		var l struct {
			N   int64           `json:"n"`
			O   event.Stamp     `json:"o"`
			H   *event.Chain    `json:"h"`
			Raw json.RawMessage `json:"raw"`
		}
		if err := json.Unmarshal(line, &l); err != nil {
			return err
		}
		if l.H != nil {
			if l.N != at.N || *l.H != at.H {
				return fmt.Errorf("the mark at %d does not fit the arrivals before it", l.N)
			}
			continue
		}
		if l.N != at.N+1 {
			return fmt.Errorf("arrival %d follows %d", l.N, at.N)
		}
		sum := event.SumOf(l.Raw)
		*at = exchange.Mark{N: l.N, H: at.H.Next(idOf(l.Raw), l.O, sum)}
		t.add(sum)
	}
	return nil
}
