package guides

import "embed"

// Files holds the guides that ship with the binary.
//
//go:embed *.md
var Files embed.FS
