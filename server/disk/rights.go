package disk

import (
	"io/fs"
	"os"
)

// Tighten takes the rights of others away where a file or a folder has any. Where
// that cannot be, IsLoose goes on telling.
func Tighten(names ...string) {
	for _, name := range names {
		if !IsLoose(name) {
			continue
		}
		mode := fs.FileMode(0o600)
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			mode = 0o700
		}
		_ = os.Chmod(name, mode)
	}
}
