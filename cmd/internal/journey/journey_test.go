package journey

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
)

const axePath = "../../dev/npm/node_modules/axe-core/axe.min.js"

// scratch is the server of the scratch app: its files, and one text that any
// phone may put and get.
type scratch struct {
	addr   string
	server *http.Server
	mu     sync.Mutex
	kept   string
}

func (s *scratch) Invite(string) (string, error) { return "", errors.New("this app has no crews") }

func (s *scratch) URL() string { return "http://" + s.addr }

func (s *scratch) Open() error {
	if s.addr == "" {
		s.addr = "127.0.0.1:0"
	}
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		return err
	}
	s.addr = l.Addr().String()
	mux := http.NewServeMux()
	mux.Handle("/", http.FileServer(http.Dir("testdata")))
	mux.HandleFunc("POST /put", func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		if err != nil {
			return
		}
		s.mu.Lock()
		defer s.mu.Unlock()
		s.kept = string(body)
	})
	mux.HandleFunc("GET /get", func(w http.ResponseWriter, r *http.Request) {
		s.mu.Lock()
		defer s.mu.Unlock()
		io.WriteString(w, "kept "+s.kept)
	})
	s.server = &http.Server{Handler: mux}
	go s.server.Serve(l)
	return nil
}

func (s *scratch) Close() error { return s.server.Close() }

// travel runs a script against a scratch app of its own, in Chromium.
func travel(t *testing.T, script string, step time.Duration) (string, error) {
	t.Helper()
	return travelIn(t, browser.Chromium, script, step)
}

// travelIn is travel in an engine.
func travelIn(t *testing.T, engine browser.Engine, script string, step time.Duration) (string, error) {
	t.Helper()
	s, err := Parse("scratch.txt", script)
	if err != nil {
		t.Fatal(err)
	}
	app := &scratch{}
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	defer app.Close()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	dir := t.TempDir()
	return dir, Run(ctx, app, s, Options{Engine: engine, Dir: dir, Shots: dir, Axe: axePath, Screen: browser.Phone, Look: "sun", Step: step})
}

func TestBrowserVerbs(t *testing.T) {
	text, err := os.ReadFile("testdata/all.txt")
	if err != nil {
		t.Fatal(err)
	}
	dir, err := travel(t, string(text), 20*time.Second)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "scratch.png")); err != nil {
		t.Errorf("the picture was not kept: %v", err)
	}
	for _, v := range verbs {
		if v.name == "expect" || v.name == "join" || v.name == "let through" || v.name == "burns" {
			continue // what fails on purpose; what needs the app's own screen or server, see testdata/e2e
		}
		if !strings.Contains("\n"+string(text), "\n"+v.name) {
			t.Errorf("no step of testdata/all.txt uses %q", v.name)
		}
	}
}

