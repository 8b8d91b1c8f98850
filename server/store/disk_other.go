//go:build !unix

package store

// sameDisk says yes where it cannot tell: that promises less.
func sameDisk(a, b string) (bool, error) { return true, nil }
