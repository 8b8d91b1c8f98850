//go:build !unix

package store

// names says one where nobody can be asked.
func names(string) uint64 { return 1 }
