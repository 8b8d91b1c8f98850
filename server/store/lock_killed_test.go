package store_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/server/store"
)

// lockPath names the store whose lock a child holds until it is killed.
const lockPath = "KERFSIDE_LOCK_STORE"

func init() { children = append(children, holdLock) }

// holdLock is the child of TestLockOfTheKilled.
func holdLock() bool {
	path := os.Getenv(lockPath)
	if path == "" {
		return false
	}
	_, err := store.Lock(path)
	fmt.Println("held", err)
	select {}
}

// TestLockOfTheKilled: nobody takes the lock while another process holds it, and
// anybody does once that was killed.
func TestLockOfTheKilled(t *testing.T) {
	dir, err := os.MkdirTemp("", "lock-")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "journal.db")
	defer func() { // one by one: Wine, in which this runs as well, cannot do what RemoveAll asks of Windows
		if err := errors.Join(os.Remove(path+".lock"), os.Remove(dir)); err != nil {
			t.Error(err)
		}
	}()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), lockPath+"="+path)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if strings.TrimSpace(line) != "held <nil>" {
		t.Errorf("the child says %q, %v", line, err)
	}
	if lock, err := store.Lock(path); !errors.Is(err, store.ErrInUse) {
		t.Errorf("a second process gets %v, %v, want that it is in use", lock, err)
	}
	if err := child.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	child.Wait() // says that it was killed
	lock, err := store.Lock(path)
	if err != nil {
		t.Fatalf("the holder was killed, and still %v", err)
	}
	if err := lock.Close(); err != nil {
		t.Error(err)
	}
}
