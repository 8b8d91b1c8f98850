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
		if v.name == "expect" || v.name == "join" || v.name == "let through" || v.name == "full" || v.name == "burns" || v.name == "lit" {
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
		{name: "targets", script: "open /bad.html\ntargets", want: []string{
			`"Small" is 72 x 40 px, under 56 px`,
			`"Primary but low" is 1`, // some width
			`under 96 px high`,
			`px of room`,
			`"Under" and <button> "Over" overlap`,
			`"Words that are cut off at the side" is cut off at the side`,
			`the page is 7`,
			`past the side of the screen`,
		}},
		{name: "contrast", script: "open /bad.html\ncontrast", want: []string{
			`"Pale words": contrast 4.48`, // #777 on white: 4.48 by axe-core as well
			`"Dull words": contrast 5.74`,
			`"Faint words": contrast 3.9`,
			`"Words on a sunset": it stands on a picture or gradient`,
			`"Pale in a plot": contrast 3.54`,
		}},
		{name: "axe", script: "open /bad.html\naxe", want: []string{"image-alt", "color-contrast-enhanced"}},
		{name: "tree", script: "open /unheard.html\ntree", want: []string{
			`button "×" has no name in words`,
			`link "" has no name in words`,
			`button "Search Search" is called so twice`,
			`button "ready.title" is called as no person would`,
			`button "undefined mm" is called as no person would`,
			`heading "Too deep" is of level 3 after one of level 1`,
			`there are 2 headings of level 1`,
			`there are 2 main landmarks`,
			`<p wrong> "Deeper than the plate" is not tied to <input>`,
		}},
		{name: "tree under a dialog", script: "open /unheard.html\ntap Open\ntree", want: []string{
			`the dialog has no name`,
			`heading "Unheard" lies beneath the dialog and is told`,
		}},
		{name: "see", script: "open /bad.html\nsee Bevel", want: []string{"scratch.txt:2: see Bevel: ", "cannot be read", "Pale words", "picture: "}},
		{name: "picture", script: "open /bad.html\npicture Pale words", want: []string{"no picture says so", `"plot"`}},
		{name: "gone", script: "open /bad.html\ngone Pale words", want: []string{"can still be read"}},
		{name: "lands", script: "open /bad.html\nlands Bevel", want: []string{"there is no such heading"}},
		{name: "lands low", script: "open /bad.html\nlands Low down", want: []string{"px down a screen of"}},
		{name: "lands covered", script: "open /bad.html\nlands Under a cover", want: []string{`it is covered by <div class="cover"`}},
		{name: "upfront low", script: "open /bad.html\nupfront Low down", want: []string{"px on a screen of"}},
		{name: "upfront covered", script: "open /bad.html\nupfront Covered", want: []string{`covered by <div cover>`}},
		{name: "upfront none", script: "open /bad.html\nupfront Bevel", want: []string{"it cannot be read on the page"}},
		{name: "in view", script: "open /bad.html\nin view Low down", want: []string{"px on a screen of"}},
		{name: "taps", script: "open /bad.html\ncount taps\ntap Small\ntap Small\nat most 1 taps", want: []string{"it took 2"}},
		{name: "reach", script: "open /bad.html\nreach Asleep", want: []string{"Asleep is disabled"}},
		{name: "reach unseen", script: "open /bad.html\nreach Small", want: []string{"its outline is none"}},
		{name: "burns", script: "open /bad.html\nburns 2", want: []string{"the arc's clock says no time"}},
		{name: "none", script: "open /bad.html\ntap Bevel", want: []string{"no control Bevel", "Small | Primary but low"}},
		{name: "two", script: "open /bad.html\ntap Twice", want: []string{"2 controls are called Twice"}},
		{name: "disabled", script: "open /bad.html\ntap Asleep", want: []string{"Asleep is disabled"}},
		{name: "covered", script: "open /bad.html\ntap Covered", want: []string{"Covered is covered by <div cover>"}},
		{name: "deaf", script: "open /deaf.html?always\ntap Count", want: []string{"touches before that it did not feel: "}},
		{name: "clickless", script: "open /clickless.html\ntap Count", want: []string{"the page felt a touch that made no click: it has ended"}},
		{name: "console", script: "open /bad.html\ntap Complain\nsee Faults\nsee Faults\naxe", want: []string{"console: lost the thread"}},
		{name: "expected", script: "open /bad.html\nexpect never said", want: []string{`"never said" was expected and never came`}},
		{name: "address", script: "open /bad.html\nat /cut", want: []string{"the address is /bad.html"}},
		{name: "network", script: "open /nowhere.html", want: []string{"404"}},
		{name: "down", script: "offline\nopen /bad.html", want: []string{"ERR_CONNECTION_REFUSED"}},
		{name: "no browser", script: "kill browser\nopen /bad.html", want: []string{"the browser of phone A does not run"}},
		{name: "no state", script: "open /bad.html\ndevice B\nopen /bad.html\nequal A B", want: []string{"states stay different", "no global kerfside.journal"}},
		{name: "no phone", script: "open /bad.html\nequal A B", want: []string{"the browser of phone B does not run"}},
		{name: "no app", script: "open /bad.html\nwait synced", want: []string{"no global kerfside.journal"}},
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
		for _, page := range []string{"/deaf.html", "/moves.html", "/swaps.html"} {
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
