package backup

import (
	"fmt"
	"os"
	"slices"
	"time"

	"kerfside/server/store"
)

// How many backups are kept: the newest of each of the last days, weeks and
// months that have one.
const (
	keepDays   = 7
	keepWeeks  = 5
	keepMonths = 12
)

// kept returns which of times to keep.
func kept(times []time.Time) map[time.Time]bool {
	newest := slices.SortedFunc(slices.Values(times), func(a, b time.Time) int { return b.Compare(a) })
	keep := map[time.Time]bool{}
	for _, rule := range []struct {
		most int
		name func(time.Time) string
	}{
		{keepDays, func(t time.Time) string { return t.Format(time.DateOnly) }},
		{keepWeeks, func(t time.Time) string { y, w := t.ISOWeek(); return fmt.Sprint(y, w) }},
		{keepMonths, func(t time.Time) string { return t.Format("2006-01") }},
	} {
		seen := map[string]bool{}
		for _, t := range newest {
			if name := rule.name(t); !seen[name] && len(seen) < rule.most {
				seen[name], keep[t] = true, true
			}
		}
	}
	return keep
}

// thinOut removes the backups of a store that are not to be kept. Other files
// are left alone.
func thinOut(path, dir string) (removed int, err error) {
	times, err := store.Copies(path, dir)
	if err != nil {
		return 0, err
	}
	keep := kept(times)
	for _, t := range times {
		if keep[t] {
			continue
		}
		if err := os.Remove(store.CopyFile(path, dir, t)); err != nil {
			return removed, fmt.Errorf("remove an old backup: %w", err)
		}
		removed++
	}
	return removed, nil
}
