// Package assets is the phone app as it is served: the page behind all screens,
// the service worker with the list of what phones keep, and all files, packed and
// named by their content. It makes what is made by machine: the style sheet, the
// declarations of the calculators, the guides.
package assets

import (
	"io/fs"
	"net/http"
	"sync"

	"kerfside/calc/problem"
)

// Options are what an App is made of.
type Options struct {
	Files   fs.FS    // of package pwa
	Guides  fs.FS    // the Markdown of package guides
	Screens []Screen // each with a page of its own
	Dev     bool     // read Files and Guides afresh for every page
	Notice  string   // what stands on every screen and stays; nothing if ""
}

// Screen is a screen of the app.
type Screen struct {
	Address string // as a template of the router
	Module  string // its page, which may be in a file that comes when it is needed
	IsStart bool   // the app is opened there: no phone has to wake its service worker for that
}

// App serves the phone app. All files lie under /a/HASH/, where HASH is taken
// over every one of them, so that relative imports work and each address is
// good for ever; only calc.wasm, the largest, has an address of its own, so
// that a new word on a page does not make phones fetch it again. The modules
// go out joined to a few files, or as they lie where they were not joined.
type App struct {
	options Options

	mu    sync.Mutex
	built *build
}

// New prepares the app's files. It fails if they or a guide are not fit to be
// served, and says which file and line.
func New(o Options) (*App, error) {
	b, err := makeBuild(o)
	if err != nil {
		return nil, err
	}
	return &App{options: o, built: b}, nil
}

// current returns the build to serve; in dev, a fresh one for each page.
func (a *App) current(fresh bool) (*build, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.options.Dev && fresh {
		b, err := makeBuild(a.options)
		if err != nil {
			return nil, problem.New(problem.Internal, "", err.Error(), "Mend the file and load the page again.")
		}
		a.built = b
	}
	return a.built, nil
}

// Page returns what serves the one page behind all screens, as the screen of a
// module wants it.
func (a *App) Page(module string) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, r *http.Request) error {
		b, err := a.current(true)
		if err != nil {
			return err
		}
		return b.shells[module].serve(w, r)
	}
}

// ScriptHash returns the one script that stands in the page itself as a source of
// a Content-Security-Policy, 'sha256-…' in its quotes: browsers run no other there.
func (a *App) ScriptHash() string {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.built.script
}

// ServiceWorker serves sw.js with this build's list of files.
func (a *App) ServiceWorker(w http.ResponseWriter, r *http.Request) error {
	b, err := a.current(true)
	if err != nil {
		return err
	}
	return b.worker.serve(w, r)
}

// Manifest serves the web app manifest.
func (a *App) Manifest(w http.ResponseWriter, r *http.Request) error {
	b, err := a.current(false)
	if err != nil {
		return err
	}
	return b.manifest.serve(w, r)
}

// File serves a file by its address. An address of another build is not there:
// the service worker keeps what its own build needs.
func (a *App) File(w http.ResponseWriter, r *http.Request) error {
	b, err := a.current(false)
	if err != nil {
		return err
	}
	f, ok := b.files[r.URL.Path]
	if !ok {
		return problem.New(problem.NotFound, "", "there is no such file in this version of the app", "Load the page again.")
	}
	return f.serve(w, r)
}
