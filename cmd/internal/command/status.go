package command

import (
	"errors"

	"kerfside/calc/problem"
)

// Status is what a program ends with, for scripts and for what starts it.
type Status struct {
	Code  int
	Means string         // in words, to stand behind the number
	kinds []problem.Kind // of problems that end in it
}

// Codes of Statuses.
const (
	Done = iota
	Failed
	Usage
	InUse
	NotAll
)

// Statuses is all that there are, by code.
var Statuses = []Status{
	{Code: Done, Means: "Done."},
	{Code: Failed, Means: "It could not be done. The reason and what to do are on standard error."},
	{
		Code: Usage, Means: "The command line cannot be used as it stands: a command, a flag, a word or a value. Nothing was done, and the same line will fail again.",
		kinds: []problem.Kind{problem.Missing, problem.Malformed, problem.Unit, problem.Range, problem.Unknown, problem.Conflict, problem.TooLarge},
	},
	{
		Code: InUse, Means: "Another program uses the database or the address. The same line may do later.",
		kinds: []problem.Kind{problem.Busy, problem.SlowDown},
	},
	{Code: NotAll, Means: "Done, but not for all: what is damaged was left out. What was printed counts it."},
}

// ErrNotAll ends a command with NotAll. It was told already.
var ErrNotAll = errors.New("done, but not for all")

// StatusOf returns the code that a program ends with after err.
func StatusOf(err error) int {
	switch {
	case err == nil:
		return Done
	case errors.Is(err, ErrNotAll):
		return NotAll
	}
	kind := problem.KindOf(err)
	for _, s := range Statuses {
		for _, k := range s.kinds {
			if k == kind {
				return s.Code
			}
		}
	}
	return Failed
}
