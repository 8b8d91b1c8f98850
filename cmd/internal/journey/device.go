package journey

import (
	"context"
	"fmt"
	"path/filepath"

	"kerfside/cmd/internal/browser"
)

// device is one phone: a profile, and while it runs a browser with its tabs.
type device struct {
	run     *run
	name    string
	browser *browser.Browser
	tabs    map[string]*browser.Page
	tab     string
	seen    map[*browser.Page]int // faults already looked at, by tab
	jar     browser.Jar           // its cookies when it was killed
	clock   string                // a script that moves its clock; "" if it goes right
}

// page returns the current tab, nil while the browser does not run.
func (d *device) page() *browser.Page { return d.tabs[d.tab] }

// start starts the phone's browser with one tab.
func (d *device) start(ctx context.Context) error {
	if d.browser != nil {
		return fmt.Errorf("the browser of phone %s runs already", d.name)
	}
	b, err := browser.Launch(ctx, browser.Options{Engine: d.run.engine, Profile: filepath.Join(d.run.dir, "phone-"+d.name)})
	if err != nil {
		return err
	}
	if d.jar != nil {
		if err := b.PutJar(ctx, d.jar); err != nil {
			return err
		}
	}
	d.browser, d.tabs, d.seen = b, map[string]*browser.Page{}, map[*browser.Page]int{}
	return d.open(ctx, "1")
}

// open goes to a tab, which it opens if it is new.
func (d *device) open(ctx context.Context, tab string) error {
	if p := d.tabs[tab]; p != nil {
		d.tab = tab
		return p.Front(ctx)
	}
	p, err := d.browser.Page(ctx, d.run.screen)
	if err != nil {
		return err
	}
	d.tabs[tab], d.tab = p, tab
	if err := d.wind(ctx, p); err != nil {
		return err
	}
	return d.run.dress(ctx, p)
}

// kill ends the phone's browser at once.
func (d *device) kill() {
	if d.browser != nil {
		d.browser.Kill()
	}
	d.browser, d.tabs = nil, nil
}

// device goes on with that phone and starts it when it is new.
func (r *run) device(ctx context.Context, name string) error {
	d := r.devices[name]
	if d == nil {
		d = &device{run: r, name: name}
		r.devices[name] = d
		if err := d.start(ctx); err != nil {
			return err
		}
	}
	r.now = d
	return nil
}

// tab goes on in that tab of the current phone.
func (r *run) tab(ctx context.Context, name string) error {
	if r.now.browser == nil {
		return fmt.Errorf("the browser of phone %s does not run", r.now.name)
	}
	return r.now.open(ctx, name)
}

// kill ends the browser of the current phone. Its cookies count as written by
// then, so that a journey need not wait for that: the token is older, as a rule,
// than the half minute that Chromium takes.
func (r *run) kill(ctx context.Context) error {
	if r.now.browser == nil {
		return fmt.Errorf("the browser of phone %s does not run", r.now.name)
	}
	jar, err := r.now.browser.Jar(ctx)
	if err != nil {
		return err
	}
	r.now.jar = jar
	r.now.kill()
	return nil
}
