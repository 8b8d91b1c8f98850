package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/disk"
)

// PutAside moves the store away, with its log, which belongs to it alone. A log
// left beside another database would damage that one.
func PutAside(path string, now time.Time) (string, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return "", RemoveLog(path)
	}
	aside := path + ".before-" + now.UTC().Format(copyTime)
	if _, err := os.Stat(aside); err == nil {
		return "", problem.Newf(problem.Conflict, "db", "%s is there already", aside).WithHint("Try again in a second.")
	}
	if err := disk.Copy(path, aside); err != nil {
		return "", fmt.Errorf("keep the former database: %w", errors.Join(err, os.Remove(aside)))
	}
	if err := disk.Copy(path+"-wal", aside+"-wal"); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("keep the log of the former database: %w", err)
	}
	return aside, RemoveLog(path)
}

// RemoveLog removes the log beside a database.
func RemoveLog(path string) error {
	for _, end := range []string{"-wal", "-shm"} {
		if err := os.Remove(path + end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}
