package backup

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kerfside/server/disk"
	"kerfside/server/store"
)

// halfMade ends the name of a backup that is being made.
const halfMade = ".half"

// halfAge is how old it has to be before it counts as given up. A younger one
// may be another process's that is still at it.
const halfAge = time.Hour

// halves returns what backups in dir of the store at path left that were killed
// midway, with their logs, and when they were begun.
func halves(path, dir string) (map[string]time.Time, error) {
	files, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	begun := map[string]time.Time{}
	for _, f := range files {
		at, rest, ok := store.ReadCopyName(path, f.Name())
		log, half := strings.CutPrefix(rest, halfMade)
		if ok && half && (log == "" || strings.HasPrefix(log, "-")) {
			begun[filepath.Join(dir, f.Name())] = at
		}
	}
	return begun, err
}

// sweepHalf removes those that count as given up.
func sweepHalf(path, dir string, now time.Time) error {
	begun, err := halves(path, dir)
	if err != nil {
		return err
	}
	for name, at := range begun {
		if now.Sub(at) < halfAge {
			continue
		}
		if err := os.Remove(name); err != nil {
			return err
		}
	}
	return nil
}

// Tighten lets nobody but their user read the backups of the store at path in
// dir. Of a folder that others may use too, only what is ours.
func Tighten(path, dir string) error {
	files, err := store.CopyFiles(path, dir)
	if err != nil {
		return err
	}
	begun, err := halves(path, dir)
	if err != nil {
		return err
	}
	for name := range begun {
		files = append(files, name)
	}
	disk.Tighten(append(files, filepath.Join(dir, erasedName), filepath.Join(dir, picturesName))...)
	return nil
}
