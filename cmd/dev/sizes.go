package main

import (
	"fmt"
	"io"
	"maps"
	"net/http"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
)

// The budgets, in bytes as they go over the air. The shell is what the first
// screen waits for: the page, its style and the modules that it names; 70 KB
// take under half a second at 1.6 Mbit/s. All screens, with their drawings and
// icons, come behind it without anybody waiting.
const (
	shellBudget  = 70_000
	screenBudget = 150_000
	wasmBudget   = 1_010_000
	binaryBudget = 30_000_000 // stripped, on disk
)

// shellKinds are the kinds of files that make the screens; "" is the page itself.
var shellKinds = []string{"", ".css", ".js", ".svg", ".png", ".webmanifest"}

// checkSizes starts a release, fetches all that a phone keeps, as a phone
// would, and holds the sums against the budgets.
func checkSizes(s *score, _ bool) {
	r, err := startRelease()
	if err != nil {
		s.check("sizes", err)
		return
	}
	defer r.stop()
	sums, err := r.keptSizes()
	if err != nil {
		s.check("sizes", err)
		return
	}
	s.budget("shell", sums.first, shellBudget, kilobytes)
	s.budget("all screens", sums.shell, screenBudget, kilobytes)
	for _, folder := range slices.Sorted(maps.Keys(sums.folders)) {
		say("  %-12s %9s", folder, kilobytes(sums.folders[folder]))
	}
	s.budget("calc.wasm", sums.wasm, wasmBudget, megabytes)
	say("%-14s %9s, without a budget: guides and what the calculators declare", "texts", kilobytes(sums.texts))
	info, err := os.Stat(r.binary)
	if err != nil {
		s.check("binary", err)
		return
	}
	s.budget("binary", info.Size(), binaryBudget, megabytes)
}

// budget counts one size against its limit.
func (s *score) budget(name string, got, limit int64, print func(int64) string) {
	say("%-14s %9s of %9s", name, print(got), print(limit))
	if got > limit {
		s.miss(fmt.Sprintf("%s: %s is over the budget of %s", name, print(got), print(limit)), "Find what grew: git log --stat")
		return
	}
	s.pass(1)
}

// sizes are the packed bytes of what a phone keeps.
type sizes struct {
	shell, wasm, texts int64
	folders            map[string]int64 // the screens by folder of pwa
	first              int64            // what the page itself names: what the first screen waits for
}

var precache = regexp.MustCompile(`"(/[^"]*)"`)

// keptSizes fetches every file that the service worker lists.
func (r *release) keptSizes() (sizes, error) {
	worker, err := r.fetch("/sw.js")
	if err != nil {
		return sizes{}, err
	}
	page, err := r.fetch("/")
	if err != nil {
		return sizes{}, err
	}
	sums := sizes{shell: worker.packed, folders: map[string]int64{"sw.js": worker.packed}, first: page.packed}
	_, list, _ := strings.Cut(worker.text, "const FILES")
	list, _, _ = strings.Cut(list, "\n")
	files := precache.FindAllStringSubmatch(list, -1)
	if len(files) < 5 {
		return sizes{}, fmt.Errorf("/sw.js lists only %d files", len(files))
	}
	for _, m := range files {
		got, err := r.fetch(m[1])
		if err != nil {
			return sizes{}, err
		}
		switch {
		case strings.HasSuffix(m[1], ".wasm"):
			sums.wasm += got.packed
		case slices.Contains(shellKinds, path.Ext(m[1])):
			sums.shell += got.packed
			sums.folders[folderOf(m[1])] += got.packed
			if strings.Contains(page.text, `"`+m[1]+`"`) && m[1] != "/" {
				sums.first += got.packed
			}
		default:
			sums.texts += got.packed
		}
	}
	if sums.wasm == 0 {
		return sizes{}, fmt.Errorf("/sw.js lists no calc.wasm: the set-up step wasm has not run")
	}
	return sums, nil
}

// folderOf returns the folder of pwa that an address like /a/HASH/parts/pad.js
// belongs to.
func folderOf(address string) string {
	parts := strings.SplitN(strings.TrimPrefix(address, "/"), "/", 4)
	if parts[0] != "a" || len(parts) < 3 {
		return "index.html"
	}
	return parts[2]
}

// fetched is a reply: its packed size, and its text where it was not packed.
type fetched struct {
	packed int64
	text   string
}

// fetch asks for a file as a browser would, packed by brotli, and once more
// unpacked for its text.
func (r *release) fetch(address string) (fetched, error) {
	var got fetched
	for _, coding := range []string{"br", "identity"} {
		ask, err := http.NewRequest("GET", r.url+address, nil)
		if err != nil {
			return got, err
		}
		ask.Header.Set("Accept-Encoding", coding)
		reply, err := http.DefaultClient.Do(ask)
		if err != nil {
			return got, err
		}
		body, err := io.ReadAll(reply.Body)
		reply.Body.Close()
		if err != nil {
			return got, err
		}
		if reply.StatusCode != http.StatusOK {
			return got, fmt.Errorf("%s answers %s", address, reply.Status)
		}
		if coding == "br" {
			got.packed = int64(len(body))
		} else {
			got.text = string(body)
		}
	}
	return got, nil
}
