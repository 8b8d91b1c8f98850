package server

import (
	"context"
	"net/http"
	"strconv"
	"time"

	"github.com/gorilla/mux"

	"kerfside/server/metrics"
)

// figures is what the server counts. Those of a server that is not watched are
// nil and count nothing.
type figures struct {
	requests *metrics.Counter
	refused  *metrics.Counter
	taken    *metrics.Counter
	pictures *metrics.Counter
}

// newFigures begins to count in set; nil for nothing.
func (s *Server) newFigures(set *metrics.Set) {
	if set == nil {
		return
	}
	s.figures = figures{
		requests: set.Counter("kerfside_http_requests_total", "Requests answered, by the pattern of their address; none stands for what has no address here.", "route", "method", "code"),
		refused:  set.Counter("kerfside_refusals_total", "Requests refused, by the reason that the phone is told.", "reason"),
		taken:    set.Counter("kerfside_entries_stored_total", "Entries of phones stored."),
		pictures: set.Counter("kerfside_pictures_stored_total", "Pictures of phones stored."),
	}
	set.Gauge("kerfside_waits", "Phones that wait for news at this moment.", func() (float64, bool) { return float64(s.limits.waiting.count()), true })
	set.Gauge("kerfside_writing", "1 while entries are stored, 0 after a failed write or with a damaged database.", func() (float64, bool) {
		if s.store.Refuses() != "" {
			return 0, true
		}
		return 1, true
	})
	set.Gauge("kerfside_database_bytes", "What the database and its log take on the disk.", func() (float64, bool) {
		n, err := s.store.Bytes()
		return float64(n), err == nil
	})
	if s.photos != nil {
		set.Gauge("kerfside_pictures_bytes", "What the pictures take on the disk.", func() (float64, bool) {
			n, err := s.photos.total()
			return float64(n), err == nil
		})
	}
	phones := func(which func(all, seen int64) int64) func() (float64, bool) {
		return func() (float64, bool) {
			ctx, cancel := context.WithTimeout(context.Background(), tryTime)
			defer cancel()
			all, seen, err := s.store.CountDevices(ctx, s.now().Add(-24*time.Hour).UnixMilli())
			return float64(which(all, seen)), err == nil
		}
	}
	set.Gauge("kerfside_phones", "Phones in all crews.", phones(func(all, _ int64) int64 { return all }))
	set.Gauge("kerfside_phones_seen", "Phones that were there in the last 24 hours.", phones(func(_, seen int64) int64 { return seen }))
}

// routeKey holds where to put the pattern of a request's address.
type routeKey struct{}

// noRoute stands for what has no address here, or was refused before it was looked for.
const noRoute = "none"

// counted counts each request when it has been answered.
func (f figures) counted(next http.Handler) http.Handler {
	if f.requests == nil {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		route := noRoute
		out := &answered{ResponseWriter: w, status: http.StatusOK}
		defer func() { f.requests.Add(1, route, methodOf(r), strconv.Itoa(out.status)) }()
		next.ServeHTTP(out, r.WithContext(context.WithValue(r.Context(), routeKey{}, &route)))
	})
}

// noteRoute notes the pattern of the address that was found.
func noteRoute(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if into, ok := r.Context().Value(routeKey{}).(*string); ok {
			if pattern, err := mux.CurrentRoute(r).GetPathTemplate(); err == nil {
				*into = pattern
			}
		}
		next.ServeHTTP(w, r)
	})
}

// methodOf is the method of a request if there are any of that sort.
func methodOf(r *http.Request) string {
	switch r.Method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete:
		return r.Method
	}
	return "other"
}

// answered keeps the status of an answer.
type answered struct {
	http.ResponseWriter
	status int
	begun  bool
}

func (a *answered) WriteHeader(status int) {
	if !a.begun && status >= http.StatusOK { // others come before the answer
		a.status, a.begun = status, true
	}
	a.ResponseWriter.WriteHeader(status)
}

func (a *answered) Write(b []byte) (int, error) {
	a.begun = true
	return a.ResponseWriter.Write(b)
}

// Unwrap lets deadlines be set.
func (a *answered) Unwrap() http.ResponseWriter { return a.ResponseWriter }
