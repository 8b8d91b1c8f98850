package main

import (
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mayUse says for every folder of pwa, and for each module beside them, which
// others its code may import, at its start or later; every folder may import
// itself. The worker is started by its address, so nobody imports it.
var mayUse = map[string][]string{
	"browser":   {},
	"words":     {},
	"calc":      {"browser"},
	"journal":   {"browser", "calc"},
	"worker":    {"browser", "calc", "journal"},
	"draw":      {"words"},
	"parts":     {"browser", "journal", "words"},
	"guide":     {"parts", "words"},
	"pages":     {"browser", "calc", "draw", "guide", "journal", "parts", "words"},
	"today.js":  {},
	"router.js": {"browser"},
	"app.js":    {"browser", "calc", "journal", "pages", "parts", "router.js", "today.js", "words"},
	"sw.js":     {},
}

// mayName says what else types in comments and declarations may come from. They
// are gone when the code runs, so they may point up: to what a page is given.
var mayName = map[string][]string{
	"calc":      {"types"},
	"journal":   {"types"},
	"worker":    {"types"},
	"draw":      {"types"},
	"parts":     {"app.js", "calc", "today.js", "types"},
	"guide":     {"types"},
	"pages":     {"app.js", "today.js", "types"},
	"today.js":  {"journal", "types"},
	"router.js": {"app.js"},
	"app.js":    {"types"},
}

func TestArrowsOfModules(t *testing.T) {
	for _, trouble := range againstArrows(pwaModules(t)) {
		t.Error(trouble)
	}
}

func TestNoModuleImportsInACircle(t *testing.T) {
	for _, circle := range circles(pwaModules(t)) {
		t.Errorf("in a circle: %s", circle)
	}
}

// The folder says which thread runs a module, and nothing lies about unused.
func TestThreadOfModules(t *testing.T) {
	for _, trouble := range inWrongThread(pwaModules(t)) {
		t.Error(trouble)
	}
}

// Each of these is found, and named so that its place is seen.
func TestWrongModules(t *testing.T) {
	for name, c := range map[string]struct {
		files map[string]string
		find  func(map[string]jsModule) []string
		want  []string
	}{
		"up at the start": {
			files: map[string]string{"journal/a.js": `import { b } from "../parts/b.js"; b();`, "parts/b.js": `export const b = 1;`},
			find:  againstArrows, want: []string{"pwa/journal/a.js imports pwa/parts/b.js; journal may import [browser calc]"},
		},
		"up, handed on": {
			files: map[string]string{"calc/a.js": `export * from "../journal/b.js";`, "journal/b.js": `export const b = 1;`},
			find:  againstArrows, want: []string{"pwa/calc/a.js imports pwa/journal/b.js; calc may import [browser]"},
		},
		"up, later": {
			files: map[string]string{"words/a.js": `export const a = () => import("../pages/b.js");`, "pages/b.js": ``},
			find:  againstArrows, want: []string{"pwa/words/a.js loads pwa/pages/b.js; words may import []"},
		},
		"the worker": {
			files: map[string]string{"pages/a.js": `import "../worker/b.js";`, "worker/b.js": ``},
			find:  againstArrows, want: []string{"pwa/pages/a.js imports pwa/worker/b.js; pages may import [browser calc draw guide journal parts words]"},
		},
		"a type from above": {
			files: map[string]string{"journal/a.js": `/** @type {import("../pages/b.js").B} */ export let a;`, "pages/b.js": ``},
			find:  againstArrows, want: []string{"pwa/journal/a.js takes a type of pwa/pages/b.js; journal may take them of [browser calc types]"},
		},
		"a type of a declaration from above": {
			files: map[string]string{"journal/a.d.ts": `import type { B } from "../pages/b.js";`, "pages/b.js": ``},
			find:  againstArrows, want: []string{"pwa/journal/a.d.ts takes a type of pwa/pages/b.js; journal may take them of [browser calc types]"},
		},
		"a folder that nobody knows": {
			files: map[string]string{"odd/a.js": ``},
			find:  againstArrows, want: []string{"pwa/odd/a.js: say in cmd/dev/arrows_pwa_test.go what odd may import"},
		},
		"what stands in a comment or a text is no import": {
			files: map[string]string{"calc/a.js": "// import \"../pages/b.js\";\nexport const a = `import \"../pages/b.js\"`;", "pages/b.js": ``},
			find:  againstArrows,
		},
		"a circle of two, one of them later": {
			files: map[string]string{"parts/a.js": `import { b } from "./b.js"; b;`, "parts/b.js": `export const b = () => import("./a.js");`, "parts/c.js": `import "./a.js";`},
			find:  circles, want: []string{"pwa/parts/a.js imports pwa/parts/b.js loads pwa/parts/a.js"},
		},
		"a circle of three": {
			files: map[string]string{"parts/a.js": `import "./b.js";`, "parts/b.js": `import "./c.js";`, "parts/c.js": `import "./a.js";`},
			find:  circles, want: []string{"pwa/parts/a.js imports pwa/parts/b.js imports pwa/parts/c.js imports pwa/parts/a.js"},
		},
		"itself": {
			files: map[string]string{"parts/a.js": `import { a as b } from "./a.js"; export const a = () => b;`},
			find:  circles, want: []string{"pwa/parts/a.js imports pwa/parts/a.js"},
		},
		"types go round as they like": {
			files: map[string]string{"parts/a.js": `/** @type {import("./b.js").B} */ export let a;`, "parts/b.js": `import "./a.js";`},
			find:  circles,
		},
		"what the worker alone runs": {
			files: map[string]string{"app.js": `import "./journal/both.js";`, "worker/worker.js": `import "../journal/local-state.js"; import "../journal/both.js";`, "journal/local-state.js": ``, "journal/both.js": ``},
			find:  inWrongThread, want: []string{"pwa/journal/local-state.js runs in the worker alone: it belongs into pwa/worker"},
		},
		"what nobody runs": {
			files: map[string]string{"app.js": ``, "worker/worker.js": ``, "parts/old.js": ``},
			find:  inWrongThread, want: []string{"pwa/parts/old.js is imported by nothing"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			for name, text := range c.files {
				file := filepath.Join(dir, filepath.FromSlash(name))
				if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			modules, err := readModules(dir)
			if err != nil {
				t.Fatal(err)
			}
			if got := c.find(modules); !slices.Equal(got, c.want) {
				t.Errorf("found %q, want %q", got, c.want)
			}
		})
	}
}

// againstArrows names each import that no arrow allows.
func againstArrows(modules map[string]jsModule) []string {
	var troubles []string
	for _, name := range slices.Sorted(maps.Keys(modules)) {
		from := jsFolder(name)
		may, isKnown := mayUse[from]
		if !isKnown && from != "types" {
			troubles = append(troubles, "pwa/"+name+": say in cmd/dev/arrows_pwa_test.go what "+from+" may import")
			continue
		}
		of := slices.Concat(may, mayName[from])
		slices.Sort(of)
		for _, sort := range []struct {
			others    []string
			may       []string
			does, can string
		}{
			{others: modules[name].imports, may: may, does: "imports", can: "import"},
			{others: modules[name].loads, may: may, does: "loads", can: "import"},
			{others: modules[name].types, may: of, does: "takes a type of", can: "take them of"},
		} {
			for _, other := range sort.others {
				if to := jsFolder(other); to != from && !slices.Contains(sort.may, to) {
					troubles = append(troubles, "pwa/"+name+" "+sort.does+" pwa/"+other+"; "+from+" may "+sort.can+" ["+strings.Join(sort.may, " ")+"]")
				}
			}
		}
	}
	return troubles
}

// circles names a way round from each module that comes back to itself, unless
// a way already named goes through it.
func circles(modules map[string]jsModule) []string {
	named := map[string]bool{}
	var found []string
	for _, start := range slices.Sorted(maps.Keys(modules)) {
		if named[start] {
			continue
		}
		if way := wayRound(modules, start); way != nil {
			text := "pwa/" + start
			for _, step := range way {
				named[step.to] = true
				text += " " + step.does + " pwa/" + step.to
			}
			found = append(found, text)
		}
	}
	return found
}

// jsStep is one import on a way.
type jsStep struct{ from, does, to string }

// steps returns what a module imports and loads.
func (m jsModule) steps(name string) []jsStep {
	var all []jsStep
	for _, other := range m.imports {
		all = append(all, jsStep{from: name, does: "imports", to: other})
	}
	for _, other := range m.loads {
		all = append(all, jsStep{from: name, does: "loads", to: other})
	}
	return all
}

// wayRound returns the shortest way from a module back to it, nil if there is none.
func wayRound(modules map[string]jsModule, start string) []jsStep {
	came := map[string]jsStep{}
	for next := []string{start}; len(next) > 0; next = next[1:] {
		for _, step := range modules[next[0]].steps(next[0]) {
			if step.to == start {
				way := []jsStep{step}
				for at := step.from; at != start; at = came[at].from {
					way = slices.Insert(way, 0, came[at])
				}
				return way
			}
			if _, seen := came[step.to]; !seen {
				came[step.to] = step
				next = append(next, step.to)
			}
		}
	}
	return nil
}

// inWrongThread names what lies outside pwa/worker and only the worker runs, and
// what nobody runs.
func inWrongThread(modules map[string]jsModule) []string {
	page, worker := reachedFrom(modules, "app.js"), reachedFrom(modules, "worker/worker.js")
	var troubles []string
	for _, name := range slices.Sorted(maps.Keys(modules)) {
		switch {
		case path.Ext(name) != ".js" || name == "sw.js" || page[name]:
		case !worker[name]:
			troubles = append(troubles, "pwa/"+name+" is imported by nothing")
		case jsFolder(name) != "worker":
			troubles = append(troubles, "pwa/"+name+" runs in the worker alone: it belongs into pwa/worker")
		}
	}
	return troubles
}

func reachedFrom(modules map[string]jsModule, start string) map[string]bool {
	reached := map[string]bool{start: true}
	for next := []string{start}; len(next) > 0; next = next[1:] {
		for _, step := range modules[next[0]].steps(next[0]) {
			if !reached[step.to] {
				reached[step.to] = true
				next = append(next, step.to)
			}
		}
	}
	return reached
}
