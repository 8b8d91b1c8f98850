package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"kerfside/cmd/dev/release"
)

// dropOlder takes files of older releases out of the folder.
func dropOlder(out string, keep []string) error {
	found, err := filepath.Glob(filepath.Join(out, `kerfside[_\-]*`))
	if err != nil {
		return err
	}
	for _, path := range found {
		if slices.Contains(keep, filepath.Base(path)) {
			continue
		}
		if err := os.Remove(path); err != nil {
			return err
		}
		say("removed %s, of an older release", path)
	}
	return nil
}

// listRelease writes the sums and prints them with the sizes.
func listRelease(out string, files []string) error {
	sums, err := release.WriteSums(out, files)
	if err != nil {
		return err
	}
	heading("%s", out)
	for line := range strings.Lines(sums) {
		sum, name, _ := strings.Cut(strings.TrimSpace(line), "  ")
		info, err := os.Stat(filepath.Join(out, name))
		if err != nil {
			return err
		}
		say("%-58s %9s  %s", name, megabytes(info.Size()), sum)
	}
	say("%s", release.SumsFile)
	return nil
}

// sameFiles fails unless both releases hold the same files with the same bytes.
func sameFiles(first, second string) error {
	sums, err := os.ReadFile(filepath.Join(first, release.SumsFile))
	if err != nil {
		return err
	}
	compared := 0
	names := []string{release.SumsFile}
	for line := range strings.Lines(string(sums)) {
		_, name, _ := strings.Cut(strings.TrimSpace(line), "  ")
		names = append(names, name)
	}
	for _, name := range names {
		one, err := os.ReadFile(filepath.Join(first, name))
		if err != nil {
			return err
		}
		other, err := os.ReadFile(filepath.Join(second, name))
		if err != nil {
			return err
		}
		if !bytes.Equal(one, other) {
			return fail(fmt.Sprintf("%s differs between two builds of the same commit", name), "Look for a path, a time or an order in it: diffoscope shows where.")
		}
		compared++
	}
	heading("built twice, the same bytes: %d files", compared)
	return nil
}
