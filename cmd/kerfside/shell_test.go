package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"kerfside/cmd/internal/process"
)

// shell runs the blocks of the pages of /help as a person would: with sh, in a
// folder of their own, with the program of these sources as kerfside in the path.
type shell struct {
	dir string
	env []string
}

// buildFolder holds the program while the tests run.
var buildFolder string

func TestMain(m *testing.M) {
	status := m.Run()
	if buildFolder != "" {
		os.RemoveAll(buildFolder)
	}
	os.Exit(status)
}

// built is the program, built once for all tests that need it as a process.
var built = sync.OnceValues(func() (path string, err error) {
	if buildFolder, err = os.MkdirTemp("", "kerfside-built-"); err != nil {
		return "", err
	}
	path = filepath.Join(buildFolder, "kerfside")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return path, nil
})

// newShell makes a folder to work in. more stands behind the words of each
// kerfside VERB: where to listen, so that a test needs no port that others have.
func newShell(t *testing.T, more map[string]string) *shell {
	t.Helper()
	program, err := built()
	if err != nil {
		t.Fatal(err)
	}
	s := &shell{dir: t.TempDir()}
	bin := t.TempDir()
	script := "#!/bin/sh\ncase \"$1\" in\n"
	for verb, words := range more {
		script += fmt.Sprintf("%s) set -- \"$@\" %s;;\n", verb, words)
	}
	script += "esac\nexec " + program + " \"$@\"\n"
	if err := os.WriteFile(filepath.Join(bin, "kerfside"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	s.env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"), "HOME="+s.dir)
	return s
}

func (s *shell) command(text string) *exec.Cmd {
	c := exec.Command("sh", "-eu", "-c", text)
	c.Dir, c.Env = s.dir, s.env
	return c
}

// run runs a block that ends by itself and returns what it prints.
func (s *shell) run(t *testing.T, text string) string {
	t.Helper()
	out, err := s.command(text).CombinedOutput()
	if err != nil {
		t.Fatalf("%v from\n%s\n%s", err, text, out)
	}
	return string(out)
}

// serve runs a block whose last line goes on until it is stopped. It returns what
// ready found in what that prints, and how to stop it, as Ctrl-C does.
func (s *shell) serve(t *testing.T, text string, ready *regexp.Regexp) (found []string, stop func()) {
	t.Helper()
	w := &watched{want: ready, found: make(chan []string, 1)}
	text = strings.TrimSpace(text)
	last := strings.LastIndex(text, "\n") + 1
	c := s.command(text[:last] + "exec " + text[last:])
	c.Stdout, c.Stderr = w, w
	process.OwnGroup(c)
	process.EndWithUs(c)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	var once sync.Once
	stop = func() {
		once.Do(func() {
			c.Process.Signal(os.Interrupt) // if it has ended, that shows below
			if err := <-ended; err != nil {
				t.Errorf("stopped, it ended with %v after\n%s", err, w)
			}
		})
	}
	select {
	case found = <-w.found:
		t.Cleanup(stop)
		return found, stop
	case err := <-ended:
		t.Fatalf("it ended with %v after\n%s", err, w)
		return nil, nil
	}
}

// watched keeps what is written, and tells when it first matches.
type watched struct {
	want  *regexp.Regexp
	found chan []string
	mu    sync.Mutex
	text  bytes.Buffer
	told  bool
}

func (w *watched) Write(b []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.text.Write(b)
	if m := w.want.FindStringSubmatch(w.text.String()); m != nil && !w.told {
		w.told = true
		w.found <- m
	}
	return len(b), nil
}

func (w *watched) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return strings.TrimSpace(w.text.String())
}
