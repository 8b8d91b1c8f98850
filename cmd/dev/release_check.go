package main

import (
	"os"
	"path/filepath"
	"runtime"
	"time"

	"kerfside/cmd/dev/release"
)

// installedTests need what the step release makes for them.
const installedTests = "^TestInstalled"

// checkRelease installs the package in a fresh Debian, and runs tests as they are
// compiled for an ARM board.
func checkRelease(s *score, _ bool) {
	for _, try := range []struct {
		name string
		run  func(*score) error
	}{
		{name: "installed", run: checkInstalled},
		{name: "arm64", run: checkBoard},
	} {
		began := time.Now()
		if err := try.run(s); err != nil {
			s.check(try.name, err)
		}
		say("%-10s %s", try.name, took(began))
	}
}

// checkInstalled builds the package of this machine's architecture twice, an older and
// a newer version, and has them tried in a fresh root.
func checkInstalled(s *score) error {
	if err := needRoot(); err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "kerfside-installed-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	root, err := debianRoot()
	if err != nil {
		return err
	}
	targets, err := chooseTargets(runtime.GOOS + "-" + runtime.GOARCH)
	if err != nil {
		return err
	}
	for _, t := range targets {
		if err := t.compiler().run(); err != nil {
			return err
		}
		program := filepath.Join(dir, "kerfside")
		if err := t.build(program); err != nil {
			return err
		}
		for _, version := range []string{"0.0.1", "0.0.2"} {
			files, err := t.pack(program, version, filepath.Join(dir, version))
			if err != nil {
				return err
			}
			if _, err := release.WriteSums(filepath.Join(dir, version), files); err != nil {
				return err
			}
		}
	}
	words := []string{"test", "-json", "-count=1", "-timeout", "15m", "-run", installedTests}
	if os.Geteuid() != 0 {
		words = append(words, "-exec", "sudo -n --preserve-env")
	}
	goTest(s, cmd("go", append(words, "./cmd/dev/release")...).with(
		release.TryRoot+"="+root, release.TryOld+"="+filepath.Join(dir, "0.0.1"), release.TryNew+"="+filepath.Join(dir, "0.0.2")))
	return nil
}
