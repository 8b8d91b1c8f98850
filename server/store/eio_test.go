package store_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// Environment of TestFailingWrites' children; testdata/eio.c reads it too.
const (
	eioFile = "KERFSIDE_EIO_FILE"
	eioAt   = "KERFSIDE_EIO_AT"
)

func init() {
	children = append(children, func() bool {
		path := os.Getenv(eioFile)
		if path == "" || os.Getenv(upgradePath) != "" {
			return false
		}
		fillFailing(path)
		return true
	})
}

// fillFailing opens, appends and closes in turn until a write has failed, and
// prints each id once it is acknowledged. A failure that only hinders a close or
// a checkpoint concerns nobody: the log still holds everything.
func fillFailing(path string) {
	happened := func() bool { _, err := os.Stat(path + ".eio"); return err == nil }
	for round := 0; ; round++ {
		fatal := make(chan error, 1)
		s, err := store.Open(path, store.Options{Crew: storetest.Crew, OnFatal: func(err error) { fatal <- err }})
		if err != nil {
			fmt.Println("end open", err)
			return
		}
		for i := range 4 {
			acks, err := s.Append(context.Background(), storetest.Batch(&testing.T{}, fmt.Sprintf("%03d%03d", round, i), 20))
			if err != nil {
				if problem.KindOf(err) == problem.Busy && s.Refuses() == "disk" {
					fmt.Println("end append:", <-fatal)
				}
				_, err := s.Append(context.Background(), storetest.Batch(&testing.T{}, "later0", 1))
				fmt.Println("later", problem.KindOf(err))
				if round%2 == 0 {
					s.Close() // as the server tries to; else as if it had not come to that
				}
				return
			}
			for _, a := range acks {
				fmt.Println("ack", a.ID, a.N)
			}
		}
		over := happened()
		s.Close()
		if over {
			fmt.Println("end quiet")
			return
		}
	}
}

// TestFailingWrites lets the disk refuse the first write or flush of a child that
// makes or fills a store, or the second, and so on: the child is told and stops by itself, and
// as the store is opened afresh the file is sound and every event that was
// acknowledged is there under its number.
func TestFailingWrites(t *testing.T) {
	cases := 100
	if os.Getenv("KERFSIDE_LONG") != "" {
		cases = 500
	}
	if testing.Short() {
		cases = 40
	}
	shim := buildShim(t)
	making := cases / 4 // of the cases see the store being made, the others find it made
	made := filepath.Join(t.TempDir(), "made.db")
	storetest.Open(t, made).Close()
	empty, err := os.ReadFile(made)
	if err != nil {
		t.Fatal(err)
	}
	ends, acked := map[string]int{}, 0
	for n := 1; n <= cases; n++ {
		path, at := filepath.Join(t.TempDir(), "yard.db"), n
		if n > making {
			at = n - making
			if err := os.WriteFile(path, empty, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		filler := exec.Command(os.Args[0])
		filler.Env = append(os.Environ(), "LD_PRELOAD="+shim, eioFile+"="+path, fmt.Sprintf("%s=%d", eioAt, at),
			"GORACE=atexit_sleep_ms=0") // under the race detector each would wait a second before it ends
		out, err := filler.CombinedOutput()
		if err != nil {
			t.Fatalf("case %d: %v: %s", n, err, out)
		}
		call, err := os.ReadFile(path + ".eio")
		if err != nil {
			t.Fatalf("case %d: the write never came: %s", n, out)
		}
		there := entries(t, path)
		for _, line := range strings.Split(string(out), "\n") {
			switch word := strings.Fields(line); {
			case len(word) == 3 && word[0] == "ack":
				if acked++; there[word[1]] != word[2] {
					t.Errorf("case %d, %s failed: %s was acknowledged as %s and is at %q", n, call, word[1], word[2], there[word[1]])
				}
			case len(word) > 1 && word[0] == "end":
				ends[word[1]]++
			case len(word) > 0 && (word[0] != "later" || word[1] != string(problem.Busy)):
				t.Errorf("case %d, %s failed: the child says %q", n, call, line)
			}
		}
		if !bytes.Contains(out, []byte("end ")) {
			t.Errorf("case %d, %s failed, and nobody was told: %s", n, call, out)
		}
	}
	if ends["append:"] == 0 || ends["open"] == 0 || acked == 0 {
		t.Errorf("the ends are %v, %d events acknowledged; the test has lost its sense", ends, acked)
	}
	t.Logf("tally: %d writes refused by the disk", cases)
	t.Logf("ended at %v, %d events acknowledged before", ends, acked)
}

// entries opens a store afresh, lets SQLite check it whole, and returns the
// numbers of its events by id.
func entries(t *testing.T, path string) map[string]string {
	t.Helper()
	s := storetest.Open(t, path)
	defer s.Close()
	var verdict string
	if err := storetest.Raw(t, path).QueryRow(`PRAGMA integrity_check`).Scan(&verdict); err != nil || verdict != "ok" {
		t.Errorf("integrity_check: %q, %v", verdict, err)
	}
	rows, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]string{}
	for i, r := range rows {
		if r.N != int64(i+1) {
			t.Errorf("row %d is numbered %d", i+1, r.N)
		}
		there[r.ID] = fmt.Sprint(r.N)
	}
	return there
}

// buildShim compiles testdata/eio.c and returns the library.
func buildShim(t *testing.T) string {
	t.Helper()
	compiler, err := exec.LookPath("cc")
	if err != nil || runtime.GOOS != "linux" {
		if os.Getenv("CI") == "true" {
			t.Fatalf("writes can be made to fail only on Linux with a C compiler: %v", err)
		}
		t.Skipf("NOT TESTED: writes can be made to fail only on Linux with a C compiler: %v", err)
	}
	shim := filepath.Join(t.TempDir(), "eio.so")
	if out, err := exec.Command(compiler, "-shared", "-fPIC", "-O1", "-Wall", "-Werror", "-o", shim, "testdata/eio.c", "-ldl").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return shim
}
