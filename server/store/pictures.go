package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// copyPictures copies the pictures of a folder that another one lacks. They are
// named by the hash of their bytes; one that does not fit its name counts as
// spoilt and stays behind.
func copyPictures(from, to string) (copied, spoilt int, err error) {
	err = filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || len(d.Name()) != 2*sha256.Size {
			return err
		}
		inner, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		target := filepath.Join(to, inner)
		if isPicture(target) {
			return nil
		}
		file, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if nameOf(file) != d.Name() {
			spoilt++
			return nil
		}
		copied++
		return writeWhole(target, file)
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil // no picture was ever kept
	}
	return copied, spoilt, err
}

// isPicture reports whether path holds the picture that it is named after.
func isPicture(path string) bool {
	file, err := os.ReadFile(path)
	return err == nil && nameOf(file) == filepath.Base(path)
}

func nameOf(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}

// writeWhole puts a file in place by writing it beside, flushing it to the disk
// and renaming it.
func writeWhole(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path+".half", os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

// syncFolder flushes the names in a folder to the disk.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
