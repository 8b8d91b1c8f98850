package unit

import "fmt"

// Count tells how many there are of a thing: 1 start, 2 starts. n is a number, or the
// text that stands for one.
func Count(n any, one, many string) string {
	text := fmt.Sprint(n)
	if text == "1" {
		return text + " " + one
	}
	return text + " " + many
}
