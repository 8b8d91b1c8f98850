package server

import (
	"bytes"
	"encoding/json"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// maxAccessBody is more than any request about devices holds, with a name that is
// far too long, so that it is the name that is told.
const maxAccessBody = 64 << 10

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

// enrol lets a phone join the crew of its invitation. Typed codes are short, so
// guessing them is slowed by address and for all together; the secret of a link
// cannot be guessed, and looking for it is cheap, so that it opens the crew also
// while somebody guesses.
func (s *Server) enrol(w http.ResponseWriter, r *http.Request) error {
	if err := checkHeader(r); err != nil {
		return err
	}
	d, token, err := s.tryToJoin(w, r)
	s.joins.note(s.now(), s.log, err)
	if err != nil {
		return err
	}
	s.log.Info("a phone joined", "crew", d.Crew, "device", d.ID, "role", d.Role)
	setToken(w, r, token)
	setRouting(w, r, d.Crew)
	writeJSON(w, http.StatusCreated, struct {
		Crew   string     `json:"crew"`
		Device string     `json:"device"`
		Role   store.Role `json:"role"`
		Name   string     `json:"name"`
	}{Crew: d.Crew, Device: d.ID, Role: d.Role, Name: d.Name})
	return nil
}

// tryToJoin reads a request to join and looks for its invitation.
func (s *Server) tryToJoin(w http.ResponseWriter, r *http.Request) (store.Device, string, error) {
	none := store.Device{}
	var asked struct{ Secret, Code, Name, Device, Retry string }
	if err := readJSON(w, r, &asked); err != nil {
		return none, "", err
	}
	e := store.Enrolment{Secret: asked.Secret, Name: asked.Name, Device: asked.Device, Token: tokenOf(r), Retry: asked.Retry, Now: s.now().UnixMilli()}
	switch {
	case (asked.Secret == "") == (asked.Code == ""):
		return none, "", problem.New(problem.Missing, "code", "there is no code, or one too many", "Open the link of an invitation, or type its code.")
	case asked.Code != "":
		if err := s.limits.enrol.take(address(r)); err != nil {
			return none, "", err
		}
		var err error
		if e.Code, err = store.ReadCode(asked.Code); err != nil {
			return none, "", err
		}
		if err := s.limits.codes.take(""); err != nil {
			return none, "", err
		}
	}
	return s.store.Enrol(e)
}

// joins counts tries to join that failed, so that the log tells of somebody who
// guesses: at once, and then how many there were, at most once a minute.
type joins struct {
	mu             sync.Mutex
	refused, slows int       // since the last line
	told           time.Time // when that was
}

// tellEvery is how often the log tells of failed tries.
const tellEvery = time.Minute

// note counts a try that ended with err. No code and no name is written.
func (j *joins) note(now time.Time, log *slog.Logger, err error) {
	if err == nil {
		return
	}
	j.mu.Lock()
	if problem.KindOf(err) == problem.SlowDown {
		j.slows++
	} else {
		j.refused++
	}
	j.mu.Unlock()
	j.tell(now, log)
}

// tell writes the count if there is one and it is time.
func (j *joins) tell(now time.Time, log *slog.Logger) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.refused+j.slows == 0 || now.Sub(j.told) < tellEvery {
		return
	}
	log.Warn("tries to join failed", "refused", j.refused, "too fast", j.slows)
	j.refused, j.slows, j.told = 0, 0, now
}
