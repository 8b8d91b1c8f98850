package server

import (
	"errors"
	"net/http"
	"strconv"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// Limits of a picture. A phone makes them smaller: at most 1600 pixels and
// about 400 KB.
const (
	maxPhoto     = 2 << 20
	maxPhotoSide = 4096 // pixels
	maxPhotoArea = 12_000_000
)

// photoName returns the hash of the picture that a request is about.
func (s *Server) photoName(r *http.Request, crew string) (sum string, err error) {
	sum = mux.Vars(r)["sha256"]
	switch {
	case s.photos == nil:
		return "", problem.New(problem.NotFound, "", "this server keeps no pictures", "They stay on the phone.")
	case !isSum(sum):
		return "", problem.New(problem.Malformed, "sha256", "this is no picture's name", "It has 64 of the digits 0 to 9 and a to f.")
	}
	if err := s.store.NoteErasures(r.Context()); err != nil {
		return "", err
	}
	erased, err := s.store.IsErasedPicture(r.Context(), crew, sum)
	if err != nil {
		return "", err
	}
	if erased {
		if r.Method == http.MethodPut {
			return "", problem.New(problem.Refused, "sha256", "this picture was erased by an owner", "It is not taken again.")
		}
		return "", problem.New(problem.NotFound, "sha256", "this picture was erased by an owner", "It cannot be brought back.")
	}
	return sum, nil
}

// getPhoto answers GET with a picture and HEAD with whether it is here.
func (s *Server) getPhoto(w http.ResponseWriter, r *http.Request, who store.Device) error {
	sum, err := s.photoName(r, who.Crew)
	if err != nil {
		return err
	}
	file, err := s.photos.read(who.Crew, sum)
	if err != nil {
		return err
	}
	kind, ok := readPicture(file)
	if !ok {
		return problem.New(problem.NotFound, "sha256", "this picture cannot be shown", "Look at it on the phone that took it.")
	}
	h := w.Header()
	h.Set("Content-Type", kind.mime)
	h.Set("Content-Length", strconv.Itoa(len(file)))
	// Whatever the bytes may hold, a browser that opens them runs nothing.
	h.Set("Content-Security-Policy", "default-src 'none'; sandbox")
	h.Set("Content-Disposition", "inline")
	h.Set("Cache-Control", "no-store") // phones keep it themselves, and drop it when it is erased
	if r.Method != http.MethodHead {
		w.Write(file) // an error here means that nobody listens any more
	}
	return nil
}

// putPhoto stores a picture under the hash of its bytes.
func (s *Server) putPhoto(w http.ResponseWriter, r *http.Request, who store.Device) error {
	sum, err := s.photoName(r, who.Crew)
	if err != nil {
		return err
	}
	now := s.now()
	_, missing := s.photos.read(who.Crew, sum)
	if missing != nil { // one that is here takes nothing
		fresh, brought := s.budgets.picture(who, 1, now)
		if err := s.budgets.check(who, fresh, brought, now, s.log); err != nil {
			return err
		}
	}
	file, err := readBody(w, r, maxPhoto)
	if err != nil {
		return err
	}
	if store.PictureName(file) != sum {
		return problem.New(problem.Malformed, "sha256", "the bytes of the picture do not fit its name", "They were changed on the way: send it again.")
	}
	kind, ok := readPicture(file)
	switch {
	case !ok:
		return problem.New(problem.Refused, "", "this is no JPEG, PNG or WebP picture", "Take it again with the app.")
	case kind.width < 1 || kind.height < 1 || kind.width > maxPhotoSide || kind.height > maxPhotoSide || kind.width*kind.height > maxPhotoArea:
		return problem.Newf(problem.TooLarge, "", "the picture has %d × %d pixels", kind.width, kind.height).
			WithHint("At most %d along a side and %d million in all.", maxPhotoSide, maxPhotoArea/1_000_000)
	case !onlyPicture(file, kind.mime):
		return problem.New(problem.Refused, "", "the picture's file may say where it was taken", "Take it again with the app, which leaves that out.")
	}
	if err := s.store.Present(); err != nil {
		return err // the folder of pictures would be made anew where nobody looks for it
	}
	if err := s.photos.write(who.Crew, sum, file); err != nil {
		return err
	}
	if missing != nil {
		s.figures.pictures.Add(1)
		fresh, brought := s.budgets.picture(who, int64(len(file)), now)
		s.budgets.spend(who, fresh, brought, now)
	}
	if err := errors.Join(s.store.Present(), s.store.IsHere(r.Context(), who.Crew)); err != nil {
		return err // it may have come too late for the package of a crew that moves
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
