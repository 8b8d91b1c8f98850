package server

import (
	"context"
	"io"
	"net/http"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/metrics"
)

// tryTime is how long whoever watches the server waits for the database.
const tryTime = 5 * time.Second

// Watch answers those who watch the server, at an address of its own: /metrics
// tells set in the text format of Prometheus, /healthz is 200 while the store can
// write and 503 with the reason while it cannot. Nothing of a crew is told. Where
// only this machine is meant to ask, local refuses the names of others, so that no
// web page can point its own name here.
func (s *Server) Watch(set *metrics.Set, local bool) http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /metrics", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", metrics.Type)
		w.Header().Set("Cache-Control", "no-store")
		w.Write(set.Text()) // an error here means that nobody listens any more
	})
	m.HandleFunc("GET /healthz", func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), tryTime)
		defer cancel()
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		w.Header().Set("Cache-Control", "no-store")
		if err := s.store.TryWrite(ctx); err != nil {
			w.WriteHeader(http.StatusServiceUnavailable)
			io.WriteString(w, problem.From(err).Msg+"\n")
			return
		}
		io.WriteString(w, "ok\n")
	})
	if !local {
		return m
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !loopback()[hostName(r.Host)] {
			http.Error(w, "Ask by the name localhost.", http.StatusForbidden)
			return
		}
		m.ServeHTTP(w, r)
	})
}
