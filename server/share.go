package server

import (
	"io"
	"net/http"
)

// sharePath is where phones have other apps post a picture to this one. The service
// worker takes it: a picture goes to the journal of the phone and nowhere else.
const sharePath = "/share"

// maxShared is how much of a picture is read that no service worker took, so that the
// browser gets to its end and then the answer.
const maxShared = 64 << 20

// notShared answers a picture that no service worker took. Nothing of it is kept: the
// screen says so, and that the app is on the phone from now on.
func (s *Server) notShared(w http.ResponseWriter, r *http.Request) error {
	io.Copy(io.Discard, http.MaxBytesReader(w, r.Body, maxShared)) // what breaks off is no trouble of ours
	http.Redirect(w, r, sharePath, http.StatusSeeOther)
	return nil
}
