package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// PictureFile is where a picture lies inside a folder of pictures.
func PictureFile(crew, sum string) string { return filepath.Join(crew, sum[:min(2, len(sum))], sum) }

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
		if PictureName(file) != d.Name() {
			spoilt++
			return nil
		}
		copied++
		return WriteWhole(target, file)
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil // no picture was ever kept
	}
	return copied, spoilt, err
}

// isPicture reports whether path holds the picture that it is named after.
func isPicture(path string) bool {
	file, err := os.ReadFile(path)
	return err == nil && PictureName(file) == filepath.Base(path)
}

// PictureName returns the name of a picture: the SHA-256 of its bytes in hex.
func PictureName(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}

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
	return syncFolder(dir)
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
