package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
)

// The npm tools check the phone app and its sums; nothing of them goes into the product.
const (
	checkTools  = "cmd/dev/npm"            // TypeScript, axe-core, stores and documents for tests, and psychrolib
	compatTools = "cmd/dev/npm/compat"     // what browsers know since when, for the step browsers
	lightTools  = "cmd/dev/npm/lighthouse" // Lighthouse, for bench only
	otherTools  = "cmd/dev/npm/comparator" // a document-sync server, for bench only
)

// npmInstall installs the tools of that folder exactly as its lock file says.
// A stamp beside them holds the sum of package.json and the lock, so that
// nothing happens while neither has changed.
func npmInstall(dir string) error {
	sum := sha256.New()
	for _, name := range []string{"package.json", "package-lock.json"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return fail(err.Error(), "Restore the file: git checkout -- "+dir)
		}
		sum.Write(data)
	}
	want := fmt.Sprintf("%x\n", sum.Sum(nil))
	stamp := filepath.Join(dir, "node_modules", ".stamp")
	if got, err := os.ReadFile(stamp); err == nil && string(got) == want {
		return nil
	}
	if err := needNode(); err != nil {
		return err
	}
	say("npm ci in %s", dir)
	if err := cmd("npm", "ci", "--no-audit", "--no-fund").in(dir).quiet(); err != nil {
		return err
	}
	return os.WriteFile(stamp, []byte(want), 0o644)
}

// npmTool returns the path of a file of an installed package.
func npmTool(dir string, parts ...string) string {
	return filepath.Join(append([]string{dir, "node_modules"}, parts...)...)
}
