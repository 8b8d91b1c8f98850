//go:build !unix

package store

// isLoose says no where rights are not in a file's mode.
func isLoose(name string) bool { return false }

// names says one where nobody can be asked.
func names(string) uint64 { return 1 }
