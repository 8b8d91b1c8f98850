package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"

	"kerfside/cmd/dev/release"
)

// releasePages has this machine's program print the man page and the completion:
// they are the same for all.
var releasePages = sync.OnceValues(func() ([]release.Entry, error) {
	i := slices.IndexFunc(release.Targets, func(t release.Target) bool { return t.GOOS == runtime.GOOS && t.GOARCH == runtime.GOARCH })
	if i < 0 {
		return nil, fail("no release is built for this machine, so nothing prints its man page", "Build on one of: "+targetNames())
	}
	dir, err := os.MkdirTemp("", "kerfside-pages-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	own := releaseTarget{release.Targets[i]}
	if err := own.compiler().do(); err != nil {
		return nil, err
	}
	program := filepath.Join(dir, own.Program())
	if err := own.build(program); err != nil {
		return nil, err
	}
	return release.PageEntries(func(args ...string) (string, error) { return cmd(program, args...).output() })
})
