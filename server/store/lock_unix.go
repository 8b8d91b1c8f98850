//go:build unix

package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"syscall"
)

// Lock takes the lock of the store at path, so that no second server and no
// restore works on the same file. The lock goes with the process, however that
// ends.
func Lock(path string) (io.Closer, error) {
	if InMemory(path) {
		return io.NopCloser(nil), nil // a URI: in memory, or the caller's business
	}
	f, err := os.OpenFile(path+".lock", os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, fmt.Errorf("open the lock beside the store: %w", err)
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		if !errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, fmt.Errorf("lock the store: %w", err)
		}
		return nil, inUse(path, "Stop that one first, or name another file with -db.", err)
	}
	return heldLock{f}, nil
}

// heldLock lets go before it closes: a child that is just being started shares the
// open file until it is its own program, and closing alone would leave the lock
// with it.
type heldLock struct{ *os.File }

func (l heldLock) Close() error {
	return errors.Join(syscall.Flock(int(l.Fd()), syscall.LOCK_UN), l.File.Close())
}
