package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"

	"kerfside/cmd/internal/process"
)

// command is a program with its arguments and what is added to its environment.
type command struct {
	env  []string // KEY=VALUE
	dir  string   // "" for the top of the module
	name string
	args []string
}

// cmd returns the command written as a list of words.
func cmd(name string, args ...string) command {
	return command{name: name, args: args}
}

// with returns c with more in its environment.
func (c command) with(env ...string) command {
	c.env = append(append([]string(nil), c.env...), env...)
	return c
}

// in returns c running in that folder.
func (c command) in(dir string) command {
	c.dir = dir
	return c
}

// String returns c as one would type it.
func (c command) String() string {
	return strings.Join(append(append(append([]string(nil), c.env...), c.name), c.args...), " ")
}

// start prepares c without running it. It has no standard input, so that
// nothing can wait for an answer that never comes.
func (c command) start(stdout, stderr io.Writer) *exec.Cmd {
	x := exec.Command(c.name, c.args...)
	x.Dir = c.dir
	x.Env = append(os.Environ(), c.env...)
	x.Stdout, x.Stderr = stdout, stderr
	return x
}

// quiet runs c and shows what it said only if it failed.
func (c command) quiet() error {
	var said bytes.Buffer
	if err := c.start(&said, &said).Run(); err != nil {
		return fail(fmt.Sprintf("%s: %v\n%s", c, err, indent(said.String())), "Mend what it names above and run the task again.")
	}
	return nil
}

// loud runs c and shows what it says as it says it.
func (c command) loud() error {
	if err := c.start(os.Stdout, os.Stderr).Run(); err != nil {
		return fail(fmt.Sprintf("%s: %v", c, err), "Read what it said above.")
	}
	return nil
}

// loudUntil is loud, and also writes what c says into copy. When ctx ends, so do c and
// all that it started.
func (c command) loudUntil(ctx context.Context, copy io.Writer) error {
	x := c.start(io.MultiWriter(os.Stdout, copy), os.Stderr)
	process.OwnGroup(x)
	process.EndWithUs(x)
	if err := x.Start(); err != nil {
		return fail(fmt.Sprintf("%s: %v", c, err), "")
	}
	defer context.AfterFunc(ctx, func() { process.KillGroup(x) })()
	err := x.Wait()
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if err != nil {
		return fail(fmt.Sprintf("%s: %v", c, err), "Read what it said above.")
	}
	return nil
}

// output runs c and returns what it wrote to its standard output.
func (c command) output() (string, error) {
	var out, said bytes.Buffer
	if err := c.start(&out, &said).Run(); err != nil {
		return out.String(), fail(fmt.Sprintf("%s: %v\n%s", c, err, indent(said.String()+out.String())), "Mend what it names above and run the task again.")
	}
	return out.String(), nil
}

// indent sets every line of s in by four spaces.
func indent(s string) string {
	s = strings.TrimRight(s, "\n")
	if s == "" {
		return ""
	}
	return "    " + strings.ReplaceAll(s, "\n", "\n    ")
}

// heading announces a piece of work.
func heading(format string, args ...any) {
	fmt.Printf("\n== "+format+"\n", args...)
}

// say prints one line under a heading.
func say(format string, args ...any) {
	fmt.Printf("   "+format+"\n", args...)
}
