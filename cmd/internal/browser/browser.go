package browser

import (
	"context"
	"fmt"
	"os"

	"kerfside/cmd/internal/process"
)

// Engine is what a browser is made of. The zero value is Chromium.
type Engine int

const (
	Chromium Engine = iota
	Firefox
	WebKit
)

// Engines are all that can be driven.
var Engines = []Engine{Chromium, Firefox, WebKit}

// makers start a browser, by engine. What they have started they put into its
// programs, also when they fail.
var makers = [...]struct {
	name string
	make func(context.Context, *Browser, Options) (driver, error)
}{
	Chromium: {"chromium", launchChromium},
	Firefox:  {"firefox", launchFirefox},
	WebKit:   {"webkit", launchWebKit},
}

// String returns the engine's name in small letters.
func (e Engine) String() string { return makers[e].name }

// cannot is the error of a call that the engine has no way to do.
func (e Engine) cannot(what string) error {
	return fmt.Errorf("%v cannot %s when it is driven from outside", e, what)
}

// Options say which browser is started and with what.
type Options struct {
	Engine  Engine
	Profile string   // folder that outlives the process; made if it is not there
	Flags   []string // further flags of Chromium
	Home    string   // where Chromium looks for roots that Trust has put there; ours if ""
}

// driver is a running browser of one engine.
type driver interface {
	// open opens a new tab for p, which takes its faults.
	open(ctx context.Context, p *Page) (tab, error)
	// quit asks the browser to end in good order.
	quit(ctx context.Context)
}

// Browser is a running browser with one profile.
type Browser struct {
	engine   Engine
	driver   driver
	temp     string     // folder for what the programs leave behind when they are killed
	programs []*program // the one that ends when the browser does comes first
}

// Launch starts a browser and waits until it answers.
func Launch(ctx context.Context, o Options) (*Browser, error) {
	// The name is short: there are sockets in it, whose paths may have 107 bytes.
	temp, err := os.MkdirTemp("", "b")
	if err != nil {
		return nil, err
	}
	b := &Browser{engine: o.Engine, temp: temp}
	if b.driver, err = makers[o.Engine].make(ctx, b, o); err != nil {
		b.Kill()
		return nil, err
	}
	return b, nil
}

// Engine returns what the browser is made of.
func (b *Browser) Engine() Engine { return b.engine }

// Page opens a new tab with that screen.
func (b *Browser) Page(ctx context.Context, s Screen) (*Page, error) {
	p := &Page{browser: b}
	var err error
	if p.tab, err = b.driver.open(ctx, p); err != nil {
		return nil, err
	}
	return p, p.Resize(ctx, s)
}

// Kill ends the browser at once, as when the phone's battery falls out, and
// returns when it is gone.
func (b *Browser) Kill() {
	for _, p := range b.programs {
		p.kill()
	}
	os.RemoveAll(b.temp)
}

// Close asks the browser to end in good order, and kills it if it does not
// before the context ends.
func (b *Browser) Close(ctx context.Context) {
	b.driver.quit(ctx)
	select {
	case <-b.programs[0].ended:
	case <-ctx.Done():
	}
	b.Kill()
}

// Throttle makes the whole browser that many times slower until the returned
// function is called: the processes of its pages with their workers and service
// workers, and its own, in which the network, the cache and IndexedDB are. What
// they wait for, disks and timers, keeps its speed. A page stands still for ten
// milliseconds at a time when it is made six times slower.
func (b *Browser) Throttle(times float64) (end func()) {
	if times <= 1 {
		return func() {}
	}
	return process.SlowGroup(b.programs[0].cmd, times)
}
