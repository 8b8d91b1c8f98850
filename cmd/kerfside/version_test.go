package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestVersion: what the built command says of itself is what "go version -m" reads
// out of its file, and what SQLite says of itself and of a new database.
func TestVersion(t *testing.T) {
	program, err := built()
	if err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("go", "version", "-m", "-json", program).Output()
	if err != nil {
		t.Fatal(err)
	}
	var noted debug.BuildInfo
	if err := json.Unmarshal(text, &noted); err != nil {
		t.Fatal(err)
	}
	var said build
	got := runBuilt(t, t.TempDir(), "version", "-json")
	if err := json.Unmarshal([]byte(got.out), &said); err != nil {
		t.Fatalf("%v: %q", err, got.out)
	}
	settings := map[string]string{}
	for _, s := range noted.Settings {
		settings[s.Key] = s.Value
	}
	if said.Go != noted.GoVersion || said.OS != settings["GOOS"] || said.Arch != settings["GOARCH"] ||
		said.Revision != settings["vcs.revision"] || said.Committed != settings["vcs.time"] || (said.Changed == nil) != (settings["vcs.modified"] == "") {
		t.Errorf("it says %+v, its file %+v", said, noted)
	}
	path := filepath.Join(t.TempDir(), "a.db")
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var sqlite string
	var form int
	if err := storetest.Raw(t, path).QueryRow(`SELECT sqlite_version(), user_version FROM pragma_user_version`).Scan(&sqlite, &form); err != nil || said.SQLite != sqlite || said.Database != form {
		t.Errorf("it says SQLite %s, form %d; they say %s, %d, %v", said.SQLite, said.Database, sqlite, form, err)
	}
	if line := runBuilt(t, t.TempDir(), "-version"); line.status != 0 || len(lines(line.out)) != 1 || !strings.HasPrefix(line.out, "kerfside "+said.Version+", ") {
		t.Errorf("kerfside -version says %+v", line)
	}
}

// TestVersionOfCommit builds a commit with a tag, the same with a change and without its
// repository: each says what git says, and claims no more.
func TestVersionOfCommit(t *testing.T) {
	if os.Getenv("KERFSIDE_LONG") == "" {
		t.Skip("three builds: left to KERFSIDE_LONG=1")
	}
	clone := filepath.Join(t.TempDir(), "clone")
	run := func(dir, name string, args ...string) string {
		t.Helper()
		c := exec.Command(name, args...)
		c.Dir = dir
		out, err := c.Output()
		if err != nil {
			t.Fatalf("%s %v: %v\n%s", name, args, err, out)
		}
		return strings.TrimSpace(string(out))
	}
	run(".", "git", "clone", "-q", "--shared", "../..", clone)
	revision := run(clone, "git", "rev-parse", "HEAD")
	says := func(flags ...string) build {
		t.Helper()
		program := filepath.Join(t.TempDir(), "kerfside")
		run(clone, "go", append(append([]string{"build", "-o", program}, flags...), "./cmd/kerfside")...)
		var b build
		if err := json.Unmarshal([]byte(run(".", program, "version", "-json")), &b); err != nil {
			t.Fatal(err)
		}
		return b
	}
	run(clone, "git", "tag", "v0.98.7")
	if b := says("-buildvcs=auto"); b.Version != "v0.98.7" || b.Revision != revision {
		t.Errorf("a commit with a tag says %+v", b)
	}
	if err := os.WriteFile(filepath.Join(clone, "README.md"), []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	if b := says("-buildvcs=auto"); b.Version != unreleased || b.Changed == nil || !*b.Changed {
		t.Errorf("changed files say %+v", b)
	}
	if b := says("-buildvcs=false"); b.Version != unreleased || b.Revision != "" || b.Committed != "" || b.Changed != nil || !strings.Contains(b.String(), "commit unknown") {
		t.Errorf("without the repository it says %+v", b)
	}
}

// TestBuildOf: only an unchanged commit that bears a tag is called a release.
func TestBuildOf(t *testing.T) {
	for _, c := range []struct{ main, revision, modified, version, short string }{
		{main: "v0.2.0", revision: "0123456789abcdef", modified: "false", version: "v0.2.0", short: "v0.2.0"},
		{main: "v0.2.0+dirty", revision: "0123456789abcdef", modified: "true", version: unreleased, short: "unreleased 0123456789ab with changes"},
		{main: "v0.2.1-0.20261130084409-0123456789ab", revision: "0123456789abcdef", modified: "false", version: unreleased, short: "unreleased 0123456789ab"},
		{main: "v0.0.0-20261130084409-0123456789ab", revision: "0123456789abcdef", modified: "false", version: unreleased, short: "unreleased 0123456789ab"},
		{main: "v0.3.0-rc.1", revision: "0123456789abcdef", modified: "false", version: "v0.3.0-rc.1", short: "v0.3.0-rc.1"},
		{main: "(devel)", version: unreleased, short: unreleased},
		{main: "", version: unreleased, short: unreleased},
	} {
		info := &debug.BuildInfo{Main: debug.Module{Version: c.main}}
		if c.revision != "" {
			info.Settings = []debug.BuildSetting{{Key: "vcs.revision", Value: c.revision}, {Key: "vcs.time", Value: "2026-11-30T08:44:09Z"}, {Key: "vcs.modified", Value: c.modified}}
		}
		if b := buildOf(info); b.Version != c.version || b.Short() != c.short || strings.Contains(b.String(), "\n") {
			t.Errorf("%+v says %q, %q, %q", c, b.Version, b.Short(), b)
		}
	}
}
