package release

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// SumsFile is the name of the list that sha256sum -c reads.
const SumsFile = "SHA256SUMS"

// WriteSums writes the list of the files' sums into their folder and returns it.
func WriteSums(dir string, names []string) (string, error) {
	var list strings.Builder
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&list, "%x  %s\n", sha256.Sum256(data), name)
	}
	return list.String(), os.WriteFile(filepath.Join(dir, SumsFile), []byte(list.String()), 0o644)
}
