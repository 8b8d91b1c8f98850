package cutting

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// Grade is how good a cut will be, in the same three words on every screen.
type Grade string

const (
	CutsClean   Grade = "clean"
	SeversRough Grade = "rough" // dross and a rough face
	WillNotCut  Grade = "none"
)

// grades are the keys with their words.
var grades = [...]string{string(CutsClean), "cuts clean", string(SeversRough), "severs rough", string(WillNotCut), "will not cut"}

// Words says the grade as it stands in a sentence.
func (g Grade) Words() string {
	for i := 0; i < len(grades); i += 2 {
		if grades[i] == string(g) {
			return grades[i+1]
		}
	}
	return ""
}

// GradeChoice is the type of a result that is a Grade.
func GradeChoice() *form.Type { return form.OneOf(grades[:]...) }

// GradeOf grades a path of metal by what surely holds: where a limit is in
// doubt the worse grade stands, and settled is false until a trial strip tells.
func (b LimitBand) GradeOf(path unit.Length) (g Grade, settled bool) {
	within := func(least, most unit.Length) bool { return path > least && path <= most }
	settled = !within(b.Least.Clean, b.Most.Clean) && !within(b.Least.Sever, b.Most.Sever)
	switch {
	case path <= b.Least.Clean:
		return CutsClean, settled
	case path <= b.Least.Sever:
		return SeversRough, settled
	}
	return WillNotCut, settled
}
