package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// How many backups are kept: the newest of each of the last days, weeks and
// months that have one.
const (
	keepDays   = 7
	keepWeeks  = 5
	keepMonths = 12
)

// kept returns which of times to keep.
func kept(times []time.Time) map[time.Time]bool {
	newest := slices.SortedFunc(slices.Values(times), func(a, b time.Time) int { return b.Compare(a) })
	keep := map[time.Time]bool{}
	for _, rule := range []struct {
		most int
		name func(time.Time) string
	}{
		{keepDays, func(t time.Time) string { return t.Format(time.DateOnly) }},
		{keepWeeks, func(t time.Time) string { y, w := t.ISOWeek(); return fmt.Sprint(y, w) }},
		{keepMonths, func(t time.Time) string { return t.Format("2006-01") }},
	} {
		seen := map[string]bool{}
		for _, t := range newest {
			if name := rule.name(t); !seen[name] && len(seen) < rule.most {
				seen[name], keep[t] = true, true
			}
		}
	}
	return keep
}

// thinOut removes the backups of a store that are not to be kept. Other files
// are left alone.
func thinOut(path, dir string) (removed int, err error) {
	times, err := Backups(path, dir)
	if err != nil {
		return 0, err
	}
	keep := kept(times)
	for _, t := range times {
		if keep[t] {
			continue
		}
		if err := os.Remove(backupFile(path, dir, t)); err != nil {
			return removed, fmt.Errorf("remove an old backup: %w", err)
		}
		removed++
	}
	return removed, nil
}

// halfMade ends the name of a backup that is being made.
const halfMade = ".half"

// halfAge is how old it has to be before it counts as given up. A younger one
// may be another process's that is still at it.
const halfAge = time.Hour

// sweepHalf removes what backups of a store left that were killed midway, with
// their logs.
func sweepHalf(path, dir string, now time.Time) error {
	files, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, f := range files {
		name, ours := strings.CutPrefix(f.Name(), stemOf(path))
		when, rest, half := strings.Cut(name, ".db"+halfMade)
		made, err := time.Parse(backupTime, when)
		if !ours || !half || err != nil || rest != "" && !strings.HasPrefix(rest, "-") || now.Sub(made) < halfAge {
			continue
		}
		if err := os.Remove(filepath.Join(dir, f.Name())); err != nil {
			return err
		}
	}
	return nil
}

// BackupFiles returns the backups of the store at path in dir, oldest first; none
// if there is no such folder.
func BackupFiles(path, dir string) ([]string, error) {
	times, err := Backups(path, dir)
	var files []string
	for _, t := range times {
		files = append(files, backupFile(path, dir, t))
	}
	return files, err
}

// stemOf begins the names of the backups of the store at path.
func stemOf(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + "-"
}

// backupFile is the backup in dir of the store at path that was made at t.
func backupFile(path, dir string, t time.Time) string {
	return filepath.Join(dir, stemOf(path)+t.UTC().Format(backupTime)+".db")
}

// Backups returns when the backups in dir of the store at path were made, oldest
// first; none if there is no such folder.
func Backups(path, dir string) ([]time.Time, error) {
	files, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list backups: %w", err)
	}
	var times []time.Time
	for _, f := range files {
		name, ours := strings.CutPrefix(f.Name(), stemOf(path))
		name, ends := strings.CutSuffix(name, ".db")
		if t, err := time.Parse(backupTime, name); ours && ends && err == nil {
			times = append(times, t)
		}
	}
	return times, nil
}
