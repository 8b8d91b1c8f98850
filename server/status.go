package server

import (
	"net/http"

	"kerfside/calc/journal"
)

// status tells a phone that the server is there, what it speaks and its time.
func (s *Server) status(w http.ResponseWriter, r *http.Request) error {
	writeJSON(w, http.StatusOK, struct {
		Now     int64  `json:"now"` // ms since 1970 UTC
		Proto   int    `json:"proto"`
		Version string `json:"version"`
	}{s.now().UnixMilli(), journal.Proto, s.version})
	return nil
}
