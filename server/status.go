package server

import (
	"net/http"

	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

// status tells a phone that the server is there, what it speaks, its time,
// whether it takes anything new, and whether the phone has joined a crew.
func (s *Server) status(w http.ResponseWriter, r *http.Request) error {
	if s.demo {
		if err := s.letVisitorIn(w, r); err != nil {
			return err
		}
	}
	who, err := s.who(r)
	if err != nil {
		who = store.Device{} // not joined, or not any more
	} else {
		keepRouting(w, r, who.Crew)
	}
	why := s.store.Refuses()
	writeJSON(w, http.StatusOK, struct {
		Now      int64      `json:"now"` // ms since 1970 UTC
		Proto    int        `json:"proto"`
		Version  string     `json:"version"`
		Writing  bool       `json:"writing"`
		Why      string     `json:"why,omitempty"` // it writes nothing: disk or damaged
		Enrolled bool       `json:"enrolled"`
		Role     store.Role `json:"role"`
		Crew     string     `json:"crew"`
	}{Now: s.now().UnixMilli(), Proto: exchange.Proto, Version: s.version, Writing: why == "", Why: why, Enrolled: err == nil, Role: who.Role, Crew: who.Crew})
	return nil
}
