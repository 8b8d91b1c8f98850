package journaltest

import (
	"fmt"
	"strings"
)

// ManyKeys is an object with n keys, none twice.
func ManyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `,"%x":0`, i)
	}
	return "{" + b.String()[1:] + "}"
}
