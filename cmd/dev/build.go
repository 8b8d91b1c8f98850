package main

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// build makes the one release binary. It is the same program that serve runs,
// only stripped.
func build(args []string) error {
	flags := flag.NewFlagSet("build", flag.ContinueOnError)
	out := flags.String("o", filepath.Join("dist", "kerfside"), "where the binary goes")
	if err := readFlags(flags, args); err != nil {
		return err
	}
	binary := part{name: "binary", line: *out, run: func() error { return buildBinary(*out, "-trimpath") }}
	if err := setUp(partCompiler, partWasm, partPack, partBundle, binary); err != nil {
		return err
	}
	info, err := os.Stat(*out)
	if err != nil {
		return err
	}
	heading("%s, %s", *out, megabytes(info.Size()))
	return nil
}

// buildBinary builds the stripped server binary to that path.
func buildBinary(to string, flags ...string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	words := append([]string{"build", stamped}, flags...)
	return cmd("go", append(words, "-ldflags=-s -w", "-o", to, "./cmd/kerfside")...).quiet()
}

// stamped has a build note its commit where there is a repository, whatever the
// machine's GOFLAGS say: kerfside version tells it.
const stamped = "-buildvcs=auto"

// walkFiles calls visit for every regular file under dir.
func walkFiles(dir string, visit func(path string) error) error {
	return filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.Type().IsRegular() {
			return err
		}
		return visit(path)
	})
}

// megabytes prints a size in millions of bytes.
func megabytes(n int64) string { return fmt.Sprintf("%.2f MB", float64(n)/1e6) }

// kilobytes prints a size in thousands of bytes.
func kilobytes(n int64) string { return fmt.Sprintf("%.1f KB", float64(n)/1e3) }
