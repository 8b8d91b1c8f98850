package main

import (
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"kerfside/cmd/internal/process"
)

// release is a stripped binary that runs on a port and a database of its own,
// to be measured.
type release struct {
	url    string // without a stroke at the end
	binary string
	dir    string
	server *exec.Cmd
}

// startRelease builds the binary into a folder that goes away with stop,
// starts it and waits until it answers.
func startRelease() (*release, error) {
	dir, err := os.MkdirTemp("", "kerfside-release-")
	if err != nil {
		return nil, err
	}
	r := &release{dir: dir, binary: filepath.Join(dir, "kerfside")}
	if err := r.start(); err != nil {
		r.stop()
		return nil, err
	}
	return r, nil
}

func (r *release) start() error {
	if err := buildBinary(r.binary); err != nil {
		return err
	}
	addr, err := freeAddr()
	if err != nil {
		return err
	}
	r.url = "http://" + addr
	server := exec.Command(r.binary, "serve", "-addr", addr, "-db", filepath.Join(r.dir, serveDB))
	process.OwnGroup(server)
	if err := server.Start(); err != nil {
		return err
	}
	r.server = server
	return r.answers()
}

// stop ends the server in good order and removes its folder.
func (r *release) stop() {
	if r.server != nil {
		r.server.Process.Signal(os.Interrupt)
		r.server.Wait()
	}
	os.RemoveAll(r.dir)
}

// answers waits until the server answers, for ten seconds at most.
func (r *release) answers() error {
	var last error
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		reply, err := http.Get(r.url + "/")
		if err == nil {
			return reply.Body.Close()
		}
		last = err
	}
	return fmt.Errorf("the server does not answer: %w", last)
}

// freeAddr returns a loopback address that nothing listens on.
func freeAddr() (string, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", err
	}
	defer l.Close()
	return l.Addr().String(), nil
}
