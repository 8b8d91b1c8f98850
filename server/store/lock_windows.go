package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"syscall"
	"unsafe"
)

// lockFileEx is a call of Windows that package syscall does not have.
var lockFileEx = syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")

// What LockFileEx is told and answers, by the names of Windows.
const (
	lockfileFailImmediately = 1
	lockfileExclusiveLock   = 2
	errorLockViolation      = syscall.Errno(33)
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
	var at syscall.Overlapped // the first byte
	got, _, err := lockFileEx.Call(f.Fd(), lockfileExclusiveLock|lockfileFailImmediately, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	if got == 0 {
		f.Close()
		if !errors.Is(err, errorLockViolation) {
			return nil, fmt.Errorf("lock the store: %w", err)
		}
		return nil, inUse(path, "Stop that one first, or name another file with -db.", err)
	}
	return f, nil // closing lets go
}
