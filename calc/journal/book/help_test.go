package book

import (
	"encoding/json"
	"strconv"

	"kerfside/calc/problem"
)

func itoa(n int64) string { return strconv.FormatInt(n, 10) }

func jsonOf(v any) (string, error) {
	raw, err := json.Marshal(v)
	return string(raw), err
}

// fieldOf is the question that an error is about.
func fieldOf(err error) string {
	if p := problem.From(err); p != nil {
		return p.Field
	}
	return ""
}
