package server

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// photoServer returns a server that keeps pictures, behind all its guards, and
// the handler as a phone of its crew reaches it.
func photoServer(t *testing.T, quota int64) (*Server, http.Handler) {
	s := syncServer(t)
	s.hosts = loopback()
	s.photos = newPhotoFiles(filepath.Join(t.TempDir(), "kerfside.db.photos"), quota)
	v, err := s.store.Invite(crewID, store.Member, "", start)
	if err != nil {
		t.Fatal(err)
	}
	_, token, err := s.store.Enrol(store.Enrolment{Secret: v.Secret, Name: "Truck 1", Now: start})
	if err != nil {
		t.Fatal(err)
	}
	guarded := s.guarded()
	return s, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Header.Set(ownHeader, "1")
		r.AddCookie(&http.Cookie{Name: cookieName(r), Value: token})
		guarded.ServeHTTP(w, r)
	})
}

// ask sends one request and returns the reply and the kind of its error.
func ask(h http.Handler, method, path string, body io.Reader) (*httptest.ResponseRecorder, problem.Kind) {
	r := httptest.NewRequest(method, "http://localhost/api/photos/", body)
	r.URL.Path, r.URL.RawPath = path, ""
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	var e problem.Envelope
	if json.Unmarshal(w.Body.Bytes(), &e) == nil && e.Error != nil {
		return w, e.Error.Kind
	}
	return w, ""
}

func photoPath(file []byte) string { return "/api/photos/" + store.PictureName(file) }

// gray returns a picture of that size.
func gray(w, h int, shade uint8) image.Image {
	m := image.NewGray(image.Rect(0, 0, w, h))
	m.Set(w/2, h/2, color.Gray{shade})
	return m
}

func asJPEG(t *testing.T, m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t *testing.T, m image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pngHead is the beginning of a PNG file that claims to be of that size.
func pngHead(w, h uint32) []byte {
	ihdr := append([]byte("IHDR"), binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)...)
	ihdr = append(ihdr, 8, 0, 0, 0, 0)
	file := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), ihdr...)
	return binary.BigEndian.AppendUint32(file, crc32.ChecksumIEEE(ihdr))
}

