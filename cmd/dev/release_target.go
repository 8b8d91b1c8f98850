package main

import (
	"bytes"
	"debug/buildinfo"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"kerfside/cmd/dev/release"
)

// releaseTarget is a target as the task builds it.
type releaseTarget struct{ release.Target }

// compiler is the set-up of its C compiler.
func (t releaseTarget) compiler() part {
	return part{name: t.Name, line: t.CC, run: func() error { return need("a C compiler for "+t.Name, onPath(t.CC), t.Packages()...) }}
}

// build builds its program to that path.
func (t releaseTarget) build(to string) error {
	words := append([]string{"build", "-o", to}, t.Flags()...)
	if err := cmd("go", append(words, "./cmd/kerfside")...).with(t.Env()...).quiet(); err != nil {
		return err
	}
	if t.GOOS != "linux" {
		return nil
	}
	return release.Static(to)
}

// make builds its program and packs it into out. It returns the names of the files.
func (t releaseTarget) make(out string) ([]string, error) {
	began := time.Now()
	dir, err := os.MkdirTemp("", "kerfside-program-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, t.Program())
	if err := t.build(program); err != nil {
		return nil, err
	}
	version, err := programVersion(program)
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(program)
	if err != nil {
		return nil, err
	}
	files, err := t.pack(program, version, out)
	say("%-13s %s, %s (%s)", t.Name, version, megabytes(info.Size()), took(began))
	return files, err
}

// pack packs the program at that path into out and returns the names of the files.
func (t releaseTarget) pack(program, version, out string) ([]string, error) {
	data, err := os.ReadFile(program)
	if err != nil {
		return nil, err
	}
	at, err := commitTime()
	if err != nil {
		return nil, err
	}
	name := "kerfside-" + version + "-" + t.Name
	files := []string{name + ".tar.gz"}
	err = writeWhole(filepath.Join(out, files[0]), func(w io.Writer) error {
		return release.WriteTarGz(w, release.Archive(t.Target, name, data), at)
	})
	if err != nil || t.Debian == "" {
		return files, err
	}
	pages, err := releasePages()
	if err != nil {
		return files, err
	}
	files = append(files, fmt.Sprintf("kerfside_%s_%s.deb", release.DebianVersion(version), t.Debian))
	return files, writeWhole(filepath.Join(out, files[1]), release.Debian(t.Target, version, data, pages, at).Write)
}

// writeWhole writes a file whole, or leaves none.
func writeWhole(path string, write func(io.Writer) error) error {
	var data bytes.Buffer
	if err := write(&data); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, data.Bytes(), 0o644)
}

// programVersion returns what a program says of its own version: the tag of its commit, or
// a name made of the commit's time and hash.
func programVersion(program string) (string, error) {
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		return "", err
	}
	version := strings.TrimPrefix(info.Main.Version, "v")
	if version == "" || version == "(devel)" {
		return "unversioned", nil // no commit: the Go command names none in a linked worktree
	}
	return version, nil
}

// commitTime is the time that all files of a release bear: SOURCE_DATE_EPOCH, or when
// its commit was made.
func commitTime() (time.Time, error) {
	text := os.Getenv("SOURCE_DATE_EPOCH")
	if text == "" {
		said, err := cmd("git", "log", "-1", "--format=%ct").output()
		if err != nil {
			return time.Time{}, err
		}
		text = strings.TrimSpace(said)
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return time.Time{}, fail("SOURCE_DATE_EPOCH is no number of seconds: "+text, "Unset it to take the time of the commit.")
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// chooseTargets returns the targets of those names, all without any.
func chooseTargets(only string) ([]releaseTarget, error) {
	var chosen []releaseTarget
	names := strings.Split(only, ",")
	for _, t := range release.Targets {
		if only == "" || slices.Contains(names, t.Name) {
			chosen = append(chosen, releaseTarget{t})
		}
	}
	if only != "" && len(chosen) < len(names) {
		return nil, fail("-only "+only+" names what no release is built for", "Take some of: "+targetNames())
	}
	return chosen, nil
}

// targetNames lists the targets for a hint.
func targetNames() string {
	var names []string
	for _, t := range release.Targets {
		names = append(names, t.Name)
	}
	return strings.Join(names, ", ")
}
