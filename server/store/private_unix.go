//go:build unix

package store

import "os"

// isLoose reports whether anybody but its user has a right to a file or folder.
func isLoose(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.Mode().Perm()&0o077 != 0
}
