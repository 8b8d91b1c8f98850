package pwa

import (
	_ "embed"
	"encoding/json"
)

// Browsers are the oldest versions that the app serves, such as "15.6". What
// ships is held to them, and the notice on the page names them. Chrome's is also
// that of other browsers on Android but Firefox, and Safari's that of iOS.
type Browsers struct {
	Chrome  string `json:"chrome"`
	Firefox string `json:"firefox"`
	Safari  string `json:"safari"`
}

// browsersFile is the one place where they stand.
//
//go:embed browsers.json
var browsersFile []byte

// Oldest returns them.
func Oldest() Browsers {
	var oldest Browsers
	if err := json.Unmarshal(browsersFile, &oldest); err != nil {
		panic(err) // it is embedded: a test reads it
	}
	return oldest
}
