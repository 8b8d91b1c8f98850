package release

import (
	"bytes"
	"compress/gzip"
	"embed"
	"fmt"
	"io/fs"
	"strings"
	"time"
)

//go:embed debian
var debian embed.FS

// Paths of what the Debian package puts beside the program.
const (
	debianUnit   = "usr/lib/systemd/system/kerfside.service"
	debianConfig = "etc/default/kerfside"
)

// Debian is the Debian package of a program. docs are pages and the like, under the
// names that they are installed by.
func Debian(t Target, version string, program []byte, docs []Entry, at time.Time) Package {
	fill := strings.NewReplacer("VERSION", DebianVersion(version), "ARCHITECTURE", t.Debian)
	p := Package{
		Control: fill.Replace(string(debianFile("control"))),
		Config:  []string{debianConfig},
		At:      at,
		Files: append([]Entry{
			{Name: "usr/bin/kerfside", Mode: 0o755, Data: program},
			{Name: debianUnit, Mode: 0o644, Data: debianFile("kerfside.service")},
			{Name: debianConfig, Mode: 0o644, Data: debianFile("kerfside.default")},
			{Name: "usr/share/doc/kerfside/copyright", Mode: 0o644, Data: debianFile("copyright")},
			{Name: "usr/share/doc/kerfside/changelog.gz", Mode: 0o644, Data: gzipped(changelog(version, at))},
			{Name: "usr/share/lintian/overrides/kerfside", Mode: 0o644, Data: debianFile("lintian")},
		}, docs...),
	}
	for _, name := range []string{"postinst", "prerm", "postrm"} {
		p.Scripts = append(p.Scripts, Entry{Name: name, Mode: 0o755, Data: debianFile(name)})
	}
	return p
}

// changelog says in the form of Debian's what this version is.
func changelog(version string, at time.Time) []byte {
	return fmt.Appendf(nil, "kerfside (%s) stable; urgency=medium\n\n  * What is new stands in the README.\n\n -- The authors of Kerfside <kerfside@example.com>  %s\n",
		DebianVersion(version), at.UTC().Format(time.RFC1123Z))
}

// gzipped packs a page as Debian wants it: without a name and without a time.
func gzipped(data []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		panic(err) // it is a level that there is
	}
	w.Write(data) // into memory
	w.Close()
	return b.Bytes()
}

// debianFile returns a file of the folder debian.
func debianFile(name string) []byte {
	data, err := fs.ReadFile(debian, "debian/"+name)
	if err != nil {
		panic(err) // it is embedded
	}
	return data
}

// DebianVersion writes a version of Go's as Debian orders versions: what comes before
// a release has a tilde there, and a stroke would begin Debian's own part.
func DebianVersion(version string) string {
	version = strings.Replace(strings.TrimPrefix(version, "v"), "-", "~", 1)
	version = strings.ReplaceAll(version, "-", ".")
	if version == "" || version[0] < '0' || version[0] > '9' {
		return "0~" + version
	}
	return version
}
