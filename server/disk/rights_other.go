//go:build !unix

package disk

// IsLoose says no where rights are not in a file's mode.
func IsLoose(name string) bool { return false }
