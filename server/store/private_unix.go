//go:build unix

package store

import (
	"os"
	"syscall"
)

// names returns how many names a file has on its disk; one of what is no file.
func names(path string) uint64 {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return 1
	}
	sys, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return 1
	}
	return uint64(sys.Nlink)
}
