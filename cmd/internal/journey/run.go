package journey

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kerfside/cmd/internal/browser"
)

// App is the server that a journey closes and opens again. The second Open
// takes the port and the database of the first.
type App interface {
	Open() error
	Close() error
	URL() string // without a stroke at the end

	// Invite makes an invitation for an "owner" or a "member" and returns its link.
	Invite(role string) (string, error)
}

// Options are what a journey needs besides the app.
type Options struct {
	Engine browser.Engine // of the phones' browsers
	Dir    string         // keeps the profiles of the phones
	Shots  string         // keeps the pictures
	Axe    string         // path of axe.min.js
	Screen browser.Screen // to begin with
	Look   string         // to begin with: "sun" or "night"
	Text   int            // size of text to begin with, in percent; 0 is 100
	Step   time.Duration  // how long a step may take
}

// run is a journey under way.
type run struct {
	app     App
	engine  browser.Engine
	dir     string
	shots   string
	axe     string
	screen  browser.Screen
	look    string
	text    int           // percent
	limit   time.Duration // of a step
	devices map[string]*device
	now     *device

	taken    map[string]string
	expected []string // texts of errors that are right
	met      map[string]bool
	touches  int  // since taps were last counted from nothing
	downs    int  // how often the server has been closed
	down     bool // whether it is closed now
}

// Run runs a script against an app that is open, and leaves it open. The error
// names the line, what can be read on the page, and a picture of it.
func Run(ctx context.Context, app App, script Script, o Options) (err error) {
	r := &run{
		app: app, engine: o.Engine, dir: o.Dir, shots: o.Shots, axe: o.Axe, screen: o.Screen, look: o.Look, text: cmp.Or(o.Text, 100), limit: o.Step,
		devices: map[string]*device{}, taken: map[string]string{}, met: map[string]bool{},
	}
	defer func() {
		for _, d := range r.devices {
			d.kill()
		}
		if r.down {
			err = errors.Join(err, app.Open())
		}
	}()
	if err := r.device(ctx, "A"); err != nil {
		return err
	}
	var found []error // by checks, after which a journey can go on
	for _, s := range script.Steps {
		err := r.step(ctx, s)
		switch {
		case err == nil:
		case find(s.Verb).judges && r.page() != nil && ctx.Err() == nil:
			found = append(found, fmt.Errorf("%s:%d: %s: %w", script.Name, s.Line, s, err))
		default:
			scene := r.scene(ctx, fmt.Sprintf("failed-%s-%d", script.Name, s.Line))
			return errors.Join(append(found, fmt.Errorf("%s:%d: %s: %w%s", script.Name, s.Line, s, err, scene))...)
		}
	}
	for _, text := range r.expected {
		if !r.met[text] {
			found = append(found, fmt.Errorf("%s: the error %q was expected and never came", script.Name, text))
		}
	}
	return errors.Join(found...)
}

// launchLimit is how long a browser may take to start on a busy machine.
const launchLimit = time.Minute

// step runs one step and looks for faults after it.
func (r *run) step(ctx context.Context, s Step) error {
	for name, text := range r.taken {
		s.Text = strings.ReplaceAll(s.Text, "$"+name, text)
	}
	if r.page() == nil && s.Verb != "start browser" && s.Verb != "device" && s.Verb != "online" && s.Verb != "offline" {
		return fmt.Errorf("the browser of phone %s does not run", r.now.name)
	}
	run := func(ctx context.Context) error { return find(s.Verb).run(ctx, r, s) }
	var err error
	switch s.Verb {
	case "join": // its parts have a limit each
		err = run(ctx)
	case "device", "start browser":
		err = within(ctx, launchLimit, run)
	default:
		err = r.within(ctx, run)
	}
	if err != nil {
		return err
	}
	return r.faults()
}

// within does what may take as long as a step.
func (r *run) within(ctx context.Context, do func(context.Context) error) error {
	return within(ctx, r.limit, do)
}

func within(ctx context.Context, limit time.Duration, do func(context.Context) error) error {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	return do(ctx)
}

// page returns the current tab.
func (r *run) page() *browser.Page { return r.now.page() }

// closeApp takes the server away.
func (r *run) closeApp() error {
	if r.down {
		return errors.New("the server is closed already")
	}
	r.down = true
	r.downs++
	return r.app.Close()
}

// openApp brings the server back, and has the browsers say so, as they do when
// a phone has a signal again: else a phone would wait out the pause that it took.
func (r *run) openApp(ctx context.Context) error {
	if !r.down {
		return errors.New("the server is open already")
	}
	r.down = false
	if err := r.app.Open(); err != nil {
		return err
	}
	for _, d := range r.devices {
		for _, p := range d.tabs {
			if err := p.Evaluate(ctx, `dispatchEvent(new Event("online"))`, nil); err != nil {
				return err
			}
		}
	}
	return nil
}

// faults returns what any page did wrong since the last look.
func (r *run) faults() error {
	var bad []error
	for _, d := range r.devices {
		for _, p := range d.tabs {
			all := p.Faults()
			for _, f := range all[d.seen[p]:] {
				if !r.excused(f) {
					bad = append(bad, fmt.Errorf("phone %s: %s: %s", d.name, f.Kind, f.Text))
				}
			}
			d.seen[p] = len(all)
		}
	}
	return errors.Join(bad...)
}

// excused says whether a fault was expected, or comes of a closed server. The
// word of such a failure may arrive after the server is back.
func (r *run) excused(f browser.Fault) bool {
	if f.Kind == "unreachable" && r.downs > 0 {
		return true
	}
	for _, text := range r.expected {
		if strings.Contains(f.Text, text) {
			r.met[text] = true
			return true
		}
	}
	return false
}

// ask evaluates an expression of the library until it gives an answer. What
// the library cannot do yet it throws, and the last such word is the error.
func (r *run) ask(ctx context.Context, expression string, result any) error {
	tick := time.NewTicker(30 * time.Millisecond)
	defer tick.Stop()
	last := errors.New("the page did not answer")
	for {
		err := r.page().Evaluate(ctx, library+expression+ending, result)
		if err == nil {
			return nil
		}
		if errors.Is(err, browser.ErrCrashed) {
			return err
		}
		if ctx.Err() == nil {
			last = err
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
			return last
		}
	}
}

// until is ask for an answer that says nothing.
func (r *run) until(ctx context.Context, expression string) error {
	return r.ask(ctx, expression, nil)
}

// scene describes the page where a journey failed: what can be read, and
// where its picture is.
func (r *run) scene(ctx context.Context, name string) string {
	p := r.page()
	if p == nil {
		return ""
	}
	ctx, cancel := context.WithTimeout(ctx, 10*time.Second)
	defer cancel()
	var words, url string
	p.Evaluate(ctx, `location.href`, &url)
	p.Evaluate(ctx, library+`visibleLines()`+ending, &words)
	where := filepath.Join(r.shots, strings.NewReplacer("/", "-", " ", "-").Replace(name)+".png")
	if data, err := p.Picture(ctx); err == nil && os.MkdirAll(r.shots, 0o755) == nil && os.WriteFile(where, data, 0o644) == nil {
		words += "\npicture: " + where
	}
	return "\n" + url + "\n    " + strings.ReplaceAll(words, "\n", "\n    ")
}

// quote writes a text as a JavaScript literal.
func quote(s string) string {
	data, _ := json.Marshal(s) // a string can always be written
	return string(data)
}
