package main

import (
	"bytes"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"kerfside/cmd/internal/process"
)

// instance is a stripped binary that runs on a port and a database of its own,
// to be measured.
type instance struct {
	url    string // without a stroke at the end
	addr   string
	binary string
	dir    string
	server *exec.Cmd
	said   bytes.Buffer  // its output, to be read after it has ended
	ended  chan struct{} // closed when it has
}

// startInstance builds the binary into a folder that goes away with stop,
// starts it and waits until it answers.
func startInstance() (*instance, error) {
	dir, err := os.MkdirTemp("", "kerfside-release-")
	if err != nil {
		return nil, err
	}
	r := &instance{dir: dir, binary: filepath.Join(dir, "kerfside")}
	if err := r.start(); err != nil {
		r.stop()
		return nil, err
	}
	return r, nil
}

func (r *instance) start() error {
	if err := buildBinary(r.binary); err != nil {
		return err
	}
	addr, err := freeAddr()
	if err != nil {
		return err
	}
	r.url, r.addr = "http://"+addr, addr
	if err := r.launch(); err != nil {
		return err
	}
	return r.answers()
}

// db is the file of the release's database.
func (r *instance) db() string { return filepath.Join(r.dir, serveDB) }

// launch starts the binary, which does not answer yet.
func (r *instance) launch() error {
	server := exec.Command(r.binary, "serve", "-addr", r.addr, "-db", r.db())
	server.Stdout, server.Stderr = &r.said, &r.said
	process.OwnGroup(server)
	process.EndWithUs(server)
	if err := server.Start(); err != nil {
		return err
	}
	r.server, r.ended = server, make(chan struct{})
	go func() {
		server.Wait()
		close(r.ended)
	}()
	return nil
}

// restart kills the server in the middle of what it does, starts it again and
// returns the time from the kill until it answers.
func (r *instance) restart() (time.Duration, error) {
	began := time.Now()
	if err := r.server.Process.Kill(); err != nil {
		return 0, err
	}
	<-r.ended
	if err := r.launch(); err != nil {
		return 0, err
	}
	err := r.answers()
	return time.Since(began), err
}

// stop ends the server in good order and removes its folder.
func (r *instance) stop() {
	if r.server != nil {
		r.server.Process.Signal(os.Interrupt)
		<-r.ended
	}
	os.RemoveAll(r.dir)
}

// answers waits until the server answers, for ten seconds at most.
func (r *instance) answers() error {
	limit := time.After(10 * time.Second)
	for {
		reply, err := http.Get(r.url + "/api/status")
		if err == nil {
			return reply.Body.Close()
		}
		select {
		case <-r.ended:
			return fmt.Errorf("the server has ended:\n%s", indent(r.said.String()))
		case <-limit:
			return fmt.Errorf("the server does not answer: %w", err)
		case <-time.After(2 * time.Millisecond):
		}
	}
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
