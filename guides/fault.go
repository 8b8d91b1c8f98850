package guides

import (
	"fmt"
	"sort"
	"strings"
)

// Fault is one thing to mend in a guide, with where it stands and what to do.
type Fault struct {
	File string
	Line int
	Msg  string
}

// Faults is what Load and Parse return as their error: all there is to mend,
// by file and line.
type Faults []Fault

// Error lists the faults as "file:line: message", one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.Msg)
	}
	return strings.Join(lines, "\n")
}

// orNil sorts the faults and returns them as an error, or nil if there is none.
func (fs Faults) orNil() error {
	if len(fs) == 0 {
		return nil
	}
	sort.SliceStable(fs, func(i, j int) bool {
		if fs[i].File != fs[j].File {
			return fs[i].File < fs[j].File
		}
		return fs[i].Line < fs[j].Line
	})
	return fs
}
