package server

import (
	"bytes"
	"encoding/json"
	"net/http"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// maxAccessBody is more than any request about devices holds.
const maxAccessBody = 4 << 10

// readJSON reads a small JSON object of known fields.
func readJSON(w http.ResponseWriter, r *http.Request, into any) error {
	body, err := readBody(w, r, maxAccessBody)
	if err != nil {
		return err
	}
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil || d.More() {
		return problem.New(problem.Malformed, "", "the request is not the JSON object that is expected here", "Load the app again.").WithCause(err)
	}
	return nil
}

// enrol lets a phone join the crew of its invitation.
func (s *Server) enrol(w http.ResponseWriter, r *http.Request) error {
	if err := checkHeader(r); err != nil {
		return err
	}
	if err := s.limits.enrol.take(address(r)); err != nil {
		return err
	}
	var asked struct{ Secret, Code, Name, Device, Retry string }
	if err := readJSON(w, r, &asked); err != nil {
		return err
	}
	e := store.Enrolment{Secret: asked.Secret, Name: asked.Name, Device: asked.Device, Token: tokenOf(r), Retry: asked.Retry, Now: s.now().UnixMilli()}
	switch {
	case (asked.Secret == "") == (asked.Code == ""):
		return problem.New(problem.Missing, "code", "there is no code, or one too many", "Open the link of an invitation, or type its code.")
	case asked.Code != "":
		var err error
		if e.Code, err = store.ReadCode(asked.Code); err != nil {
			return err
		}
		if err := s.limits.codes.take(""); err != nil {
			return err
		}
	}
	d, token, err := s.store.Enrol(e)
	if err != nil {
		return err
	}
	s.log.Info("a phone joined", "crew", d.Crew, "device", d.ID, "role", d.Role)
	setToken(w, r, token)
	writeJSON(w, http.StatusCreated, struct {
		Crew   string     `json:"crew"`
		Device string     `json:"device"`
		Role   store.Role `json:"role"`
		Name   string     `json:"name"`
	}{d.Crew, d.ID, d.Role, d.Name})
	return nil
}
