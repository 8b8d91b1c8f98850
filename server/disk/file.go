// Package disk puts files in place so that a crash leaves the old one or the
// whole new one, and sees who may read them. What they hold it does not know.
package disk

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteWhole puts a file in place by writing it beside, flushing it to the disk
// and renaming it.
func WriteWhole(path string, data []byte) (err error) {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, "new-*") // two may write the same picture at once
	if err != nil {
		return err
	}
	defer func() {
		if gone := os.Remove(f.Name()); err != nil && !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if err = os.Rename(f.Name(), path); err != nil {
		return err
	}
	return SyncFolder(dir)
}

// SyncFolder flushes the names in a folder to the disk.
func SyncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// Copy copies a file and flushes the copy to the disk.
func Copy(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Sync(), out.Close())
}
