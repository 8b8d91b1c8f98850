package browser

import (
	"bufio"
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"kerfside/cmd/internal/process"
)

// webkitPrograms are what a WebKit takes: the driver, a screen that nobody sees,
// and what runs the window.
var webkitPrograms = []string{"WebKitWebDriver", "Xvfb", "gjs"}

// FindWebKit says whether a WebKit can be driven here.
func FindWebKit() error {
	err := lookWebKit()
	if err == nil {
		err = exec.Command("gjs", "-c", `imports.gi.versions.WebKit2 = "4.1"; imports.gi.WebKit2`).Run()
	}
	if err != nil {
		return fmt.Errorf("no WebKit can be driven here (go run ./cmd/dev test -long installs it on Debian): %w", err)
	}
	return nil
}

// lookWebKit looks for the programs alone.
func lookWebKit() error {
	var missing []error
	for _, name := range webkitPrograms {
		_, err := exec.LookPath(name)
		missing = append(missing, err)
	}
	return errors.Join(missing...)
}

//go:embed webkit_window.js
var webkitWindow []byte

// webkit is a WebKitGTK that is driven by WebDriver over HTTP.
type webkit struct {
	program *program // the driver's
	url     string   // of the session
	look    string   // path of the file that its windows take their look from

	preloads  string        // path of the file of scripts that its windows run in each document before others
	scripts   string        // what stands there
	preloaded chan struct{} // they have it

	mu     sync.Mutex
	window string // the one that commands go to
	tabs   []*webkitTab
	free   string // the window that it started with, until it is taken
}

// launchWebKit starts a WebKit on its profile, on a screen of its own.
func launchWebKit(ctx context.Context, b *Browser, o Options) (driver, error) {
	if err := lookWebKit(); err != nil {
		return nil, fmt.Errorf("no WebKit can be driven here (go run ./cmd/dev test -long installs it on Debian): %w", err)
	}
	profile, err := filepath.Abs(o.Profile)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(profile, 0o700); err != nil {
		return nil, err
	}
	k := &webkit{look: filepath.Join(profile, "look"), preloads: filepath.Join(profile, "preload"), preloaded: make(chan struct{}, 1)}
	script := filepath.Join(profile, "window.js")
	if err := errors.Join(os.WriteFile(script, webkitWindow, 0o600), k.setLook("light reduce"), put(k.preloads, "")); err != nil {
		return nil, err
	}
	port := process.OwnPort()
	cmd := exec.Command(webkitPrograms[0], fmt.Sprintf("--port=%d", port))
	said, theirs, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer theirs.Close()
	cmd.Stdout, cmd.Stderr = theirs, theirs
	display, err := b.startScreen()
	if err != nil {
		return nil, err
	}
	cmd.Env = append(os.Environ(), "DISPLAY="+display, "GDK_BACKEND=x11", "NO_AT_BRIDGE=1", "GSETTINGS_BACKEND=memory", "GTK_USE_PORTAL=0",
		"XDG_DATA_HOME="+profile, "XDG_CACHE_HOME="+profile, "XDG_CONFIG_HOME="+profile)
	if k.program, err = b.start(cmd); err != nil {
		return nil, err
	}
	// The screen ends last.
	b.programs[0], b.programs[1] = b.programs[1], b.programs[0]
	go k.listen(said)
	return k, k.begin(ctx, fmt.Sprintf("http://127.0.0.1:%d", port), script, profile)
}

// startScreen starts an X server without a screen, and returns its name.
func (b *Browser) startScreen() (string, error) {
	number, theirs, err := os.Pipe()
	if err != nil {
		return "", err
	}
	defer number.Close()
	cmd := exec.Command(webkitPrograms[1], "-displayfd", "3", "-screen", "0", "1280x1280x24", "-nolisten", "tcp", "-nocursor")
	cmd.ExtraFiles = []*os.File{theirs}
	_, err = b.start(cmd)
	theirs.Close()
	if err != nil {
		return "", err
	}
	line, err := bufio.NewReader(number).ReadString('\n')
	if err != nil {
		return "", fmt.Errorf("no screen of Xvfb: %w", err)
	}
	return ":" + strings.TrimSpace(line), nil
}

// begin waits until the driver answers and has it open a window.
func (k *webkit) begin(ctx context.Context, driver, script, profile string) error {
	k.url = driver
	err := until(ctx, "WebKitWebDriver to answer", func() (bool, error) {
		select {
		case <-k.program.ended:
			return false, errors.New("WebKitWebDriver has ended")
		default:
		}
		return k.send(ctx, "GET", "/status", nil, nil) == nil, nil
	})
	if err != nil {
		return err
	}
	gjs, err := exec.LookPath(webkitPrograms[2])
	if err != nil {
		return err
	}
	var session struct{ SessionID string }
	err = k.send(ctx, "POST", "/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"webkitgtk:browserOptions": map[string]any{"binary": gjs, "args": []string{script, profile}},
		"unhandledPromptBehavior":  "ignore",
		"timeouts":                 map[string]any{"script": nil},
	}}}, &session)
	if err != nil {
		return err
	}
	k.url += "/session/" + session.SessionID
	if err := k.send(ctx, "GET", "/window", nil, &k.free); err != nil {
		return err
	}
	k.window = k.free
	return nil
}

