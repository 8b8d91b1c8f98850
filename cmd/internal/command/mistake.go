package command

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// Mistake is something mistyped on the command line. It was found before
// anything was done.
type Mistake struct{ problem *problem.Error }

func (m *Mistake) Error() string { return m.problem.Error() }

// Unwrap returns the problem as it is told.
func (m *Mistake) Unwrap() error { return m.problem }

// Mistyped makes a mistake: what was wrong, and what to write instead.
func Mistyped(kind problem.Kind, what, instead string) error {
	return &Mistake{problem.New(kind, "", what, instead)}
}

// NoSuch says that there is no such thing, and names the one that was meant or
// all, where they are few; list is the line that lists them.
func NoSuch(what, typed string, names []string, list string) error {
	instead := list + " lists all."
	if near := nearest(typed, names); near != "" {
		instead = "Do you mean " + near + "? " + list + " lists all."
	} else if len(names) <= few {
		instead = "There are " + strings.Join(names, ", ") + "; " + list + " explains them."
	}
	return Mistyped(problem.Unknown, "there is no "+what+" "+quote(typed), instead)
}

// few is how many names a line may list.
const few = 20

func mistake(kind problem.Kind, what, instead string, args ...any) error {
	return Mistyped(kind, what, fmt.Sprintf(instead, args...))
}

// quote shows what was typed on one line, whatever is in it.
func quote(typed string) string { return strconv.Quote(typed) }

// nearest returns the name that what was typed was most likely meant to be, or
// "" if none is close: one slip of a finger for each three letters, or a name
// cut short.
func nearest(typed string, names []string) string {
	best, least := "", max(1, len([]rune(typed))/3)+1
	for _, name := range names {
		if d := slips([]rune(typed), []rune(name)); d < least {
			best, least = name, d
		}
	}
	if best != "" || len(typed) < 3 {
		return best
	}
	for _, name := range names {
		if len(name) > len(typed) && name[:len(typed)] == typed {
			return name
		}
	}
	return ""
}

// slips counts the letters to put in, take out, change or swap with their
// neighbour until a is b: the optimal string alignment distance.
func slips(a, b []rune) int {
	rows := [3][]int{make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)}
	before, last, now := rows[0], rows[1], rows[2]
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			differ := 1
			if a[i-1] == b[j-1] {
				differ = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+differ)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