// Each fault of the bad page is found, by words that say where it is.
func TestBrowserFindings(t *testing.T) {
	for _, c := range []struct {
		name, script string
		want         []string
	}{
		{"targets", "open /bad.html\ntargets", []string{
			`"Small" is 72 x 40 px, under 56 px`,
			`"Primary but low" is 1`, // some width
			`under 96 px high`,
			`px of room`,
			`"Under" and <button> "Over" overlap`,
			`"Words that are cut off at the side" is cut off at the side`,
			`the page is 7`,
			`past the side of the screen`,
		}},
		{"contrast", "open /bad.html\ncontrast", []string{
			`"Pale words": contrast 4.48`, // #777 on white: 4.48 by axe-core as well
			`"Dull words": contrast 5.74`,
			`"Faint words": contrast 3.9`,
			`"Words on a sunset": it stands on a picture or gradient`,
			`"Pale in a plot": contrast 3.54`,
		}},
		{"axe", "open /bad.html\naxe", []string{"image-alt", "color-contrast-enhanced"}},
		{"see", "open /bad.html\nsee Bevel", []string{"scratch.txt:2: see Bevel: ", "cannot be read", "Pale words", "picture: "}},
		{"picture", "open /bad.html\npicture Pale words", []string{"no picture says so", `"plot"`}},
		{"gone", "open /bad.html\ngone Pale words", []string{"can still be read"}},
		{"lands", "open /bad.html\nlands Bevel", []string{"there is no such heading"}},
		{"lands low", "open /bad.html\nlands Low down", []string{"px down a screen of"}},
		{"lands covered", "open /bad.html\nlands Under a cover", []string{`it is covered by <div class="cover"`}},
		{"burns", "open /bad.html\nburns 2", []string{"the arc's clock says no time"}},
		{"none", "open /bad.html\ntap Bevel", []string{"no control Bevel", "Small | Primary but low"}},
		{"two", "open /bad.html\ntap Twice", []string{"2 controls are called Twice"}},
		{"disabled", "open /bad.html\ntap Asleep", []string{"Asleep is disabled"}},
		{"covered", "open /bad.html\ntap Covered", []string{"Covered is covered by <div cover>"}},
		{"console", "open /bad.html\ntap Complain\nsee Faults\nsee Faults\naxe", []string{"console: lost the thread"}},
		{"expected", "open /bad.html\nexpect never said", []string{`"never said" was expected and never came`}},
		{"address", "open /bad.html\nat /cut", []string{"the address is /bad.html"}},
		{"network", "open /nowhere.html", []string{"404"}},
		{"down", "offline\nopen /bad.html", []string{"ERR_CONNECTION_REFUSED"}},
		{"no browser", "kill browser\nopen /bad.html", []string{"the browser of phone A does not run"}},
		{"no state", "open /bad.html\ndevice B\nopen /bad.html\nequal A B", []string{"states stay different", "no global kerfside.journal"}},
		{"no phone", "open /bad.html\nequal A B", []string{"the browser of phone B does not run"}},
		{"no app", "open /bad.html\nwait synced", []string{"no global kerfside.journal"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel() // most of the time is spent on waiting for what never comes
			_, err := travel(t, c.script, 5*time.Second)
			if err == nil {
				t.Fatal("the journey ended well")
			}
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("the error does not say %q:\n%v", want, err)
				}
			}
		})
	}
}

// An error that the journey says is right does not end it.
func TestBrowserExpected(t *testing.T) {
	_, err := travel(t, "open /bad.html\nexpect lost the thread\ntap Complain\nsee Faults", 10*time.Second)
	if err != nil {
		t.Error(err)
	}
}

// inEach runs a test in every engine; in a short run in Chromium alone.
func inEach(t *testing.T, test func(t *testing.T, engine browser.Engine)) {
	for _, engine := range browser.Engines {
		if engine == browser.Chromium || os.Getenv("KERFSIDE_LONG") == "1" {
			t.Run(engine.String(), func(t *testing.T) { test(t, engine) })
		}
	}
}

// A touch that the browser drops, or that hits what has come in the place of what
// was aimed at, is made again, and counts once.
func TestBrowserTouchAgain(t *testing.T) {
	inEach(t, func(t *testing.T, engine browser.Engine) {
		for _, page := range []string{"/deaf.html", "/moves.html"} {
			_, err := travelIn(t, engine, "open "+page+"\ntap Count\nsee 1 taps\nhold Count = 50ms\nsee 2 taps", 20*time.Second)
			if err != nil {
				t.Errorf("%s: %v", page, err)
			}
		}
	})
}

// A touch whose click comes long after the finger is up is neither lost nor made
// twice, nor is a click that something else makes before the touch is felt; and
// what has come in the place of what was aimed at feels nothing at all.
func TestBrowserTouchLate(t *testing.T) {
	inEach(t, func(t *testing.T, engine browser.Engine) {
		for _, script := range []string{
			"open /late.html\ntap One\ntap Two\nsee said: One Two.\nhold One = 50ms\nsee said: One Two One.",
			"open /before.html\ntap One\nsee said: Two One.",
			"open /slips.html\ntap One\nsee said: One.",
		} {
			if _, err := travelIn(t, engine, script, 20*time.Second); err != nil {
				t.Error(err)
			}
		}
	})
}

// A picture is put into a control that comes late.
func TestBrowserPhotoLate(t *testing.T) {
	_, err := travel(t, "open /input.html\nphoto Picture = bore 116 x 106 turned 30\nsee 1 picture", 20*time.Second)
	if err != nil {
		t.Error(err)
	}
}
