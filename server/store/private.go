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
)

// The journal says who worked where and when, so nobody but the user of the
// server reads its files. SQLite gives its log the mode of the database, and the
// database the mode of the umask unless it is there already.

// inMemory reports whether path is an SQLite URI and not a file's name.
func inMemory(path string) bool { return strings.HasPrefix(path, "file:") }

// RealPath follows the symbolic links of path, of which the last may lead to a
// file that is not there yet: locks and all that lies beside a database belong
// to the file, by whatever name it is called.
func RealPath(path string) (string, error) {
	if inMemory(path) {
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

// oneName refuses a database that has a second name, a hard link: SQLite keeps
// the log beside the name that it is opened by, so that two logs would be written
// into one file, and the lock of one name says nothing to the other.
func oneName(path string) error {
	if inMemory(path) || names(path) < 2 {
		return nil
	}
	return problem.Newf(problem.Conflict, "db", "the database %s has a second name on its disk (a hard link), by which another program could spoil it", path).
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
	if inMemory(path) {
		return nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDONLY, 0o600)
	if err != nil {
		return fmt.Errorf("make the database: %w", err)
	}
	if err := f.Close(); err != nil {
		return err
	}
	tighten(beside(path)...)
	return nil
}

// beside lists what may lie beside the database at path, with itself. What is in
// a folder is as private as the folder.
func beside(path string) []string {
	list := []string{path}
	for _, end := range []string{"-wal", "-shm", "-journal", ".lock", ".open", ".erased", ".restoring", ".photos", ".backups", ".lan", ".acme"} {
		list = append(list, path+end)
	}
	for _, end := range []string{".before-*", heldEnd + "*", leftEnd + "*"} {
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

// TightenBackups lets nobody but their user read the backups of the store at
// path in dir. Of a folder that others may use too, only what is ours.
func TightenBackups(path, dir string) error {
	files, err := BackupFiles(path, dir)
	if err != nil {
		return err
	}
	half, _ := filepath.Glob(filepath.Join(escapeGlob(dir), escapeGlob(stemOf(path))+"*.db"+halfMade+"*"))
	tighten(append(append(files, half...), filepath.Join(dir, erasedName), filepath.Join(dir, "photos"))...)
	return nil
}

// Loose lists what others can still read of the store at path and of its backups
// in dir, "" for none: a disk may have no such rights to set.
func Loose(path, dir string) []string {
	if inMemory(path) {
		return nil
	}
	list := beside(path)
	if files, err := BackupFiles(path, dir); dir != "" && err == nil {
		list = append(list, files...)
	}
	return slices.DeleteFunc(list, func(name string) bool { return !isLoose(name) })
}

// tighten takes the rights of others away where a file or a folder has any. Where
// that cannot be, Loose tells.
func tighten(names ...string) {
	for _, name := range names {
		if !isLoose(name) {
			continue
		}
		mode := fs.FileMode(0o600)
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			mode = 0o700
		}
		_ = os.Chmod(name, mode)
	}
}
