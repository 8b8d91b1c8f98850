package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// shellKinds are the kinds of files that make the screens; "" is the page itself.
var shellKinds = []string{"", ".css", ".js", ".svg", ".png", ".webmanifest"}

// checkSizes holds the sizes against their budgets.
func checkSizes(s *score, _ bool) {
	found, err := measureSizes()
	if err != nil {
		s.check("sizes", err)
		return
	}
	for _, b := range budgets {
		if b.part == "sizes" {
			s.budget(b, found[b.name])
		}
	}
}

// measureSizes starts a release, fetches all that a phone keeps, as a phone would,
// says what it weighs by folder, and returns the sizes that budgets name.
func measureSizes() (map[string]int64, error) {
	r, err := startInstance()
	if err != nil {
		return nil, err
	}
	defer r.stop()
	sums, err := r.keptSizes()
	if err != nil {
		return nil, err
	}
	for _, folder := range slices.Sorted(maps.Keys(sums.folders)) {
		say("  %-12s %9s", folder, kilobytes(sums.folders[folder]))
	}
	journal, err := journalSize("pwa")
	if err != nil {
		return nil, err
	}
	say("%-14s %9s, without a budget: guides and what the calculators declare", "texts", kilobytes(sums.texts))
	info, err := os.Stat(r.binary)
	if err != nil {
		return nil, err
	}
	return map[string]int64{
		"shell": sums.first, "first-code": sums.firstCode, "code": sums.code, "screens": sums.shell,
		"calc.wasm": sums.wasm, "journal": journal, "binary": info.Size(),
	}, nil
}

// budget counts one size against its limit.
func (s *score) budget(b budget, got int64) {
	size, limit := b.unit(float64(got)), b.unit(b.limit)
	say("%-14s %9s of %9s", b.name, size, limit)
	if float64(got) > b.limit {
		s.miss(fmt.Sprintf("%s: %s is over the budget of %s", b.name, size, limit), "Find what grew: git log --stat")
		return
	}
	s.pass(1)
}

// sizes are the packed bytes of what a phone keeps.
type sizes struct {
	shell, wasm, texts int64
	folders            map[string]int64 // the screens by folder of pwa
	first              int64            // what the page itself names: what the first screen waits for
	code, firstCode    int64            // JavaScript, of all and of the first
}

var precache = regexp.MustCompile(`"(/[^"]*)"`)

// keptSizes fetches every file that the service worker lists.
func (r *instance) keptSizes() (sizes, error) {
	worker, err := r.fetch("/sw.js")
	if err != nil {
		return sizes{}, err
	}
	page, err := r.fetch("/")
	if err != nil {
		return sizes{}, err
	}
	sums := sizes{shell: worker.packed, code: worker.packed, folders: map[string]int64{"sw.js": worker.packed}, first: page.packed}
	_, list, _ := strings.Cut(worker.text, `["/",`)
	list, _, _ = strings.Cut(list, "]")
	files := precache.FindAllStringSubmatch(`"/",`+list, -1)
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
			isFirst := strings.Contains(page.text, `"`+m[1]+`"`) && m[1] != "/"
			if isFirst {
				sums.first += got.packed
			}
			if path.Ext(m[1]) == ".js" {
				sums.code += got.packed
				if isFirst {
					sums.firstCode += got.packed
				}
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
func (r *instance) fetch(address string) (fetched, error) {
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

// journalModules are what the journal's budget is for: the store, in pwa/journal
// itself, and what folds and syncs it in the worker. What a phone does once in a
// while has folders of its own there.
var journalModules = []string{"journal/*.js", "worker/fold-loop.js", "worker/sync-loop.js", "worker/apply.js", "worker/long-poll.js"}

// journalSize returns what the journal's store and sync take by gzip, joined.
func journalSize(dir string) (int64, error) {
	root, err := filepath.Abs(dir)
	if err != nil {
		return 0, err
	}
	counted := map[string]bool{}
	var start strings.Builder
	for _, pattern := range journalModules {
		paths, err := fs.Glob(os.DirFS(root), pattern)
		if err != nil {
			return 0, err
		}
		if len(paths) == 0 {
			return 0, fmt.Errorf("nothing is called pwa/%s: the journal's size would be told too small", pattern)
		}
		for _, module := range paths {
			counted[module] = true
			fmt.Fprintf(&start, "export * from %q;\n", "./"+module)
		}
	}
	j := joiner{root: root}
	o := j.options("journal.js", start.String(), func(build api.PluginBuild) {
		build.OnResolve(api.OnResolveOptions{Filter: "^\\."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
			if counted[j.nameOf(args)] {
				return api.OnResolveResult{}, nil
			}
			return api.OnResolveResult{Path: args.Path, External: true}, nil
		})
	})
	o.Sourcemap = api.SourceMapNone
	made, err := j.run(o)
	if err != nil {
		return 0, err
	}
	text := string(made.OutputFiles[0].Contents)
	changes, err := shortNames(text)
	if err != nil {
		return 0, err
	}
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return 0, err
	}
	w.Write([]byte(changed(text, changes))) // into memory: cannot fail
	w.Close()
	return int64(packed.Len()), nil
}
