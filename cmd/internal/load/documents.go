package load

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"

	"kerfside/calc/journal/exchange"
)

// Documents is a general-purpose document-sync server under load: a document
// for each event, brought with _bulk_docs and taken in with _changes.
type Documents struct {
	line line
	name string // of the database
}

// NewDocuments returns the server at url with a fresh database of that name.
func NewDocuments(ctx context.Context, url, name string) (*Documents, error) {
	d := &Documents{line: newLine(url), name: "/" + name}
	r, err := http.NewRequestWithContext(ctx, "PUT", url+d.name, nil)
	if err != nil {
		return nil, err
	}
	_, err = d.line.do(r)
	return d, err
}

// Device returns a client that has nothing yet.
func (d *Documents) Device(_ int, follows bool) Device { return &replica{d: d, follows: follows} }

// replica is one device.
type replica struct {
	d       *Documents
	follows bool
	since   int64
}

// Exchange brings documents and, if the device follows, takes in a page.
func (r *replica) Exchange(ctx context.Context, events [][]byte) (int, error) {
	if len(events) > 0 {
		if err := r.d.bring(ctx, events); err != nil {
			return 0, err
		}
	}
	if !r.follows {
		return 0, nil
	}
	was := r.since
	came, err := r.takePage(ctx)
	if err == nil && len(events) == 0 && r.since == was {
		r.since = 0 // it has all there is: begin again
	}
	return came, err
}

// bring posts documents, each the event with its id under the key that such
// a server asks for; it may not begin with an underscore there.
func (d *Documents) bring(ctx context.Context, events [][]byte) error {
	body := []byte(`{"docs":[`)
	for i, raw := range events {
		if i > 0 {
			body = append(body, ',')
		}
		body = append(append(body, `{"_id":"e`...), raw[len(idKey):]...)
	}
	text, err := d.line.post(ctx, d.name+"/_bulk_docs", "application/json", append(body, "]}"...), nil)
	if err != nil {
		return err
	}
	if got := bytes.Count(text, []byte(`"ok":true`)); got != len(events) {
		return fmt.Errorf("%d of %d documents were taken: %.300s", got, len(events), text)
	}
	return nil
}

// takePage asks for what changed since the last page.
func (r *replica) takePage(ctx context.Context) (int, error) {
	request, err := http.NewRequestWithContext(ctx, "GET",
		fmt.Sprintf("%s%s/_changes?include_docs=true&limit=%d&since=%d", r.d.line.url, r.d.name, exchange.MaxPage, r.since), nil)
	if err != nil {
		return 0, err
	}
	text, err := r.d.line.do(request)
	if err != nil {
		return 0, err
	}
	const last = `"last_seq":`
	at := bytes.LastIndex(text, []byte(last))
	if at < 0 {
		return 0, fmt.Errorf("a page without its end: %.300s", text)
	}
	number, _, _ := bytes.Cut(text[at+len(last):], []byte("}"))
	if r.since, err = strconv.ParseInt(string(bytes.TrimSpace(number)), 10, 64); err != nil {
		return 0, err
	}
	return bytes.Count(text, []byte(`"changes":[`)), nil
}

// Held returns how many documents there are.
func (d *Documents) Held(ctx context.Context) (int64, error) {
	r, err := http.NewRequestWithContext(ctx, "GET", d.line.url+d.name, nil)
	if err != nil {
		return 0, err
	}
	text, err := d.line.do(r)
	if err != nil {
		return 0, err
	}
	var info struct {
		Count int64 `json:"doc_count"`
	}
	return info.Count, json.Unmarshal(text, &info)
}
