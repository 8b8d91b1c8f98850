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
// up on, whether it stopped in the headers or in the body.
func TestSlowSenderIsCutOff(t *testing.T) {
	log := slog.New(slog.DiscardHandler)
	var ended error
	web := httptest.NewUnstartedServer(nil)
	web.Config = serverWith(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, ended = io.ReadAll(r.Body)
	}), log)
	c := web.Config
	for what, wait := range map[string]time.Duration{"headers": c.ReadHeaderTimeout, "request": c.ReadTimeout, "reply": c.WriteTimeout, "idle": c.IdleTimeout} {
		if wait <= 0 || wait > 5*time.Minute {
			t.Errorf("%s may take %v", what, wait)
		}
	}
	c.ReadHeaderTimeout, c.ReadTimeout = 50*time.Millisecond, 50*time.Millisecond // or the test would take a minute
	web.Start()
	defer web.Close()
	for _, half := range []string{"POST /api/journal/sync HTTP/1.1\r\nHost: local", "POST /api/journal/sync HTTP/1.1\r\nHost: localhost\r\nContent-Length: 900\r\n\r\n{\"proto\":1"} {
		line, err := net.Dial("tcp", web.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprint(line, half)
		io.Copy(io.Discard, line) // returns once the server hangs up, in whatever way
		line.Close()
	}
	web.Close()
	if ended == nil {
		t.Error("the handler read half a body as if it were whole")
	}
}
