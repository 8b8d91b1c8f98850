package main

import (
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"
)

// TestSlowSenderIsCutOff: whoever sends half a request and then nothing is hung
// up on, whether it stopped in the headers or in the body. Each half meets a
// server whose one short limit is that of its part, so that no pause of this
// machine can end it earlier.
func TestSlowSenderIsCutOff(t *testing.T) {
	log := slog.New(slog.DiscardHandler)
	c := serverWith(nil, log)
	for what, wait := range map[string]time.Duration{"headers": c.ReadHeaderTimeout, "request": c.ReadTimeout, "reply": c.WriteTimeout, "idle": c.IdleTimeout} {
		if wait <= 0 || wait > 5*time.Minute {
			t.Errorf("%s may take %v", what, wait)
		}
	}
	const short = 50 * time.Millisecond // or the test would take a minute
	for part, half := range map[string]struct {
		limit   func(*http.Server)
		text    string
		handled int // how often the handler is asked; it must read an error
	}{
		"headers": {limit: func(s *http.Server) { s.ReadHeaderTimeout = short }, text: "POST /api/journal/sync HTTP/1.1\r\nHost: local", handled: 0},
		"body":    {limit: func(s *http.Server) { s.ReadTimeout = short }, text: "POST /api/journal/sync HTTP/1.1\r\nHost: localhost\r\nContent-Length: 900\r\n\r\n{\"proto\":1", handled: 1},
	} {
		t.Run(part, func(t *testing.T) {
			var read []error
			web := httptest.NewUnstartedServer(nil)
			web.Config = serverWith(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				_, err := io.ReadAll(r.Body)
				read = append(read, err)
			}), log)
			half.limit(web.Config)
			web.Start()
			defer web.Close()
			line, err := net.Dial("tcp", web.Listener.Addr().String())
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprint(line, half.text)
			io.Copy(io.Discard, line) // returns once the server hangs up, in whatever way
			line.Close()
			web.Close() // waits for the handler
			if len(read) != half.handled || half.handled == 1 && read[0] == nil {
				t.Errorf("the handler was asked %d times, want %d, and read %v", len(read), half.handled, read)
			}
		})
	}
}
