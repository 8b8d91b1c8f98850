package main

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"kerfside/cmd/internal/load"
	"kerfside/cmd/internal/process"
)

// comparator is a general-purpose document-sync server that runs beside ours,
// with its files on the same disk. It does not wait for the disk before it
// acknowledges; ours does.
type comparator struct {
	*load.Documents
	dir    string
	server *exec.Cmd
	said   bytes.Buffer
	ended  chan struct{}
}

// startComparator installs and starts it with an empty database.
func startComparator(ctx context.Context) (*comparator, error) {
	if err := npmInstall(otherTools); err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "kerfside-comparator-")
	if err != nil {
		return nil, err
	}
	c := &comparator{dir: dir, ended: make(chan struct{})}
	if err := c.start(ctx); err != nil {
		c.stop()
		return nil, fmt.Errorf("%w\n%s", err, indent(c.said.String()))
	}
	return c, nil
}

func (c *comparator) start(ctx context.Context) error {
	addr, err := freeAddr()
	if err != nil {
		return err
	}
	program, err := filepath.Abs(npmTool(otherTools, "pouchdb-server", "bin", "pouchdb-server"))
	if err != nil {
		return err
	}
	_, port, err := net.SplitHostPort(addr)
	if err != nil {
		return err
	}
	c.server = exec.Command("node", program, "--port", port, "--dir", c.dir, "--no-stdout-logs")
	c.server.Dir, c.server.Stdout, c.server.Stderr = c.dir, &c.said, &c.said
	process.OwnGroup(c.server)
	process.EndWithUs(c.server)
	if err := c.server.Start(); err != nil {
		return err
	}
	go func() {
		c.server.Wait()
		close(c.ended)
	}()
	limit := time.After(30 * time.Second)
	for {
		if c.Documents, err = load.NewDocuments(ctx, "http://"+addr, "journal"); err == nil {
			return nil
		}
		select {
		case <-c.ended:
			return fmt.Errorf("the comparator has ended")
		case <-ctx.Done():
			return ctx.Err()
		case <-limit:
			return fmt.Errorf("the comparator does not answer: %w", err)
		case <-time.After(50 * time.Millisecond):
		}
	}
}

// stop ends the comparator and removes its files.
func (c *comparator) stop() {
	if c.server != nil && c.server.Process != nil {
		process.KillGroup(c.server)
		<-c.ended
	}
	os.RemoveAll(c.dir)
}
