// Package pwa holds the phone app: plain HTML, CSS and ES modules that the
// browser runs as they lie here, and in gen/ the calculators built as
// WebAssembly.
package pwa

import "embed"

// Files are the app's files. Of gen all but calc.wasm as it is, which lies there packed
// as well; a fresh clone compiles before anything is built into it.
//
//go:embed index.html sw.js manifest.webmanifest app.js router.js today.js browser calc css draw gen/*.[bgjm]* guide icons install journal pages parts worker words
var Files embed.FS
