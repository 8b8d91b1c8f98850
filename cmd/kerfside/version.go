package main

import (
	"flag"
	"fmt"
	"io"
	"regexp"
	"runtime"
	"runtime/debug"
	"strings"

	"kerfside/cmd/internal/command"
	"kerfside/server/store"
)

var versionCommand = command.Command{
	Name: "version", About: "say what this program was built from",
	More: "It says only what the build noted: a program built without its repository tells no commit.",
	Declare: func(flags *flag.FlagSet) command.Action {
		var asJSON bool
		jsonFlag(flags, &asJSON)
		return func(_ []string, out io.Writer) error {
			b := thisBuild()
			if asJSON {
				return printJSON(out, b)
			}
			_, err := fmt.Fprintln(out, b)
			return err
		}
	},
	Examples: []command.Example{{Line: "kerfside version -json", Does: "say it for a program"}},
}

// build is what a program was built from, as far as the build noted it.
type build struct {
	Version   string `json:"version"`             // of the release, such as "v0.2.0"; unreleased if it is none
	Revision  string `json:"revision,omitempty"`  // the commit in full
	Committed string `json:"committed,omitempty"` // its time by RFC 3339
	Changed   *bool  `json:"changed,omitempty"`   // files differed from that commit
	Go        string `json:"go"`
	OS        string `json:"os"`
	Arch      string `json:"arch"`
	SQLite    string `json:"sqlite"`
	Database  int    `json:"database"` // form of the databases that it writes
}

// unreleased stands for the version of a build that is no release.
const unreleased = "unreleased"

// pseudo is how the Go command calls what lies between releases.
var pseudo = regexp.MustCompile(`[-.]\d{14}-[0-9a-f]{12}$`)

// thisBuild is what this program was built from.
func thisBuild() build {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		info = &debug.BuildInfo{}
	}
	return buildOf(info)
}

// buildOf reads what the Go command noted. A release is a build from an unchanged
// commit that bears its tag.
func buildOf(info *debug.BuildInfo) build {
	b := build{Version: unreleased, Go: runtime.Version(), OS: runtime.GOOS, Arch: runtime.GOARCH, SQLite: store.SQLite(), Database: store.Form()}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Revision = s.Value
		case "vcs.time":
			b.Committed = s.Value
		case "vcs.modified":
			changed := s.Value == "true"
			b.Changed = &changed
		}
	}
	v := info.Main.Version
	if b.Revision != "" && b.Changed != nil && !*b.Changed && strings.HasPrefix(v, "v") && !pseudo.MatchString(v) && !strings.Contains(v, "+") {
		b.Version = v
	}
	return b
}

// Short is the version, and for what is no release the commit too.
func (b build) Short() string {
	if b.Version != unreleased || b.Revision == "" {
		return b.Version
	}
	return b.Version + " " + b.commit()
}

// commit tells the commit, shortened.
func (b build) commit() string {
	short := b.Revision[:min(12, len(b.Revision))]
	if b.Changed == nil || *b.Changed {
		return short + " with changes"
	}
	return short
}

// String tells it in one line.
func (b build) String() string {
	from := "commit unknown"
	if b.Revision != "" {
		day, _, _ := strings.Cut(b.Committed, "T")
		from = "commit " + b.commit() + " of " + day
	}
	return fmt.Sprintf("kerfside %s, %s; %s %s/%s, SQLite %s, database form %d", b.Version, from, b.Go, b.OS, b.Arch, b.SQLite, b.Database)
}
