//go:build unix

package disk

import (
	"os"
	"syscall"
)

// Same reports whether two paths are on one file system.
func Same(a, b string) (bool, error) {
	var on [2]uint64
	for i, path := range []string{a, b} {
		info, err := os.Stat(path)
		if err != nil {
			return false, err
		}
		stat, ok := info.Sys().(*syscall.Stat_t)
		if !ok {
			return true, nil
		}
		on[i] = uint64(stat.Dev)
	}
	return on[0] == on[1], nil
}
