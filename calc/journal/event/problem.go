package event

import "kerfside/calc/problem"

// TooLong is the problem of an event of so many bytes.
func TooLong(bytes int) *problem.Error {
	return problem.Newf(problem.TooLarge, "raw", "the entry has %d bytes", bytes).
		WithHint("At most %d bytes; split a long note.", MaxEvent)
}

// Malformed is the problem of a key that does not keep to the format.
func Malformed(key, msg string) *problem.Error {
	return problem.New(problem.Malformed, key, msg, "Export it and enter it again by hand.")
}
