package server

import (
	"context"
	"net/http"
	"strconv"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// holdFor is how long a phone waits for news before it is told that there are
// none: shorter than the minute after which proxies take a server for dead.
const holdFor = 55 * time.Second

// news is the answer to a phone that waited: a sync is worth while.
type news struct {
	Max int64 `json:"max"`
}

// journalNews answers as soon as the crew's newest arrival is not the one that the
// phone names, and with 204 if that does not come to pass for a while. It waits
// beside the database: what it takes meanwhile is a goroutine. A phone that is
// revoked meanwhile is told so, by another process at the latest with the next
// arrival, of which it then hears nothing.
func (s *Server) journalNews(w http.ResponseWriter, r *http.Request, who store.Device) error {
	after, err := strconv.ParseInt(r.URL.Query().Get("after"), 10, 64)
	if err != nil || after < 0 {
		return problem.New(problem.Malformed, "after", "the number of an arrival cannot be read", "Update the app.")
	}
	out := http.NewResponseController(w) // where deadlines cannot be set there are none
	out.SetReadDeadline(time.Now().Add(s.holdFor + 30*time.Second))
	out.SetWriteDeadline(time.Now().Add(s.holdFor + 30*time.Second))
	over := time.NewTimer(s.holdFor)
	defer over.Stop()
	for {
		bell := s.store.News(who.Crew)
		if state, _ := s.store.State(who.Crew); state.Max != after {
			writeJSON(w, http.StatusOK, news{state.Max})
			return nil
		}
		select {
		case <-bell:
			if _, err := s.who(r); err != nil {
				return err
			}
			continue
		case <-over.C:
		case <-s.ending:
		case <-r.Context().Done():
			if context.Cause(r.Context()) == errCrowded {
				return crowded()
			}
			return nil // nobody listens any more
		}
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
}

// EndWaits lets all who wait for news go, now and from now on, so that a server
// that is to stop need not wait for them.
func (s *Server) EndWaits() { s.ended.Do(func() { close(s.ending) }) }