// files lists what lies in the folder of pictures.
func (p *photoFiles) files(t *testing.T) []string {
	var list []string
	err := filepath.WalkDir(p.dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			list = append(list, path)
		}
		if errors.Is(err, os.ErrNotExist) {
			return nil
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestPhotoComesBack(t *testing.T) {
	s, h := photoServer(t, 1e6)
	for name, file := range map[string][]byte{"image/jpeg": asJPEG(t, gray(1600, 1200, 9)), "image/png": asPNG(t, gray(40, 30, 9))} {
		t.Run(name, func(t *testing.T) {
			if w, kind := ask(h, "HEAD", photoPath(file), nil); w.Code != 404 {
				t.Errorf("HEAD before: %d %s, want 404", w.Code, kind)
			}
			for _, time := range []string{"first", "second"} {
				if w, kind := ask(h, "PUT", photoPath(file), bytes.NewReader(file)); w.Code != 204 {
					t.Fatalf("%s PUT: %d %s, want 204", time, w.Code, kind)
				}
			}
			head, _ := ask(h, "HEAD", photoPath(file), nil)
			if head.Code != 200 || head.Body.Len() != 0 || head.Header().Get("Content-Length") != fmt.Sprint(len(file)) {
				t.Errorf("HEAD: %d with %d bytes, length %q", head.Code, head.Body.Len(), head.Header().Get("Content-Length"))
			}
			got, _ := ask(h, "GET", photoPath(file), nil)
			if !bytes.Equal(got.Body.Bytes(), file) {
				t.Errorf("GET gave %d bytes, want the %d that were put", got.Body.Len(), len(file))
			}
			for key, want := range map[string]string{"Content-Type": name, "X-Content-Type-Options": "nosniff",
				"Cache-Control": "no-store", "Content-Security-Policy": "default-src 'none'; sandbox", "Cross-Origin-Resource-Policy": "same-origin"} {
				if v := got.Header().Get(key); v != want {
					t.Errorf("%s: %q, want %q", key, v, want)
				}
			}
		})
	}
	if list := s.photos.files(t); len(list) != 2 {
		t.Errorf("files left: %v, want the two pictures and nothing half-written", list)
	}
}

func TestPhotoRefused(t *testing.T) {
	s, h := photoServer(t, 1e6)
	good := asJPEG(t, gray(64, 48, 1))
	for _, c := range []struct {
		name, path string
		body       io.Reader
		status     int
		kind       problem.Kind
	}{
		{name: "another hash", path: photoPath([]byte("another")), body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
		{name: "a page", path: photoPath([]byte("<script>alert(1)</script>")), body: strings.NewReader("<script>alert(1)</script>"), status: 422, kind: problem.Refused},
		{name: "a drawing that can hold script", path: photoPath([]byte("<svg xmlns='http://www.w3.org/2000/svg'/>")), body: strings.NewReader("<svg xmlns='http://www.w3.org/2000/svg'/>"), status: 422, kind: problem.Refused},
		{name: "nothing", path: photoPath(nil), body: strings.NewReader(""), status: 422, kind: problem.Refused},
		{name: "the first bytes of a JPEG only", path: photoPath(good[:20]), body: bytes.NewReader(good[:20]), status: 422, kind: problem.Refused},
		{name: "a WebP without a picture", path: photoPath([]byte("RIFF\x16\x00\x00\x00WEBPVP8Q\x0a\x00\x00\x000123456789")), body: strings.NewReader("RIFF\x16\x00\x00\x00WEBPVP8Q\x0a\x00\x00\x000123456789"), status: 422, kind: problem.Refused},
		{name: "2 MiB and a byte", path: photoPath(make([]byte, maxPhoto+1)), body: bytes.NewReader(make([]byte, maxPhoto+1)), status: 413, kind: problem.TooLarge},
		{name: "a side of 2 billion pixels", path: photoPath(pngHead(1<<31-1, 8)), body: bytes.NewReader(pngHead(1<<31-1, 8)), status: 413, kind: problem.TooLarge},
		{name: "16 million pixels", path: photoPath(pngHead(4096, 4096)), body: bytes.NewReader(pngHead(4096, 4096)), status: 413, kind: problem.TooLarge},
		{name: "cut off", path: photoPath(good), body: io.MultiReader(bytes.NewReader(good[:100]), iotest.ErrReader(io.ErrUnexpectedEOF)), status: 400, kind: problem.Cut},
		{name: "capital letters", path: "/api/photos/" + strings.ToUpper(store.PictureName(good)), body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
		{name: "a short name", path: "/api/photos/abc", body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
		{name: "up and out", path: "/api/photos/..%2f..%2f" + store.PictureName(good)[:52], body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
		{name: "dots", path: "/api/photos/" + strings.Repeat("..", 32), body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
		{name: "NUL", path: "/api/photos/" + store.PictureName(good)[:63] + "\x00", body: bytes.NewReader(good), status: 400, kind: problem.Malformed},
	} {
		t.Run(c.name, func(t *testing.T) {
			if w, kind := ask(h, "PUT", c.path, c.body); w.Code != c.status || kind != c.kind {
				t.Errorf("PUT: %d %s, want %d %s", w.Code, kind, c.status, c.kind)
			}
		})
	}
	if list := s.photos.files(t); len(list) != 0 {
		t.Errorf("refused pictures left files: %v", list)
	}
}

// TestPhotoPathTricks: no path gets at a file outside the folder.
func TestPhotoPathTricks(t *testing.T) {
	s, h := photoServer(t, 1e6)
	if err := os.MkdirAll(s.photos.dir, 0o700); err != nil {
		t.Fatal(err)
	}
	secret := asJPEG(t, gray(8, 8, 3))
	if err := os.WriteFile(filepath.Join(s.photos.dir, store.PictureName(secret)), secret, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"/api/photos/" + store.PictureName(secret), "/api/photos/../" + store.PictureName(secret), "/api/photos/%2e%2e/" + store.PictureName(secret), "/api/photos//" + store.PictureName(secret), "/api/photos/"} {
		if w, _ := ask(h, "GET", path, nil); w.Code == 200 {
			t.Errorf("GET %s gave %d bytes", path, w.Body.Len())
		}
	}
}

func TestPhotoQuota(t *testing.T) {
	first, second := asJPEG(t, gray(64, 48, 1)), asPNG(t, gray(64, 48, 2))
	s, h := photoServer(t, int64(len(first)+len(second)-1))
	if w, kind := ask(h, "PUT", photoPath(first), bytes.NewReader(first)); w.Code != 204 {
		t.Fatalf("PUT: %d %s", w.Code, kind)
	}
	s.photos = newPhotoFiles(s.photos.dir, s.photos.quota) // as after a start: it counts what lies there
	if w, kind := ask(h, "PUT", photoPath(second), bytes.NewReader(second)); w.Code != 507 || kind != problem.DiskFull {
		t.Errorf("PUT past the quota: %d %s, want 507 disk-full", w.Code, kind)
	}
	if w, kind := ask(h, "PUT", photoPath(first), bytes.NewReader(first)); w.Code != 204 {
		t.Errorf("PUT of what is there: %d %s, want 204", w.Code, kind)
	}
}

// TestPhotoDamaged: a picture that went bad on the disk is not handed out, and
// comes back with the next upload.
func TestPhotoDamaged(t *testing.T) {
	s, h := photoServer(t, 1e6)
	file := asJPEG(t, gray(64, 48, 1))
	if w, kind := ask(h, "PUT", photoPath(file), bytes.NewReader(file)); w.Code != 204 {
		t.Fatalf("PUT: %d %s", w.Code, kind)
	}
	bad := bytes.Clone(file)
	bad[len(bad)/2] ^= 1
	if err := os.WriteFile(s.photos.path(s.store.Crew(), store.PictureName(file)), bad, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, method := range []string{"HEAD", "GET"} {
		if w, _ := ask(h, method, photoPath(file), nil); w.Code != 404 {
			t.Errorf("%s of a damaged picture: %d, want 404", method, w.Code)
		}
	}
	if w, kind := ask(h, "PUT", photoPath(file), bytes.NewReader(file)); w.Code != 204 {
		t.Fatalf("PUT again: %d %s", w.Code, kind)
	}
	if w, _ := ask(h, "GET", photoPath(file), nil); !bytes.Equal(w.Body.Bytes(), file) {
		t.Error("it did not come back")
	}
	if used := s.photos.used[s.store.Crew()]; used != int64(len(file)) {
		t.Errorf("counted %d bytes, want %d", used, len(file))
	}
}

// TestPhotoOfAnotherCrew: what one crew stored, another does not get.
func TestPhotoOfAnotherCrew(t *testing.T) {
	s, h := photoServer(t, 1e6)
	file := asJPEG(t, gray(64, 48, 1))
	if err := s.photos.write("another-crew-of-a-shop", store.PictureName(file), file); err != nil {
		t.Fatal(err)
	}
	if w, _ := ask(h, "GET", photoPath(file), nil); w.Code != 404 {
		t.Errorf("GET of another crew's picture: %d, want 404", w.Code)
	}
}

// TestWebPSize reads the sizes of files made by other programs: the smallest
// lossy and lossless pictures that are known, and an extended header after
// RFC 9649, figure 7.
func TestWebPSize(t *testing.T) {
	for _, c := range []struct {
		name, file string
		w, h       int
	}{
		{name: "lossy", file: "RIFF\x24\x00\x00\x00WEBPVP8 \x18\x00\x00\x00\x30\x01\x00\x9d\x01\x2a\x01\x00\x01\x00\x02\x00\x34\x25\xa4\x00\x03\x70\x00\xfe\xfb\xfd\x50\x00", w: 1, h: 1},
		{name: "lossless", file: "RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00", w: 1, h: 1},
		{name: "extended", file: "RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x10\x00\x00\x00\x3f\x06\x00\xaf\x04\x00", w: 1600, h: 1200},
		{name: "lossy, not a key frame", file: "RIFF\x24\x00\x00\x00WEBPVP8 \x18\x00\x00\x00\x31\x01\x00\x9d\x01\x2a\x01\x00\x01\x00\x02\x00", w: 0, h: 0},
	} {
		p, ok := readPicture([]byte(c.file))
		if ok != (c.w > 0) || p.width != c.w || p.height != c.h {
			t.Errorf("%s: %d × %d, %v, want %d × %d", c.name, p.width, p.height, ok, c.w, c.h)
		}
	}
}

// TestPictureOfALostStore: once the database is gone no picture is acknowledged, and
// none is put where nobody looks for it.
func TestPictureOfALostStore(t *testing.T) {
	p := newShop(t)
	a := p.join(crewID, store.Member, "phone-a")
	home := filepath.Dir(p.path)
	p.server.photos = newPhotoFiles(p.path+".photos", 1e6)
	put := func(shade uint8) *httptest.ResponseRecorder {
		picture := asJPEG(t, gray(40, 40, shade))
		return a.send("PUT", photoPath(picture), string(picture))
	}
	if out := put(0); out.Code != 204 {
		t.Fatalf("%d %s", out.Code, out.Body)
	}
	if err := os.Rename(home, home+"-moved"); err != nil {
		t.Fatal(err)
	}
	if out := put(50); out.Code != 503 {
		t.Errorf("answered with %d %s", out.Code, out.Body)
	}
	if _, err := os.Stat(home); err == nil {
		t.Error("the folder was made anew")
	}
}
