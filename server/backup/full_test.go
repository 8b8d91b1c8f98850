//go:build unix

package backup_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"kerfside/server/backup"
	"kerfside/server/store/storetest"
)

// backupPath names the store that a child of TestBackupOnAFullDisk copies.
const backupPath = "KERFSIDE_BACKUP_STORE"

// TestMain lets the test program be that child.
func TestMain(m *testing.M) {
	path := os.Getenv(backupPath)
	if path == "" {
		os.Exit(m.Run())
	}
	most, err := strconv.ParseUint(os.Getenv(backupPath+"_MOST"), 10, 63)
	if err != nil {
		panic(err)
	}
	backUp(path, most)
}

// backUp makes a backup with no file allowed to grow beyond so many bytes, which
// is how a full disk looks to it.
func backUp(path string, most uint64) {
	signal.Ignore(syscall.SIGXFSZ)
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: most, Max: most}); err != nil {
		fmt.Println("no limit:", err)
		return
	}
	if _, err := backup.Make(context.Background(), path, path+".copies", night); err != nil {
		fmt.Println("refused:", err)
		return
	}
	fmt.Println("made")
}

// TestBackupOnAFullDisk lets the disk run out at ten places of the copy: each
// time it says so, leaves nothing, and the store is as it was.
func TestBackupOnAFullDisk(t *testing.T) {
	s, path, _ := storetest.Filled(t, 2000)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	whole := uint64(info.Size()) + 4<<20 // the log may grow a little beside it
	for i := range 11 {
		most := uint64(40<<10 + i*36<<10)
		if i == 10 {
			most = whole
		}
		copier := exec.Command(os.Args[0])
		copier.Env = append(os.Environ(), backupPath+"="+path, fmt.Sprintf("%s_MOST=%d", backupPath, most))
		out, err := copier.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		left, err := os.ReadDir(path + ".copies")
		if err != nil {
			t.Fatal(err)
		}
		if i == 10 {
			if len(left) != 2 || !strings.HasPrefix(string(out), "made") { // the copy and the folder of pictures
				t.Errorf("with room it leaves %v: %s", left, out)
			}
			continue
		}
		if len(left) != 0 || !strings.Contains(string(out), "room for another copy") {
			t.Errorf("with %d bytes it leaves %v: %s", most, left, out)
		}
	}
	if _, err := s.Append(t.Context(), storetest.Batch(t, "afterw", 3)); err != nil {
		t.Error(err)
	}
	if _, err := backup.Make(t.Context(), path, filepath.Join(t.TempDir(), "more"), night); err != nil {
		t.Error(err)
	}
}
