package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"kerfside/calc/problem"
	"kerfside/server/disk"
)

// The journal says who worked where and when, so nobody but the user of the
// server reads its files. SQLite gives its log the mode of the database, and the
// database the mode of the umask unless it is there already.

// InMemory reports whether path is an SQLite URI and not a file's name.
func InMemory(path string) bool { return strings.HasPrefix(path, "file:") }

// RealPath follows the symbolic links of path, of which the last may lead to a
// file that is not there yet: locks and all that lies beside a database belong
// to the file, by whatever name it is called.
func RealPath(path string) (string, error) {
	if InMemory(path) {
		return path, nil
	}
	if strings.HasPrefix(path, "//") { // which in an address of SQLite would begin the name of a machine
		path = filepath.Clean(path)
	}
	given := path
	for range 40 { // as many as Linux follows
		target, err := os.Readlink(path)
		if err != nil {
			break // not a link, or nothing there: opening it says which
		}
		if !filepath.IsAbs(target) {
			target = filepath.Join(filepath.Dir(path), target)
		}
		path = target
	}
	return path, strays(given, path)
}

// OneName refuses a database that has a second name, a hard link: SQLite keeps
// the log beside the name that it is opened by, so that two logs would be written
// into one file, and the lock of one name says nothing to the other.
func OneName(path string) error {
	if InMemory(path) || names(path) < 2 {
		return nil
	}
	return problem.Newf(problem.Conflict, "db", "the database %s has a second name on its disk: a hard link, by which another program could spoil it", path).
		WithHint("Remove the other name; find -samefile %s shows it. A copy that is meant to stay is made with kerfside backup.", path)
}

// strays refuses a link that has beside it what belongs beside the database: it
// would be overlooked, the list of erasures too.
func strays(link, path string) error {
	if link == path {
		return nil
	}
	for _, end := range []string{".erased", ".photos", ".lan"} {
		if filepath.Clean(link+end) == filepath.Clean(path+end) {
			continue
		}
		_, err := os.Stat(link + end)
		if _, there := os.Stat(path + end); err == nil && errors.Is(there, fs.ErrNotExist) {
			return problem.Newf(problem.Conflict, "db", "%s is a link to %s, and %s lies beside the link", link, path, link+end).
				WithHint("Move %s to %s, then start again.", link+end, path+end)
		}
	}
	return nil
}

// makePrivate makes the database at path if there is none, and lets nobody but
// its user read it or what lies beside it.
func makePrivate(path string) error {
	if InMemory(path) {
		return nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDONLY, 0o600)
	if err != nil {
		return fmt.Errorf("make the database: %w", err)
	}
	if err := f.Close(); err != nil {
		return err
	}
	disk.Tighten(beside(path)...)
	return nil
}

// beside lists what may lie beside the database at path, with itself. What is in
// a folder is as private as the folder.
func beside(path string) []string {
	list := []string{path}
	for _, end := range []string{"-wal", "-shm", "-journal", ".lock", ".open", ".erased", ".restoring", ".photos", ".backups", ".lan", ".acme"} {
		list = append(list, path+end)
	}
	for _, end := range []string{".before-*", heldEnd + "*", leftEnd + "*", formerEnd + "*"} {
		aside, _ := filepath.Glob(escapeGlob(path) + end) // the pattern is sound
		list = append(list, aside...)
	}
	return list
}

// escapeGlob writes a path so that filepath.Glob finds just it.
func escapeGlob(path string) string {
	if filepath.Separator == '\\' { // where a backslash cannot escape
		return path
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(path)
}

// Loose lists what others can still read of the store at path and of its backups
// in dir, "" for none: a disk may have no such rights to set.
func Loose(path, dir string) []string {
	if InMemory(path) {
		return nil
	}
	list := beside(path)
	if files, err := CopyFiles(path, dir); dir != "" && err == nil {
		list = append(list, files...)
	}
	return slices.DeleteFunc(list, func(name string) bool { return !disk.IsLoose(name) })
}
