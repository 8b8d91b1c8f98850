package store

import (
	"errors"

	"kerfside/calc/problem"
)

// ErrInUse is behind the problem of a store that another process has open.
var ErrInUse = errors.New("the lock is taken")

// inUse is the problem of a second opener.
func inUse(path, hint string, err error) error {
	return problem.Newf(problem.Busy, "db", "the database %s is in use by another kerfside", path).
		WithHint("%s", hint).WithCause(errors.Join(ErrInUse, err))
}
