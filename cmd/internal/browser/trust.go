package browser

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// Trust makes browsers with that Home trust a root certificate, as a person
// does by installing it: it goes into the store of NSS, by certutil of Debian's
// libnss3-tools. Other roots and all checks stay as they are.
func Trust(home, certificate string) error {
	store := filepath.Join(home, ".pki", "nssdb")
	if err := os.MkdirAll(store, 0o700); err != nil {
		return err
	}
	for _, args := range [][]string{
		{"-N", "--empty-password"},
		{"-A", "-t", "C,,", "-n", filepath.Base(certificate), "-i", certificate},
	} {
		out, err := exec.Command("certutil", append([]string{"-d", "sql:" + store}, args...)...).CombinedOutput()
		if err != nil {
			return fmt.Errorf("certutil %s (go run ./cmd/dev test installs it on Debian): %w\n%s", args[0], err, out)
		}
	}
	return nil
}
