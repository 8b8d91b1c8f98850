package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/server/store"
)

// eraseEntry takes an entry out for good, with its amendments and its picture.
// Each phone drops it at its next sync; backups made before still hold it.
func (s *Server) eraseEntry(w http.ResponseWriter, r *http.Request, who store.Device) error {
	id := mux.Vars(r)["id"]
	done, err := s.store.Erase(r.Context(), who.Crew, id, who.ID, "", s.now().UnixMilli())
	if err != nil {
		return err
	}
	s.log.Info("an entry was erased", "crew", who.Crew, "entry", id, "by", who.ID)
	writeJSON(w, http.StatusOK, struct {
		Entries int  `json:"entries"` // with the amendments
		Picture bool `json:"picture"` // whether one went with them
	}{done.Entries, done.Picture != ""})
	return nil
}
