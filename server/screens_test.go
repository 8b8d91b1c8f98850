package server

import (
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"regexp/syntax"
	"slices"
	"strings"
	"testing"

	"kerfside/pwa"
	"kerfside/server/assets"
)

// appScreen is a line of the table of screens in pwa/app.js.
type appScreen struct {
	pattern *regexp.Regexp
	class   string // of the page
	module  string // that it comes from
}

// The phone and the server know the same screens: what one of them opens the
// other sends, and with it the modules of the page that will be shown.
func TestScreensOfTheApp(t *testing.T) {
	script, err := fs.ReadFile(pwa.Files, "app.js")
	if err != nil {
		t.Fatal(err)
	}
	table, err := readScreens(string(script))
	if err != nil {
		t.Fatal(err)
	}
	if len(table) < 20 {
		t.Fatalf("only %d screens found in pwa/app.js", len(table))
	}
	for _, trouble := range screensApart(table, screens) {
		t.Error(trouble)
	}
}

func TestScreensApart(t *testing.T) {
	const script = `
import { CutPage } from "./pages/cut.js";
const screens = [
  [/^\/cut$/, "cut", "cut", () => CutPage],
  [/^\/sum\/(?<name>[\w-]+)$/, "ready", "sum", () => import("./pages/sum.js").then((m) => m.SumPage)],
];`
	cut := assets.Screen{Address: "/cut", Module: "pages/cut.js"}
	sum := assets.Screen{Address: "/sum/{name}", Module: "pages/sum.js"}
	table, err := readScreens(script)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		known []assets.Screen
		want  []string
	}{
		"the same":              {[]assets.Screen{cut, sum}, nil},
		"only the server's":     {[]assets.Screen{cut, sum, {Address: "/old", Module: "pages/old.js"}}, []string{"/old is no screen of pwa/app.js"}},
		"only the phone's":      {[]assets.Screen{sum}, []string{"pwa/app.js shows CutPage at /cut, which server/routes.go does not send"}},
		"another module":        {[]assets.Screen{cut, {Address: "/sum/{name}", Module: "pages/sums.js"}}, []string{"/sum/{name} sends pages/sums.js, and pwa/app.js shows SumPage of pages/sum.js"}},
		"another name in it":    {[]assets.Screen{cut, {Address: "/sum/{id}", Module: "pages/sum.js"}}, []string{"/sum/{id} is read by pwa/app.js as [name]"}},
		"an address cut short":  {[]assets.Screen{cut, {Address: "/sum", Module: "pages/sum.js"}}, []string{"/sum is no screen of pwa/app.js", "pwa/app.js shows SumPage at /sum/a, which server/routes.go does not send"}},
		"the same one too many": {[]assets.Screen{cut, cut, sum}, []string{"/cut stands twice in server/routes.go"}},
	} {
		if got := screensApart(table, c.known); !slices.Equal(got, c.want) {
			t.Errorf("%s: found %q, want %q", name, got, c.want)
		}
	}
}

var (
	screenLine  = regexp.MustCompile(`(?m)^  \[/(\^.*\$)/, "[\w-]*", "[\w-]+", \(\) => (?:import\("\./([\w/-]+\.js)"\)\.then\(\(m\) => m\.)?(\w+)\)?\],$`)
	screenStart = regexp.MustCompile(`(?m)^  \[/\^`)
	classImport = regexp.MustCompile(`(?m)^import \{ (\w+) \} from "\./([\w/-]+\.js)";$`)
)

