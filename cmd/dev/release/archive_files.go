package release

import (
	_ "embed"
	"io/fs"
)

//go:embed Containerfile
var containerfile []byte

// Archive is what an archive of the program holds, all in one folder.
func Archive(t Target, folder string, program []byte) []Entry {
	entries := []Entry{
		{Name: folder, Mode: fs.ModeDir | 0o755},
		{Name: folder + "/" + t.Program(), Mode: 0o755, Data: program},
	}
	if t.GOOS == "linux" {
		entries = append(entries,
			Entry{Name: folder + "/kerfside.service", Mode: 0o644, Data: debianFile("kerfside.service")},
			Entry{Name: folder + "/Containerfile", Mode: 0o644, Data: containerfile},
			Entry{Name: folder + "/data", Mode: fs.ModeDir | 0o755}) // of the Containerfile
	}
	return entries
}
