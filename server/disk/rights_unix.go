//go:build unix

package disk

import "os"

// IsLoose reports whether anybody but its user has a right to a file or folder.
func IsLoose(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.Mode().Perm()&0o077 != 0
}
