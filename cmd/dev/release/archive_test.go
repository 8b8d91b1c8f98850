package release

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	at      = time.Date(2026, 11, 30, 8, 0, 0, 999, time.UTC)
	entries = []Entry{
		{Name: "k/kerfside", Mode: 0o755, Data: []byte("program")},
		{Name: "k", Mode: fs.ModeDir | 0o755},
		{Name: "k/README", Mode: 0o644, Data: []byte("read me")},
	}
)

// packers are the forms of an archive.
var packers = map[string]func(io.Writer, []Entry, time.Time) error{"tar.gz": WriteTarGz, "zip": WriteZip}

// The same entries give the same bytes, in whatever order they come and whatever the
// part of a second; another time, right or byte does not.
func TestArchivesAreTheSame(t *testing.T) {
	for form, write := range packers {
		pack := func(entries []Entry, at time.Time) []byte {
			var b bytes.Buffer
			if err := write(&b, entries, at); err != nil {
				t.Fatal(err)
			}
			return b.Bytes()
		}
		first := pack(entries, at)
		other := slices.Clone(entries)
		slices.Reverse(other)
		if !bytes.Equal(first, pack(other, at.Add(time.Microsecond).In(time.FixedZone("", 3600)))) {
			t.Errorf("%s: the same entries give other bytes", form)
		}
		other[0].Mode = 0o600
		if bytes.Equal(first, pack(other, at)) || bytes.Equal(first, pack(entries, at.Add(time.Minute))) {
			t.Errorf("%s: other entries give the same bytes", form)
		}
	}
}

// GNU tar, the reference for the form, reads what was packed: names, rights, owner
// and time.
func TestTarReads(t *testing.T) {
	tar, err := exec.LookPath("tar")
	if err != nil {
		t.Skip("not compared: there is no tar")
	}
	path := filepath.Join(t.TempDir(), "a.tar.gz")
	var b bytes.Buffer
	if err := WriteTarGz(&b, entries, at); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	list := exec.Command(tar, "--list", "--verbose", "--numeric-owner", "--utc", "--file", path)
	said, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for line := range strings.Lines(string(said)) {
		got = append(got, strings.Join(strings.Fields(line), " "))
	}
	want := []string{
		"drwxr-xr-x 0/0 0 2026-11-30 08:00 k/",
		"-rw-r--r-- 0/0 7 2026-11-30 08:00 k/README",
		"-rwxr-xr-x 0/0 7 2026-11-30 08:00 k/kerfside",
	}
	if !slices.Equal(got, want) {
		t.Errorf("tar lists\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A program that needs the machine's libraries is found out.
func TestStatic(t *testing.T) {
	dir := t.TempDir()
	source := filepath.Join(dir, "a.c")
	if err := os.WriteFile(source, []byte("int main(void) { return 0; }\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for flag, want := range map[string]bool{"-static": true, "-no-pie": false, "-pie": false} {
		program := filepath.Join(dir, "a"+flag)
		if said, err := exec.Command("gcc", flag, "-o", program, source).CombinedOutput(); err != nil {
			t.Skipf("not compared: gcc %s: %v\n%s", flag, err, said)
		}
		if err := Static(program); (err == nil) != want {
			t.Errorf("gcc %s: %v, want static: %v", flag, err, want)
		}
	}
}

// sha256sum of GNU checks the list, and finds a file that was changed.
func TestSums(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"one", "two"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := WriteSums(dir, []string{"one", "two"}); err != nil {
		t.Fatal(err)
	}
	check := func() error {
		c := exec.Command("sha256sum", "--check", "--strict", SumsFile)
		c.Dir = dir
		return c.Run()
	}
	if err := check(); err != nil {
		t.Errorf("sha256sum: %v", err)
	}
	if err := os.WriteFile(filepath.Join(dir, "two"), []byte("tow"), 0o600); err != nil {
		t.Fatal(err)
	}
	if check() == nil {
		t.Error("a changed file was not found")
	}
}
