// Package order sorts slices by a comparison. The standard library's generic
// sorts are compiled anew for each type of element, which made up a tenth of the
// phone's WebAssembly; these share one body.
package order

import (
	"cmp"
	"slices"
	"sort"
)

// Sort sorts s by compare, which returns a negative number when a comes before
// b. Equal elements may change places.
func Sort[E any](s []E, compare func(a, b E) int) {
	sort.Slice(s, func(i, j int) bool { return compare(s[i], s[j]) < 0 })
}

// Stable is Sort but leaves equal elements in their order.
func Stable[E any](s []E, compare func(a, b E) int) {
	sort.SliceStable(s, func(i, j int) bool { return compare(s[i], s[j]) < 0 })
}

// Sorted returns a sorted copy of s.
func Sorted[E any](s []E, compare func(a, b E) int) []E {
	s = slices.Clone(s)
	Sort(s, compare)
	return s
}

// Keys returns the keys of m in order.
func Keys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	Sort(keys, cmp.Compare)
	return keys
}
