package release

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// Package is a Debian package. Its form is described in deb(5) and deb-control(5).
type Package struct {
	Control string    // the file control, but for Installed-Size
	Scripts []Entry   // what is run as it is installed and removed
	Files   []Entry   // what is installed; the folders follow from the names
	Config  []string  // names of those files that belong to the machine's owner
	At      time.Time // when all of it was changed
}

// Write writes the package. The same content gives the same bytes.
func (p Package) Write(w io.Writer) error {
	kilobytes := 0
	var config, sums strings.Builder
	for _, f := range sorted(p.Files) {
		kilobytes += (len(f.Data) + 1023) / 1024
		if !slices.Contains(p.Config, f.Name) {
			fmt.Fprintf(&sums, "%x  %s\n", md5.Sum(f.Data), f.Name) // the form knows no other sum
		}
	}
	for _, name := range p.Config {
		fmt.Fprintf(&config, "/%s\n", name)
	}
	about := append([]Entry{
		{Name: "control", Mode: 0o644, Data: fmt.Appendf([]byte(p.Control), "Installed-Size: %d\n", kilobytes)},
		{Name: "conffiles", Mode: 0o644, Data: []byte(config.String())},
		{Name: "md5sums", Mode: 0o644, Data: []byte(sums.String())},
	}, p.Scripts...)
	var control, data bytes.Buffer
	if err := WriteTarGz(&control, dotted(about), p.At); err != nil {
		return err
	}
	if err := WriteTarGz(&data, dotted(append(folders(p.Files), p.Files...)), p.At); err != nil {
		return err
	}
	if _, err := io.WriteString(w, "!<arch>\n"); err != nil {
		return err
	}
	for _, e := range []Entry{
		{Name: "debian-binary", Mode: 0o644, Data: []byte("2.0\n")},
		{Name: "control.tar.gz", Mode: 0o644, Data: control.Bytes()},
		{Name: "data.tar.gz", Mode: 0o644, Data: data.Bytes()},
	} {
		if err := writeMember(w, e, p.At); err != nil {
			return err
		}
	}
	return nil
}

// writeMember writes a file of an ar archive, which is filled up to an even length.
func writeMember(w io.Writer, e Entry, at time.Time) error {
	_, err := fmt.Fprintf(w, "%-16s%-12d%-6d%-6d%-8o%-10d`\n", e.Name, at.Unix(), 0, 0, 0o100000|e.Mode.Perm(), len(e.Data))
	if err != nil {
		return err
	}
	if len(e.Data)%2 == 1 {
		e.Data = append(bytes.Clone(e.Data), '\n')
	}
	_, err = w.Write(e.Data)
	return err
}

// folders returns the folders that the entries lie in.
func folders(entries []Entry) []Entry {
	var all []Entry
	for _, e := range entries {
		for dir := path.Dir(e.Name); dir != "."; dir = path.Dir(dir) {
			if !slices.ContainsFunc(all, func(f Entry) bool { return f.Name == dir }) {
				all = append(all, Entry{Name: dir, Mode: fs.ModeDir | 0o755})
			}
		}
	}
	return append(all, Entry{Name: "", Mode: fs.ModeDir | 0o755})
}

// dotted returns the entries under the names that they have in a package.
func dotted(entries []Entry) []Entry {
	all := slices.Clone(entries)
	for i, e := range all {
		all[i].Name = strings.TrimSuffix("./"+e.Name, "/")
	}
	return all
}