// send makes one request of the driver and decodes its value into result unless
// that is nil.
func (k *webkit) send(ctx context.Context, method, path string, body, result any) error {
	var text io.Reader
	if method == "POST" {
		if body == nil {
			body = struct{}{}
		}
		data, err := json.Marshal(body)
		if err != nil {
			return err
		}
		text = bytes.NewReader(data)
	}
	request, err := http.NewRequestWithContext(ctx, method, k.url+path, text)
	if err != nil {
		return err
	}
	reply, err := http.DefaultClient.Do(request)
	if err != nil {
		if ctx.Err() != nil {
			return fmt.Errorf("%s: %w", path, ctx.Err())
		}
		return fmt.Errorf("%s: %w: %w", path, errGone, err)
	}
	defer reply.Body.Close()
	var got struct{ Value json.RawMessage }
	if err := json.NewDecoder(reply.Body).Decode(&got); err != nil {
		return fmt.Errorf("%s: %w: %w", path, errGone, err)
	}
	if reply.StatusCode != http.StatusOK {
		var no struct{ Error, Message string }
		if err := json.Unmarshal(got.Value, &no); err != nil {
			return err
		}
		return fmt.Errorf("%s: %w", path, &refusal{strings.TrimSpace(no.Error + " " + no.Message)})
	}
	if result == nil {
		return nil
	}
	return json.Unmarshal(got.Value, result)
}

func (k *webkit) quit(ctx context.Context) {
	k.send(ctx, "DELETE", "", nil, nil) // the window goes with its session, the driver stays
	k.program.cmd.Process.Signal(os.Interrupt)
}

func (k *webkit) open(ctx context.Context, p *Page) (tab, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	made := struct{ Handle string }{k.free}
	k.free = ""
	if made.Handle == "" {
		if err := k.send(ctx, "POST", "/window/new", map[string]string{"type": "window"}, &made); err != nil {
			return nil, err
		}
	}
	t := &webkitTab{webkit: k, page: p, handle: made.Handle}
	k.tabs = append(k.tabs, t)
	return t, nil
}

// consoleLine is how WebKit prints an error: its source, if it is not the console
// itself, and the words.
var consoleLine = regexp.MustCompile(`CONSOLE (?:([A-Z]+) )?ERROR (.*)`)

// noFault is what WebKit prints of a directive that it does not know yet.
const noFault = "Unrecognized Content-Security-Policy directive"

// turnLine is what a document of a window prints as it begins and as it is left.
var turnLine = regexp.MustCompile(`CONSOLE LOG (window \d+) (begins|is left)$`)

// cutOff is what WebKit prints of what was still loading, or began to, as its page
// was left: answers, a worker and the modules that it imports. Otherwise it is a fault.
var cutOff = regexp.MustCompile(`annot load .* due to access control checks|CONSOLE JS ERROR Importing a module script failed`)

// console reads what the windows print.
type console struct {
	leaving map[string]bool // windows whose next document has not begun
}

// fault returns the fault that a line tells of, if it does.
func (c *console) fault(line string) (f Fault, ok bool) {
	if turn := turnLine.FindStringSubmatch(line); turn != nil {
		c.leaving[turn[1]] = turn[2] == "is left"
		return Fault{}, false
	}
	isLeaving := false
	for _, is := range c.leaving {
		isLeaving = isLeaving || is
	}
	m := consoleLine.FindStringSubmatch(line)
	switch {
	case line == "CRASHED":
		return Fault{"crash", ErrCrashed.Error()}, true
	case m == nil, strings.Contains(line, noFault), isLeaving && cutOff.MatchString(line):
		return Fault{}, false
	case m[1] == "NETWORK":
		return Fault{"network", m[2]}, true
	case m[1] == "JS":
		return Fault{"exception", m[2]}, true
	}
	return Fault{"console", m[2]}, true
}

// listen keeps the errors that the windows print. They do not say of which window
// they are, so they count for the one that was opened last.
func (k *webkit) listen(said *os.File) {
	defer said.Close()
	lines := bufio.NewScanner(said)
	lines.Buffer(nil, 1<<24)
	heard := console{map[string]bool{}}
	for lines.Scan() {
		if lines.Text() == "PRELOADED" {
			k.preloaded <- struct{}{}
			continue
		}
		f, ok := heard.fault(lines.Text())
		k.mu.Lock()
		if ok && len(k.tabs) > 0 {
			k.tabs[len(k.tabs)-1].page.fault(f.Kind, f.Text)
		}
		k.mu.Unlock()
	}
}
