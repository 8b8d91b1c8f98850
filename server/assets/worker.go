package assets

import (
	"bytes"
	"encoding/json"
	"regexp"
)

// placeOfStarts is where the service worker has what the pages of a start ask for,
// as it was written and as it was joined.
var placeOfStarts = regexp.MustCompile(`\{ ?STARTS: ?"" ?\}`)

// addWorker fills in the service worker: what it keeps, and what the addresses of
// a start ask for beside the rest.
func (b *build) addWorker(source []byte, kept []string, code code) error {
	list, err := json.Marshal(append([]string{"/", "/manifest.webmanifest"}, kept...))
	if err != nil {
		return err
	}
	starts := map[string]string{}
	for _, screen := range b.screens {
		if screen.IsStart {
			starts[screen.Address] = links(b.hash, code.beside(screen.Module))
		}
	}
	startList, err := json.Marshal(starts)
	if err != nil {
		return err
	}
	worker := bytes.ReplaceAll(source, []byte("BUILD-HASH"), []byte(b.hash+"-"+shortHash(b.shells[""].raw())))
	worker = bytes.ReplaceAll(worker, []byte(`["PRECACHE"]`), list)
	worker = placeOfStarts.ReplaceAllLiteral(worker, startList)
	b.worker = newFile(workerFile, worker, "no-cache")
	return nil
}
