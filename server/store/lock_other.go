//go:build !unix && !windows

package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Lock takes the lock of the store at path by creating a file that must not
// be there. After a crash the file stays and has to be removed by hand; the
// message says so.
func Lock(path string) (io.Closer, error) {
	if InMemory(path) {
		return io.NopCloser(nil), nil // a URI: in memory, or the caller's business
	}
	f, err := os.OpenFile(path+".lock", os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if err != nil {
		if !errors.Is(err, fs.ErrExist) {
			return nil, fmt.Errorf("make the lock beside the store: %w", err)
		}
		return nil, inUse(path, "Stop that one first. If none runs, remove "+path+".lock.", err)
	}
	return lockFile{f}, nil
}

// lockFile removes the lock's file when it is closed.
type lockFile struct{ *os.File }

func (l lockFile) Close() error { return errors.Join(l.File.Close(), os.Remove(l.Name())) }
