// Package release holds what a release is made of, apart from the program itself:
// for which machines it is built, how its files are packed so that two builds give
// the same bytes, and what a Debian package puts beside the program.
package release

import "runtime"

// Target is a sort of machine that a release is built for.
type Target struct {
	Name     string // as it stands in the names of files: linux-arm64
	GOOS     string
	GOARCH   string
	GOARM    string // "" but for arm
	Debian   string // what Debian calls the architecture; "" where it has none
	CC       string // the C compiler
	packages []string
}

// Targets lists what a release is built for.
var Targets = []Target{
	{
		Name: "linux-amd64", GOOS: "linux", GOARCH: "amd64", Debian: "amd64",
		CC: "x86_64-linux-gnu-gcc", packages: []string{"gcc-x86-64-linux-gnu", "libc6-dev-amd64-cross"},
	},
	{
		Name: "linux-arm64", GOOS: "linux", GOARCH: "arm64", Debian: "arm64",
		CC: "aarch64-linux-gnu-gcc", packages: []string{"gcc-aarch64-linux-gnu", "libc6-dev-arm64-cross"},
	},
	{
		Name: "linux-armv7", GOOS: "linux", GOARCH: "arm", GOARM: "7", Debian: "armhf",
		CC: "arm-linux-gnueabihf-gcc", packages: []string{"gcc-arm-linux-gnueabihf", "libc6-dev-armhf-cross"},
	},
}

// Packages lists the Debian packages with the target's C compiler and library:
// the machine's own where it builds for its kind.
func (t Target) Packages() []string {
	if t.GOOS == runtime.GOOS && t.GOARCH == runtime.GOARCH {
		return []string{"gcc", "libc6-dev"}
	}
	return t.packages
}

// Env is what a build for the target adds to the environment of the Go command.
func (t Target) Env() []string {
	env := []string{"CGO_ENABLED=1", "GOOS=" + t.GOOS, "GOARCH=" + t.GOARCH, "CC=" + t.CC}
	if t.GOARM != "" {
		env = append(env, "GOARM="+t.GOARM)
	}
	return env
}

// Flags are those of "go build" for a program that needs nothing of the machine but
// its kernel: no library, no resolver of C's, no extension of SQLite's. Paths of the
// folder in which it was built are left out.
func (Target) Flags() []string {
	return []string{
		"-trimpath", "-buildvcs=true", "-tags=netgo,osusergo,sqlite_omit_load_extension",
		"-ldflags=-s -w -linkmode external -extldflags=-static",
	}
}

// Program is the name of the program's file.
func (t Target) Program() string {
	if t.GOOS == "windows" {
		return "kerfside.exe"
	}
	return "kerfside"
}
