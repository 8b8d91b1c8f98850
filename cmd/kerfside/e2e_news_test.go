package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"kerfside/calc/journal/exchange"
)

// onlyNews answers a phone's sync only if it brings something, or if the phone was
// told of news since it last began to wait for some: no timer and no other trigger
// can let it take anything in.
type onlyNews struct {
	next http.Handler

	asked chan string // each phone when it waits for the first time

	mu    sync.Mutex
	waits map[string]bool // by cookie
}

func (o *onlyNews) set(phone string, waits bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if _, before := o.waits[phone]; !before {
		o.asked <- phone
	}
	o.waits[phone] = waits
}

func (o *onlyNews) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	phone := r.Header.Get("Cookie")
	switch r.URL.Path {
	case "/api/journal/news":
		o.set(phone, true)
		o.next.ServeHTTP(&listening{w, func(status int) { o.set(phone, status != http.StatusOK) }}, r)
		return
	case "/api/journal/sync":
		body, err := io.ReadAll(r.Body)
		var head exchange.RequestHead
		first, _, _ := bytes.Cut(body, []byte("\n"))
		if err != nil || json.Unmarshal(first, &head) != nil {
			return
		}
		o.mu.Lock()
		waits := o.waits[phone]
		o.mu.Unlock()
		if waits && head.Count == 0 {
			http.Error(w, "not without news", http.StatusServiceUnavailable)
			return
		}
		r.Body = io.NopCloser(bytes.NewReader(body))
	}
	o.next.ServeHTTP(w, r)
}

// listening hears the status before the phone does.
type listening struct {
	http.ResponseWriter
	hear func(status int)
}

func (l *listening) WriteHeader(status int) {
	l.hear(status)
	l.ResponseWriter.WriteHeader(status)
}

func (l *listening) Unwrap() http.ResponseWriter { return l.ResponseWriter }

// TestBrowserHearsOfOthers: what one phone enters shows on another that nobody
// touches, to and fro.
func TestBrowserHearsOfOthers(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), 4*time.Minute)
	defer cancel()
	dir, app := serving(t)
	front := &onlyNews{next: app.http.Handler, asked: make(chan string, 10), waits: map[string]bool{}}
	app.http.Handler = front
	phones := []*device{{profile: filepath.Join(dir, "phone-A")}, {profile: filepath.Join(dir, "phone-B")}}
	for _, d := range phones {
		d.start(ctx, t, app)
		select { // until then its sync is free
		case <-front.asked:
		case <-ctx.Done():
			t.Fatal("the phone never waits for news")
		}
	}
	for i, word := range []string{"one", "two", "three", "four"} {
		taps, sees := phones[i%2], phones[(i+1)%2]
		taps.ask(ctx, t, `kerfside.journal.tap({ kind: "rig.set", about: "`+word+`", body: { name: "rig `+word+`" } }).then(({ written }) => written)`, new(bool))
		sees.wait(ctx, t, `kerfside.journal.read(["rigs"]).then(({ views }) => views.rigs?.rigs.some(({ id }) => id === "`+word+`"))`)
	}
	for _, d := range phones {
		if faults := d.page.Faults(); len(faults) > 0 {
			t.Errorf("the page complained: %v", faults)
		}
	}
}
