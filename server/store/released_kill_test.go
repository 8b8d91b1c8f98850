package store_test

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// upgradePath names the store that a child of TestKilledUpgrade opens.
const upgradePath = "KERFSIDE_UPGRADE_STORE"

func init() {
	children = append(children, func() bool {
		path := os.Getenv(upgradePath)
		if path == "" {
			return false
		}
		s, err := store.Open(path, store.Options{})
		if err == nil {
			err = s.Close()
		}
		fmt.Println("end", err)
		return true
	})
}

// TestKilledUpgrade kills a program that brings a database of v0.1 to today's form
// at its first write or flush, at its second, and so on to the last: each time the
// database holds all that it held, in the former form or in today's and in none
// between, and the next start brings it to today's.
func TestKilledUpgrade(t *testing.T) {
	shim := buildShim(t)
	released := storetest.AllReleased(t, "../..")
	was, today := released[3], fmt.Sprint(len(released))
	step := 1
	if testing.Short() {
		step = 7
	}
	forms := map[string]int{}
	kills := 0
	for at := 1; ; at += step {
		path := was.Unpack(t, t.TempDir())
		before := contents(t, path)
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), "LD_PRELOAD="+shim, upgradePath+"="+path, eioFile+"="+path, fmt.Sprintf("%s=%d", eioAt, at), "KERFSIDE_EIO_KILL=1",
			"GORACE=atexit_sleep_ms=0") // under the race detector each would wait a second before it ends
		out, err := child.CombinedOutput()
		call, _ := os.ReadFile(path + ".eio")
		if err == nil {
			if len(call) > 0 || !strings.Contains(string(out), "end <nil>") {
				t.Fatalf("write %d, %s: it went on: %s", at, call, out)
			}
			break // it has fewer writes
		}
		kills++
		after := contents(t, path)
		form := after["user_version"][""][0]
		forms[form]++
		if gone := lost(before, after); len(gone) > 0 || form != "4" && form != today {
			t.Errorf("killed at write %d, %s: form %s, lost %v", at, call, form, gone)
		}
		if form == "4" && len(lost(after, before)) > 0 {
			t.Errorf("killed at write %d, %s: of the new form there is %v already", at, call, lost(after, before))
		}
		storetest.Open(t, path).Close()
		if after = contents(t, path); after["user_version"][""][0] != today || len(lost(before, after)) > 0 {
			t.Errorf("killed at write %d, %s, and started again: form %s, lost %v", at, call, after["user_version"][""], lost(before, after))
		}
		if kept := store.Former(path); len(kept) != 1 || len(lost(before, contents(t, kept[0]))) > 0 {
			t.Errorf("killed at write %d, %s: of the former database %v is kept", at, call, kept)
		}
	}
	if forms["4"] == 0 || forms[today] == 0 {
		t.Errorf("killed %d times it was of the forms %v; the test has lost its sense", kills, forms)
	}
	t.Logf("tally: %d upgrades killed", kills)
}
