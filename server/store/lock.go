package store

import "errors"

// errInUse is the error of a store that another process has open.
var errInUse = errors.New("is in use by another kerfside")
