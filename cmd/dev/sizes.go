package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// The budgets. The shell is everything that a phone fetches before it can be
// used without the calculators; 70 KB is under a second at 1.6 Mbit/s with
// two round trips.
const (
	shellBudget  = 70_000     // brotli
	wasmBudget   = 1_200_000  // brotli
	binaryBudget = 30_000_000 // stripped
)

// shellKinds are the file kinds of the shell.
var shellKinds = []string{".html", ".css", ".js", ".svg", ".png", ".webmanifest", ".woff2"}

// checkSizes measures what a release would send and prints it.
func checkSizes(s *score, _ bool) {
	shell, err := shellSize("pwa")
	s.budget("shell, brotli", shell, shellBudget, kilobytes, err)
	var wasm int64
	data, err := os.ReadFile(filepath.Join(gen, "calc.wasm"))
	if err == nil {
		wasm, err = brotliSize(data)
	}
	s.budget("calc.wasm, brotli", wasm, wasmBudget, megabytes, err)
	binary, err := binarySize()
	s.budget("binary, stripped", binary, binaryBudget, megabytes, err)
}

// budget counts one size against its limit.
func (s *score) budget(name string, got, limit int64, print func(int64) string, err error) {
	if err != nil {
		s.check(name, err)
		return
	}
	say("%-18s %9s of %9s", name, print(got), print(limit))
	if got > limit {
		s.miss(fmt.Sprintf("%s: %s is over the budget of %s", name, print(got), print(limit)), "Find what grew: git log --stat")
		return
	}
	s.pass(1)
}

// shellSize returns the sum of the compressed files of the shell.
func shellSize(dir string) (int64, error) {
	var sum int64
	err := walkFiles(dir, func(path string) error {
		if !isShell(path) {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		n, err := brotliSize(data)
		sum += n
		return err
	})
	if err == nil && sum == 0 {
		err = fmt.Errorf("no files of the shell in %s", dir)
	}
	return sum, err
}

// isShell says whether a file belongs to the shell.
func isShell(path string) bool {
	for _, kind := range shellKinds {
		if strings.HasSuffix(path, kind) {
			return true
		}
	}
	return false
}

// binarySize builds the stripped binary in a folder that goes away again.
func binarySize() (int64, error) {
	dir, err := os.MkdirTemp("", "kerfside-size-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "kerfside")
	if err := buildBinary(path); err != nil {
		return 0, err
	}
	info, err := os.Stat(path)
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}
