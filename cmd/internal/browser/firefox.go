package browser

import (
	"bufio"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"

	"github.com/coder/websocket"
)

// firefoxNames are the programs that are Firefox, best first.
var firefoxNames = []string{"firefox-esr", "firefox"}

// FindFirefox returns the path of a Firefox.
func FindFirefox() (string, error) {
	var tried []error
	for _, name := range firefoxNames {
		path, err := exec.LookPath(name)
		if err == nil {
			return path, nil
		}
		tried = append(tried, err)
	}
	return "", fmt.Errorf("no Firefox here (go run ./cmd/dev test -long installs it on Debian): %w", errors.Join(tried...))
}

// firefoxPrefs is what every Firefox gets: a phone's glass, nothing that calls
// home or asks, and pages as they would be for a person.
//
//go:embed firefox_prefs.js
var firefoxPrefs []byte

// firefox is a Firefox that is driven by WebDriver BiDi.
type firefox struct {
	wire   *wire
	chrome string // the browser's own window, where its settings can be changed

	mu   sync.Mutex
	tabs map[string]*firefoxTab // by context
	free string                 // the tab that it started with, until it is taken
}

// launchFirefox starts a Firefox on its profile.
func launchFirefox(ctx context.Context, b *Browser, o Options) (driver, error) {
	path, err := FindFirefox()
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(o.Profile, 0o700); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(o.Profile, "user.js"), firefoxPrefs, 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command(path, "--headless", "--no-remote", "--profile", o.Profile, "--remote-debugging-port=0", "--remote-allow-system-access")
	cmd.Env = append(os.Environ(), "MOZ_CRASHREPORTER_DISABLE=1", "MOZ_DISABLE_AUTO_SAFE_MODE=1")
	said, theirs, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	cmd.Stderr = theirs
	_, err = b.start(cmd)
	theirs.Close()
	if err != nil {
		said.Close()
		return nil, err
	}
	url, err := listening(ctx, said)
	if err != nil {
		return nil, fmt.Errorf("%s does not listen: %w", path, err)
	}
	conn, _, err := websocket.Dial(ctx, url+"/session", nil)
	if err != nil {
		return nil, err
	}
	conn.SetReadLimit(-1)
	f := &firefox{tabs: map[string]*firefoxTab{}}
	f.wire = newWire(socket{conn}, f.event)
	return f, f.begin(ctx)
}

// listening reads what Firefox says until it names the address where it listens,
// and leaves a reader behind so that it can go on to talk.
func listening(ctx context.Context, said *os.File) (string, error) {
	found := make(chan string, 1)
	go func() {
		defer said.Close()
		defer close(found)
		lines := bufio.NewReader(said)
		var all strings.Builder
		for {
			line, err := lines.ReadString('\n')
			if _, url, ok := strings.Cut(line, "WebDriver BiDi listening on "); ok {
				found <- strings.TrimSpace(url)
				io.Copy(io.Discard, lines)
				return
			}
			all.WriteString(line)
			if err != nil {
				found <- all.String()
				return
			}
		}
	}()
	select {
	case line := <-found:
		if !strings.HasPrefix(line, "ws://") {
			return "", errors.New("it has ended: " + line)
		}
		return line, nil
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

// socket carries texts over a WebSocket.
type socket struct{ conn *websocket.Conn }

func (s socket) send(text []byte) error {
	return s.conn.Write(context.Background(), websocket.MessageText, text)
}

func (s socket) receive() ([]byte, error) {
	_, text, err := s.conn.Read(context.Background())
	return text, err
}

func (s socket) Close() error { return s.conn.CloseNow() }

// context is the name of a tab or window.
type bidiContext struct {
	Context string `json:"context"`
}

// begin opens the session and asks for the events that event handles.
func (f *firefox) begin(ctx context.Context) error {
	err := f.call(ctx, "session.new", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"unhandledPromptBehavior": map[string]any{"default": "ignore"},
	}}}, nil)
	if err != nil {
		return err
	}
	err = f.call(ctx, "session.subscribe", map[string]any{"events": []string{
		"log.entryAdded", "browsingContext.userPromptOpened", "network.fetchError", "network.responseCompleted",
	}}, nil)
	if err != nil {
		return err
	}
	var tree struct{ Contexts []bidiContext }
	if err := f.call(ctx, "browsingContext.getTree", map[string]any{"moz:scope": "chrome"}, &tree); err != nil {
		return err
	}
	if len(tree.Contexts) == 0 {
		return errors.New("no window of Firefox is there")
	}
	f.chrome = tree.Contexts[0].Context
	if err := f.call(ctx, "browsingContext.getTree", struct{}{}, &tree); err != nil {
		return err
	}
	if len(tree.Contexts) > 0 {
		f.free = tree.Contexts[0].Context
	}
	return nil
}

// call sends a command.
func (f *firefox) call(ctx context.Context, method string, params, result any) error {
	return f.wire.call(ctx, "", method, params, result)
}

func (f *firefox) quit(ctx context.Context) { f.call(ctx, "browser.close", struct{}{}, nil) }

func (f *firefox) open(ctx context.Context, p *Page) (tab, error) {
	f.mu.Lock()
	at := bidiContext{f.free}
	f.free = ""
	f.mu.Unlock()
	if at.Context == "" {
		if err := f.call(ctx, "browsingContext.create", map[string]any{"type": "tab"}, &at); err != nil {
			return nil, err
		}
	}
	t := &firefoxTab{firefox: f, page: p, context: at.Context}
	f.mu.Lock()
	f.tabs[t.context] = t
	f.mu.Unlock()
	return t, t.front(ctx)
}

// event keeps what is needed of an event. It runs on the reader of the wire.
func (f *firefox) event(m message) {
	var e struct {
		Context string
		Source  struct{ Context string }

		Level, Type, Method, Text string // log

		Message string // dialog

		Request   struct{ URL string }
		Response  struct{ Status int }
		ErrorText string
	}
	if json.Unmarshal(m.Params, &e) != nil {
		return
	}
	if e.Context == "" {
		e.Context = e.Source.Context
	}
	f.mu.Lock()
	t := f.tabs[e.Context]
	f.mu.Unlock()
	if t == nil {
		return
	}
	switch m.Method {
	case "log.entryAdded":
		switch {
		case e.Level != "error", strings.Contains(e.Text, "A ServiceWorker intercepted the request and encountered an unexpected error"):
			// The latter is said of files that were on their way as their page or worker
			// was left; one that is really missing is told by who asked for it.
		case e.Type == "console":
			t.page.fault("console", e.Text)
		default:
			t.page.fault("exception", e.Text)
		}
	case "browsingContext.userPromptOpened":
		if e.Type != "beforeunload" {
			t.page.fault("dialog", e.Type+": "+e.Message)
		}
		// A dialog would hold up everything.
		go f.call(context.Background(), "browsingContext.handleUserPrompt", map[string]any{"context": t.context, "accept": true}, nil)
	case "network.fetchError":
		// A request that was still under way as its page or worker was ended is no
		// fault. The page ends its worker before it is left too, so that no time of
		// leaving bounds this.
		if !strings.Contains(e.ErrorText, "ABORT") && e.ErrorText != "NS_BASE_STREAM_CLOSED" {
			t.page.fault("unreachable", e.ErrorText+" "+e.Request.URL)
		}
	case "network.responseCompleted":
		if e.Response.Status >= 400 {
			t.page.fault("network", fmt.Sprintf("status %d %s", e.Response.Status, e.Request.URL))
		}
	}
}
