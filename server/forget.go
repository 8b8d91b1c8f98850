package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/server/store"
)

// forgetAtOnce is how many entries a request takes out: some hundred milliseconds'
// work, so that whoever waits sees how far it is.
const forgetAtOnce = 1000

// countWritten tells an owner what would go with a phone that is forgotten.
func (s *Server) countWritten(w http.ResponseWriter, r *http.Request, who store.Device) error {
	found, err := s.store.WrittenBy(r.Context(), who.Crew, mux.Vars(r)["id"])
	if err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, struct {
		Entries  int `json:"entries"`
		Pictures int `json:"pictures"`
	}{found.Entries, found.Pictures})
	return nil
}

// forgetDevice takes out a part of what a phone wrote, and with the last of it the
// phone. Who asks goes on until nothing is left; each phone drops the entries at its
// next syncs.
func (s *Server) forgetDevice(w http.ResponseWriter, r *http.Request, who store.Device) error {
	id := mux.Vars(r)["id"]
	done, left, err := s.store.Forget(r.Context(), who.Crew, id, who.ID, s.now().UnixMilli(), forgetAtOnce)
	if err != nil {
		return err
	}
	if left == 0 {
		s.log.Info("a phone was forgotten", "crew", who.Crew, "by", who.ID) // which one is forgotten here too
	}
	writeJSON(w, http.StatusOK, struct {
		Entries int `json:"entries"` // taken out now
		Left    int `json:"left"`
	}{done, left})
	return nil
}