// readScreens reads the table of pwa/app.js.
func readScreens(script string) ([]appScreen, error) {
	from := map[string]string{}
	for _, m := range classImport.FindAllStringSubmatch(script, -1) {
		from[m[1]] = m[2]
	}
	lines := screenLine.FindAllStringSubmatch(script, -1)
	if begun := len(screenStart.FindAllString(script, -1)); begun != len(lines) {
		return nil, fmt.Errorf("pwa/app.js has %d lines in its table of screens, and %d can be read", begun, len(lines))
	}
	var table []appScreen
	for _, m := range lines {
		pattern, err := regexp.Compile(strings.ReplaceAll(m[1], `\/`, "/"))
		if err != nil {
			return nil, err
		}
		module := m[2]
		if module == "" {
			module = from[m[3]]
		}
		table = append(table, appScreen{pattern: pattern, class: m[3], module: module})
	}
	return table, nil
}

var variable = regexp.MustCompile(`\{(\w+)\}`)

// screensApart says where the phone's table and the server's list differ.
func screensApart(table []appScreen, known []assets.Screen) []string {
	var troubles []string
	seen := map[string]bool{}
	for _, screen := range known {
		if seen[screen.Address] {
			troubles = append(troubles, screen.Address+" stands twice in server/routes.go")
		}
		seen[screen.Address] = true
		shown := shownAt(table, variable.ReplaceAllString(screen.Address, "a-1"))
		if shown == nil {
			troubles = append(troubles, screen.Address+" is no screen of pwa/app.js")
			continue
		}
		if shown.module != screen.Module {
			troubles = append(troubles, fmt.Sprintf("%s sends %s, and pwa/app.js shows %s of %s", screen.Address, screen.Module, shown.class, shown.module))
		}
		var names []string
		for _, m := range variable.FindAllStringSubmatch(screen.Address, -1) {
			names = append(names, m[1])
		}
		if read := shown.pattern.SubexpNames()[1:]; !slices.Equal(read, names) {
			troubles = append(troubles, fmt.Sprintf("%s is read by pwa/app.js as %v", screen.Address, read))
		}
	}
	for _, screen := range table {
		for _, address := range addressesOf(screen.pattern) {
			if !slices.ContainsFunc(known, func(s assets.Screen) bool { return sends(s.Address, address) }) {
				troubles = append(troubles, fmt.Sprintf("pwa/app.js shows %s at %s, which server/routes.go does not send", screen.class, address))
			}
		}
	}
	return troubles
}

// shownAt returns the screen that the phone shows at an address, nil for none.
func shownAt(table []appScreen, address string) *appScreen {
	for i := range table {
		if table[i].pattern.MatchString(address) {
			return &table[i]
		}
	}
	return nil
}

// sends reports whether an address with variables is that one.
func sends(template, address string) bool {
	given, asked := strings.Split(template, "/"), strings.Split(address, "/")
	return slices.EqualFunc(given, asked, func(part, is string) bool { return part == is || is != "" && variable.MatchString(part) })
}

// addressesOf returns the addresses that a pattern takes, with "a" for what may
// be anything.
func addressesOf(pattern *regexp.Regexp) []string {
	parsed, err := syntax.Parse(pattern.String(), syntax.Perl)
	if err != nil {
		panic(err) // it was compiled
	}
	all := map[string]bool{}
	for _, text := range textsOf(parsed) {
		all[text] = true
	}
	return slices.Sorted(maps.Keys(all))
}

func textsOf(r *syntax.Regexp) []string {
	switch r.Op {
	case syntax.OpLiteral:
		return []string{string(r.Rune)}
	case syntax.OpCharClass, syntax.OpPlus, syntax.OpStar:
		return []string{"a"}
	case syntax.OpCapture:
		return textsOf(r.Sub[0])
	case syntax.OpQuest:
		return append(textsOf(r.Sub[0]), "")
	case syntax.OpAlternate:
		var all []string
		for _, sub := range r.Sub {
			all = append(all, textsOf(sub)...)
		}
		return all
	case syntax.OpConcat:
		all := []string{""}
		for _, sub := range r.Sub {
			var longer []string
			for _, begin := range all {
				for _, end := range textsOf(sub) {
					longer = append(longer, begin+end)
				}
			}
			all = longer
		}
		return all
	}
	return []string{""} // begin and end
}
