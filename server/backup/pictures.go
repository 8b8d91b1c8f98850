package backup

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"kerfside/server/disk"
	"kerfside/server/store"
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
		if store.PictureName(file) != d.Name() {
			spoilt++
			return nil
		}
		copied++
		return disk.WriteWhole(target, file)
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil // no picture was ever kept
	}
	return copied, spoilt, err
}

// isPicture reports whether path holds the picture that it is named after.
func isPicture(path string) bool {
	file, err := os.ReadFile(path)
	return err == nil && store.PictureName(file) == filepath.Base(path)
}
