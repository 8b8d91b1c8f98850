//go:build !unix

package disk

// Same says yes where it cannot tell: that promises less.
func Same(a, b string) (bool, error) { return true, nil }
