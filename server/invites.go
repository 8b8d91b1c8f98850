package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/server/qr"
	"kerfside/server/store"
)

// JoinPath is the screen that takes an invitation; the secret follows as the
// fragment, which browsers do not send.
const JoinPath = "/join"

// invite makes an invitation to the crew.
func (s *Server) invite(w http.ResponseWriter, r *http.Request, who store.Device) error {
	var asked struct{ Role string }
	if err := readJSON(w, r, &asked); err != nil {
		return err
	}
	role, err := store.ReadRole(asked.Role)
	if err != nil {
		return err
	}
	if err := s.limits.invites.take(who.Crew + " " + who.ID); err != nil {
		return err
	}
	v, err := s.store.Invite(who.Crew, role, who.ID, s.now().UnixMilli())
	if err != nil {
		return err
	}
	s.log.Info("an invitation was made", "crew", who.Crew, "by", who.ID, "invite", v.ID, "role", v.Role)
	link := origin(r) + JoinPath + "#" + v.Secret
	code, err := qr.Encode(link)
	if err != nil {
		return err
	}
	type picture struct {
		Size int      `json:"size"`
		Rows []string `json:"rows"`
	}
	writeJSON(w, http.StatusCreated, struct {
		ID      string     `json:"id"`
		Link    string     `json:"link"`
		Code    string     `json:"code"`
		Expires int64      `json:"expires"`
		Role    store.Role `json:"role"`
		QR      picture    `json:"qr"`
	}{ID: v.ID, Link: link, Code: store.ShowCode(v.Code), Expires: v.Expires, Role: v.Role, QR: picture{code.Size, code.Rows()}})
	return nil
}

// withdrawInvite takes an invitation back.
func (s *Server) withdrawInvite(w http.ResponseWriter, r *http.Request, who store.Device) error {
	if err := s.store.Withdraw(who.Crew, mux.Vars(r)["id"], who.ID, s.now().UnixMilli()); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
