package store_test

import (
	"bufio"
	"context"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// childPath names the store that a child of TestKill fills.
const childPath = "KERFSIDE_KILL_STORE"

// children do the work of other tests' children, and report whether there was any.
var children []func() bool

// TestMain lets the test program be that child, or another test's.
func TestMain(m *testing.M) {
	for _, child := range children {
		if child() {
			return
		}
	}
	if path := os.Getenv(childPath); path != "" {
		fill(path, os.Getenv(childPath+"_ROUND"))
		return
	}
	os.Exit(m.Run())
}

// fill appends until it is killed and prints each id once it is acknowledged.
func fill(path, round string) {
	s, err := store.Open(path, store.Options{Crew: storetest.Crew})
	if err != nil {
		fmt.Println("error", err)
		return
	}
	for i := 0; ; i++ {
		b := storetest.Batch(&testing.T{}, fmt.Sprintf("%s%04d", round, i), 20)
		acks, err := s.Append(context.Background(), b)
		if err != nil {
			fmt.Println("error", err)
			return
		}
		for _, a := range acks {
			fmt.Println("ack", a.ID, a.N)
		}
	}
}

// TestKill kills a process in the midst of its appending, again and again on one
// file: every event that was acknowledged is there under its number, no number
// is missing, and the file passes SQLite's own check.
func TestKill(t *testing.T) {
	rounds := 20
	if os.Getenv("KERFSIDE_LONG") != "" {
		rounds = 200
	}
	if testing.Short() {
		rounds = 3
	}
	if n, err := strconv.Atoi(os.Getenv("KERFSIDE_KILLS")); err == nil {
		rounds = n
	}
	path := filepath.Join(t.TempDir(), "journal.db")
	chance := rand.New(rand.NewPCG(1, 2))
	acked := map[string]string{}
	for round := range rounds {
		if err := killed(path, round, 1+chance.IntN(300), acked); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		s, err := store.Open(path, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		rows, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
		if err != nil {
			t.Fatal(err)
		}
		there := map[string]string{}
		for i, r := range rows {
			if r.N != int64(i+1) {
				t.Fatalf("round %d: row %d is numbered %d", round, i+1, r.N)
			}
			there[r.ID] = fmt.Sprint(r.N)
		}
		for id, n := range acked {
			if there[id] != n {
				t.Fatalf("round %d: %s was acknowledged as %s and is at %q", round, id, n, there[id])
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if len(acked) == 0 {
		t.Fatal("no child acknowledged anything")
	}
	t.Logf("tally: %d stores killed amid writes", rounds)
	t.Logf("tally: %d events acknowledged", len(acked))
	db, err := sql.Open("sqlite3", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	var verdict string
	if err := db.QueryRow(`PRAGMA integrity_check`).Scan(&verdict); err != nil || verdict != "ok" {
		t.Errorf("integrity_check: %q, %v", verdict, err)
	}
}

// killed runs a child and kills it after so many acknowledgements; acked takes
// up what it printed.
func killed(path string, round, after int, acked map[string]string) error {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childPath+"="+path, fmt.Sprintf("%s_ROUND=%02d", childPath, round))
	out, err := child.StdoutPipe()
	if err != nil {
		return err
	}
	child.Stderr = os.Stderr
	if err := child.Start(); err != nil {
		return err
	}
	lines := bufio.NewScanner(out)
	for n := 0; lines.Scan(); {
		word := strings.Fields(lines.Text())
		switch {
		case len(word) == 3 && word[0] == "ack":
			acked[word[1]] = word[2]
			if n++; n == after {
				child.Process.Kill()
			}
		case len(word) > 0 && word[0] == "error":
			child.Process.Kill()
			child.Wait()
			return fmt.Errorf("child: %s", lines.Text())
		}
	}
	child.Wait() // its error says that it was killed
	return nil
}
