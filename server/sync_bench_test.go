package server

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

// BenchmarkSync lets 20 phones push batches of 50 over loopback to a store on
// disk, each commit FULL. "push" asks for nothing back; "both" also pulls what
// the other 19 brought, so that every event goes over the wire 20 times.
func BenchmarkSync(b *testing.B) {
	for _, pull := range []bool{false, true} {
		b.Run(map[bool]string{false: "push", true: "both"}[pull], func(b *testing.B) { benchSync(b, pull) })
	}
}

func benchSync(b *testing.B, pull bool) {
	db, err := store.Open(filepath.Join(b.TempDir(), "journal.db"), store.Options{Crew: crewID})
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	s := &Server{store: db, now: func() time.Time { return time.UnixMilli(start) }, log: slog.New(slog.NewTextHandler(io.Discard, nil))}
	web := httptest.NewServer(s.as(phoneA, s.syncJournal))
	defer web.Close()
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 20}}
	work := make(chan int)
	var all sync.WaitGroup
	b.ResetTimer()
	for phone := range 20 {
		all.Go(func() {
			var at exchange.Mark
			for i := range work {
				var events []string
				for j := range 50 {
					events = append(events, line(fmt.Sprintf("p%02d-%010d-%07d", phone, i, j), event.StampOf(start-1000), start, "phone", "note.added", "", map[string]any{"text": "tip changed, rust under the paint"}))
				}
				if !pull {
					state, _ := db.State(crewID)
					at = exchange.Mark{N: state.Max, H: state.Head}
				}
				reply, err := client.Post(web.URL, "application/x-ndjson", strings.NewReader(request(at, events...)))
				if err != nil {
					b.Error(err)
					return
				}
				text, err := io.ReadAll(reply.Body)
				reply.Body.Close()
				lines := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
				if err != nil || reply.StatusCode != 200 || json.Unmarshal(lines[len(lines)-1], &at) != nil {
					b.Errorf("status %d, %v: %.200s", reply.StatusCode, err, text)
					return
				}
			}
		})
	}
	for i := range b.N {
		work <- i
	}
	close(work)
	all.Wait()
	b.ReportMetric(float64(b.N*50)/b.Elapsed().Seconds(), "events/s")
}
