package browser

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"

	"kerfside/cmd/internal/process"
)

// Options say which browser is started and with what.
type Options struct {
	Profile string   // folder that outlives the process; made if it is not there
	Flags   []string // further flags of Chromium
	Home    string   // where it looks for roots that Trust has put there; ours if ""
}

// flags is what every browser gets: no window, nothing that calls home, and no
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
	"--disable-features=Translate,MediaRouter,OptimizationHints",
	"--force-color-profile=srgb",
	"--hide-crash-restore-bubble",
	"--mute-audio",
	"--no-default-browser-check",
	"--no-first-run",
	"--password-store=basic",
}

// Browser is a running Chromium with one profile.
type Browser struct {
	process *exec.Cmd
	pipe    *pipe
	said    bytes.Buffer // its standard error, to be read after it has ended
	ended   chan struct{}

	mu    sync.Mutex
	pages map[string]*Page // by session, those of its workers included
}

// Launch starts a browser and waits until it answers.
func Launch(ctx context.Context, o Options) (*Browser, error) {
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
	b := &Browser{ended: make(chan struct{}), pages: map[string]*Page{}}
	b.process = exec.Command(path, append(append([]string{"--user-data-dir=" + o.Profile}, flags...), o.Flags...)...)
	b.process.ExtraFiles = []*os.File{theirIn, theirOut}
	b.process.Stderr = &b.said
	if o.Home != "" {
		b.process.Env = append(os.Environ(), "HOME="+o.Home)
	}
	process.OwnGroup(b.process)
	if err := b.process.Start(); err != nil {
		return nil, fmt.Errorf("start %s: %w", path, err)
	}
	theirIn.Close()
	theirOut.Close()
	b.pipe = newPipe(ourIn, ourOut, b.event)
	go func() {
		b.process.Wait()
		ourIn.Close()
		ourOut.Close()
		close(b.ended)
	}()
	if err := b.pipe.call(ctx, "", "Browser.getVersion", struct{}{}, nil); err != nil {
		b.Kill()
		return nil, fmt.Errorf("%s does not answer: %w\n%s", path, err, b.said.String())
	}
	return b, nil
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

// Kill ends the browser at once, as when the phone's battery falls out, and
// returns when it is gone.
func (b *Browser) Kill() {
	select {
	case <-b.ended: // its number may belong to another by now
	default:
		process.KillGroup(b.process)
		<-b.ended
	}
}

// Close asks the browser to end in good order, and kills it if it does not
// before the context ends.
func (b *Browser) Close(ctx context.Context) {
	b.pipe.call(ctx, "", "Browser.close", struct{}{}, nil)
	select {
	case <-b.ended:
	case <-ctx.Done():
		b.Kill()
	}
}

// Grant gives every page of an origin permissions that a person would be asked
// for, by their names in the protocol, like "notifications" or "audioCapture".
func (b *Browser) Grant(ctx context.Context, origin string, permissions ...string) error {
	return b.pipe.call(ctx, "", "Browser.grantPermissions", map[string]any{"origin": origin, "permissions": permissions}, nil)
}

// Throttle makes the whole browser, its workers included, that many times
// slower until the returned function is called.
func (b *Browser) Throttle(times float64) (end func()) {
	if times <= 1 {
		return func() {}
	}
	return process.SlowGroup(b.process, times)
}
