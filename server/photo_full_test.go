package server

import (
	"errors"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"syscall"
	"testing"
)

// TestPictureOnAFullDisk: a disk that takes no more is told as one, in whichever
// way it says so; anything else stays the server's fault.
func TestPictureOnAFullDisk(t *testing.T) {
	s := syncServer(t)
	for err, want := range map[error]int{
		syscall.ENOSPC:      507,
		syscall.EDQUOT:      507,
		syscall.EROFS:       507,
		syscall.EFBIG:       507,
		syscall.EBADF:       500,
		errors.New("broke"): 500,
	} {
		w := httptest.NewRecorder()
		s.handle(func(http.ResponseWriter, *http.Request) error {
			return pictureTrouble(&fs.PathError{Op: "write", Path: "new-1", Err: err})
		}).ServeHTTP(w, httptest.NewRequest("PUT", "/api/photos/x", nil))
		if w.Code != want || (want == 507) != (w.Header().Get("Retry-After") != "") {
			t.Errorf("%v is answered with %d, %v", err, w.Code, w.Header())
		}
	}
}
