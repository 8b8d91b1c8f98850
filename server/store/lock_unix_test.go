//go:build unix

package store

import (
	"path/filepath"
	"syscall"
	"testing"
)

// TestLockLetsGo: once it is closed the lock is free, although a child that is
// being started still shares its file.
func TestLockLetsGo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	lock, err := Lock(path)
	if err != nil {
		t.Fatal(err)
	}
	shared, err := syscall.Dup(int(lock.(heldLock).Fd()))
	if err != nil {
		t.Fatal(err)
	}
	defer syscall.Close(shared)
	if second, err := Lock(path); err == nil {
		second.Close()
		t.Error("two hold the lock at once")
	}
	if err := lock.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Lock(path)
	if err != nil {
		t.Fatalf("closed, and still %v", err)
	}
	again.Close()
}
