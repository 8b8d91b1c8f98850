package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Copies of a store are named after it and their time, so that a store that is
// lost can say which to bring back. Package backup makes them.

// copyTime is how a name says when a copy was made, UTC.
const copyTime = "20060102T150405Z"

// stemOf begins the names of the copies of the store at path.
func stemOf(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + "-"
}

// CopyFile is the copy in dir of the store at path that was made at t.
func CopyFile(path, dir string, t time.Time) string {
	return filepath.Join(dir, stemOf(path)+t.UTC().Format(copyTime)+".db")
}

// ReadCopyName says when the copy of the store at path that has that name was
// made, and what follows in its name. It is false for other files.
func ReadCopyName(path, name string) (made time.Time, rest string, ok bool) {
	name, ours := strings.CutPrefix(name, stemOf(path))
	when, rest, ends := strings.Cut(name, ".db")
	made, err := time.Parse(copyTime, when)
	return made, rest, ours && ends && err == nil
}

// Copies returns when the copies in dir of the store at path were made, oldest
// first; none if there is no such folder.
func Copies(path, dir string) ([]time.Time, error) {
	files, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list backups: %w", err)
	}
	var times []time.Time
	for _, f := range files {
		if made, rest, ok := ReadCopyName(path, f.Name()); ok && rest == "" {
			times = append(times, made)
		}
	}
	return times, nil
}

// CopyFiles returns the copies of the store at path in dir, oldest first; none if
// there is no such folder.
func CopyFiles(path, dir string) ([]string, error) {
	times, err := Copies(path, dir)
	var files []string
	for _, t := range times {
		files = append(files, CopyFile(path, dir, t))
	}
	return files, err
}
