package move

import (
	"encoding/hex"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// form is the number of the format.
const form = 1

// Contents is what a package holds.
type Contents struct {
	Form     int    `json:"form"`
	Crew     string `json:"crew"`
	Name     string `json:"name"`
	Move     int64  `json:"move"` // its number among the moves of the crew
	Key      []byte `json:"key"`  // public, of the hand-over
	Events   int64  `json:"events"`
	Head     string `json:"head"` // the chain at the last event, in hex
	Devices  int    `json:"devices"`
	Invites  int    `json:"invites"`
	Audit    int    `json:"audit"`
	Erased   int    `json:"erased"` // bytes of lines
	Pictures int    `json:"pictures"`
	Damaged  int    `json:"damaged"` // events whose bytes did not fit their sum on the old server either

	Bytes int64    `json:"-"` // of pictures
	Sum   [32]byte `json:"-"` // hash of the package
}

// head reads Head.
func (c Contents) head() (chain event.Chain, ok bool) {
	b, err := hex.DecodeString(c.Head)
	if err != nil || len(b) != len(chain) {
		return chain, false
	}
	return event.Chain(b), true
}

// asPackage is what the store is told of it.
func (c Contents) asPackage(access store.MovedAccess, erased []byte) store.Package {
	head, _ := c.head()
	return store.Package{Crew: c.Crew, Name: c.Name, Number: c.Move, Public: c.Key, Sum: c.Sum, Max: c.Events, Head: head, Access: access, Erased: erased}
}

// spoilt is the problem of a file that is no whole package.
func spoilt(file string, err error) error {
	return problem.Newf(problem.Refused, "file", "%s is no package of a crew, or was cut or changed on its way", file).
		WithHint("Nothing was changed. Copy it once more from the old server, and compare with sha256sum.").WithCause(err)
}
