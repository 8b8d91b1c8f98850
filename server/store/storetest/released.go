package storetest

import (
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Released is the database that a program of an earlier form left; see the README
// in testdata/journal/stores.
type Released struct {
	Form          int
	Token, Device string // of the phone that had joined; "" before there were any
	packed        string
}

// AllReleased lists them by their forms, given the top folder of the module.
func AllReleased(t testing.TB, root string) []Released {
	t.Helper()
	dir := filepath.Join(root, "testdata", "journal", "stores")
	text, err := os.ReadFile(filepath.Join(dir, "phones.txt"))
	if err != nil {
		t.Fatal(err)
	}
	phones := map[string][]string{}
	for line := range strings.Lines(string(text)) {
		if word := strings.Fields(line); len(word) == 3 {
			phones[word[0]] = word
		}
	}
	var list []Released
	for form := 1; ; form++ {
		r := Released{Form: form, packed: filepath.Join(dir, "form-"+strconv.Itoa(form)+".db.gz")}
		if _, err := os.Stat(r.packed); err != nil {
			break
		}
		if phone := phones[strconv.Itoa(form)]; phone != nil {
			r.Token, r.Device = phone[1], phone[2]
		}
		list = append(list, r)
	}
	if len(list) < 7 {
		t.Fatalf("only %d databases in %s", len(list), dir)
	}
	return list
}

// Unpack puts the database into dir and returns its name.
func (r Released) Unpack(t testing.TB, dir string) string {
	t.Helper()
	f, err := os.Open(r.packed)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	unpacked, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	db, err := io.ReadAll(unpacked)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "kerfside.db")
	if err := os.WriteFile(path, db, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
