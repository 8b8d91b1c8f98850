package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// releaseFlags are what the task release is told.
type releaseFlags struct {
	out   string
	only  string
	twice bool
	here  bool
}

// makeRelease builds what a stranger installs. All of it comes from the last commit, in
// a folder of its own, so that it is the same for whoever builds that commit.
func makeRelease(args []string) error {
	var f releaseFlags
	flags := flag.NewFlagSet("release", flag.ContinueOnError)
	flags.StringVar(&f.out, "o", "dist", "`folder` that the files go to")
	flags.StringVar(&f.only, "only", "", "build only for these, separated by commas: "+targetNames())
	flags.BoolVar(&f.twice, "twice", false, "build all once more, in another folder with an empty build cache, and compare the bytes")
	flags.BoolVar(&f.here, "here", false, "build this folder as it is, with what no commit has")
	if err := readFlags(flags, args); err != nil {
		return err
	}
	targets, err := chooseTargets(f.only)
	if err != nil {
		return err
	}
	if f.here {
		return buildRelease(f.out, targets)
	}
	if f.out, err = filepath.Abs(f.out); err != nil {
		return err
	}
	if err := sayUncommitted(); err != nil {
		return err
	}
	if err := releaseCommit(f.out, f.only); err != nil || !f.twice {
		return err
	}
	return releaseAgain(f.out, f.only)
}

// releaseCommit builds the last commit in a folder that goes away again. What builds
// it is of that commit too.
func releaseCommit(out, only string, env ...string) error {
	dir, err := os.MkdirTemp("", "kerfside-release-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := cmd("git", "clone", "--quiet", "--no-local", ".", dir).quiet(); err != nil {
		return err
	}
	return cmd("go", "run", "./cmd/dev", "release", "-here", "-o", out, "-only", only).in(dir).with(env...).loud()
}

// releaseAgain builds all a second time and compares it with what is there.
func releaseAgain(out, only string) error {
	heading("once more, in another folder and with an empty build cache")
	dir, err := os.MkdirTemp("", "kerfside-again-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	again := filepath.Join(dir, "dist")
	if err := releaseCommit(again, only, "GOCACHE="+filepath.Join(dir, "cache")); err != nil {
		return err
	}
	return sameFiles(out, again)
}

// sayUncommitted says what the release will not have.
func sayUncommitted() error {
	changed, err := cmd("git", "status", "--porcelain").output()
	if err != nil {
		return err
	}
	if n := strings.Count(changed, "\n"); n > 0 {
		say("%d files have changes that no commit has: they stay out of the release", n)
	}
	return nil
}

// buildRelease builds the folder that we are in for each target, packs what comes out
// and lists it. Afterwards out holds nothing of an older release.
func buildRelease(out string, targets []releaseTarget) error {
	parts := append([]part(nil), partsOfRelease...)
	for _, t := range targets {
		parts = append(parts, t.compiler())
	}
	if err := setUp(parts...); err != nil {
		return err
	}
	heading("programs")
	var files []string
	for _, t := range targets {
		made, err := t.make(out)
		if err != nil {
			return fmt.Errorf("%s: %w", t.Name, err)
		}
		files = append(files, made...)
	}
	slices.Sort(files)
	if err := dropOlder(out, files); err != nil {
		return err
	}
	return listRelease(out, files)
}
