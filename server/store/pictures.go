package store

import (
	"crypto/sha256"
	"encoding/hex"
	"path/filepath"
)

// PictureFile is where a picture lies inside a folder of pictures.
func PictureFile(crew, sum string) string { return filepath.Join(crew, sum[:min(2, len(sum))], sum) }

// PictureName returns the name of a picture: the SHA-256 of its bytes in hex.
func PictureName(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}
