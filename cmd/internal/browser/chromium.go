package browser

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
)

// chromiumNames are the programs that are Chromium, best first.
var chromiumNames = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"}

// Find returns the path of a Chromium that runs. Some systems have a program
// of that name that only tells how to get one, so it is asked for its version.
func Find() (string, error) {
	var tried []error
	for _, name := range chromiumNames {
		path, err := exec.LookPath(name)
		if err == nil {
			err = exec.Command(path, "--version").Run()
		}
		if err == nil {
			return path, nil
		}
		tried = append(tried, fmt.Errorf("%s: %w", name, err))
	}
	return "", fmt.Errorf("no Chromium runs here (go run ./cmd/dev test installs it on Debian): %w", errors.Join(tried...))
}

// flags is what every Chromium gets: no window, nothing that calls home, and no
// sandbox, which neither root nor most containers can have. Only our own pages
// are opened.
var flags = []string{
	"--headless=new",
	"--remote-debugging-pipe",
	"--no-sandbox",
	"--disable-gpu",
	"--disable-quic",
	"--disable-dev-shm-usage",
	"--disable-background-networking",
	"--disable-component-update",
	"--disable-sync",
	"--disable-breakpad",
	"--disable-ipc-flooding-protection", // else history takes no more than 200 places in ten seconds
	"--disable-features=Translate,MediaRouter,OptimizationHints",
	"--force-color-profile=srgb",
	"--hide-crash-restore-bubble",
	"--lang=en-US", // it decides the units, whatever the system speaks
	"--mute-audio",
	"--no-default-browser-check",
	"--no-first-run",
	"--password-store=basic",
}

// chromium is a Chromium that is driven by the DevTools protocol.
type chromium struct {
	wire *wire

	mu   sync.Mutex
	tabs map[string]*chromiumTab // by session, those of its workers included
}

// launchChromium starts a Chromium on its profile.
func launchChromium(ctx context.Context, b *Browser, o Options) (driver, error) {
	path, err := Find()
	if err != nil {
		return nil, err
	}
	if err := unlock(o.Profile); err != nil {
		return nil, err
	}
	theirIn, ourOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	ourIn, theirOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(path, append(append([]string{"--user-data-dir=" + o.Profile}, flags...), o.Flags...)...)
	cmd.ExtraFiles = []*os.File{theirIn, theirOut}
	var said bytes.Buffer // to be read after it has ended
	cmd.Stderr = &said
	if o.Home != "" {
		cmd.Env = append(os.Environ(), "HOME="+o.Home)
	}
	program, err := b.start(cmd)
	theirIn.Close()
	theirOut.Close()
	if err != nil {
		return nil, err
	}
	c := &chromium{tabs: map[string]*chromiumTab{}}
	pipe := newPipe(ourIn, ourOut)
	c.wire = newWire(pipe, c.event)
	go func() {
		<-program.ended
		pipe.Close() // what the browser has started may hold the other ends for a while
	}()
	if err := c.call(ctx, "Browser.getVersion", struct{}{}, nil); err != nil {
		program.kill()
		return nil, fmt.Errorf("%s does not answer: %w\n%s", path, err, said.String())
	}
	return c, nil
}

// unlock makes the profile's folder and removes the marks of a browser that
// was killed there, which would keep the next one out.
func unlock(profile string) error {
	if err := os.MkdirAll(profile, 0o700); err != nil {
		return err
	}
	marks, err := filepath.Glob(filepath.Join(profile, "Singleton*"))
	if err != nil {
		return err
	}
	for _, mark := range marks {
		if err := os.Remove(mark); err != nil {
			return err
		}
	}
	return nil
}

// call sends a method to the browser itself.
func (c *chromium) call(ctx context.Context, method string, params, result any) error {
	return c.wire.call(ctx, "", method, params, result)
}

func (c *chromium) quit(ctx context.Context) { c.call(ctx, "Browser.close", struct{}{}, nil) }

func (c *chromium) open(ctx context.Context, p *Page) (tab, error) {
	var made struct{ TargetID string }
	if err := c.call(ctx, "Target.createTarget", map[string]any{"url": "about:blank"}, &made); err != nil {
		return nil, err
	}
	var at struct{ SessionID string }
	if err := c.call(ctx, "Target.attachToTarget", map[string]any{"targetId": made.TargetID, "flatten": true}, &at); err != nil {
		return nil, err
	}
	t := &chromiumTab{chromium: c, page: p, session: at.SessionID, target: made.TargetID, loaded: map[string]bool{}}
	t.alive, t.crash = context.WithCancel(context.Background())
	c.mu.Lock()
	c.tabs[t.session] = t
	c.mu.Unlock()
	return t, t.listen(ctx)
}
