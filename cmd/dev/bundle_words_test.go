package main

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/pwa"
)

// said is an app that says words in every way.
func said() map[string]string {
	return map[string]string{
		"words/en.js":    "export const en = {\n  \"yes\": \"Yes\", \"cut.go\": \"To the \\\"cut\\\"\", \"cut.on\": \"Go on: {n}\",\n  \"both\": \"Both\", \"kind.arc\": \"Arc\", \"no.arc\": \"No arc\", \"no.gas\": \"No gas\", \"why.worn\": \"worn\", \"rig.save\": \"Keep\", \"form.more\": \"More\", \"held\": \"Held\",\n};\n",
		"words/words.js": "import { en } from \"./en.js\";\nexport const filled = (text, v) => text.replace(/\\{(\\w+)\\}/g, (_, name) => v[name]);\nexport const say = (key, v = {}) => filled(en[key], v);\nexport const sayKnown = (key) => en[key] ?? key;\n",
		"app.js":         "import { say } from \"./words/words.js\";\nexport const began = say(\"both\");\nexport const go = () => import(\"./pages/cut.js\");\n",
		"pages/cut.js": `import { say, filled, sayKnown } from "../words/words.js";
export const cut = (n, yes) => [say(yes === "yes" ? "cut.go" : "cut.on", { n }), say("cut.go"), say("both"), sayKnown("held"), filled("{n}", { n })];
export const word = "yes";
export const kind = (e, of) => sayKnown(` + "`kind.${e}`" + `) + say(/* arc */ ` + "`no.${e}`" + `) + sayKnown(/* why */ ` + "`${of}.${e}`" + `) + say(/* rig */ ` + "`${of}.save`" + `);
`,
	}
}

var saidFiles = []joined{{name: "app.js", entry: "app.js"}, {name: "pages.js", late: []string{"pages/cut.js"}}}

// TestWordsWhereSaid: what is said by name stands there and not in the table; what
// the phone may look up stays.
func TestWordsWhereSaid(t *testing.T) {
	made, err := joinModules(lay(t, said()), saidFiles)
	if err != nil {
		t.Fatal(err)
	}
	table, err := json.Marshal(made.Words)
	if err != nil {
		t.Fatal(err)
	}
	start, late, page := made.Files["app.js"].Text, made.Files["pages.js"].Text, string(table)
	for _, c := range []struct {
		what, in string
		has      bool
	}{
		{what: `To the "cut"`, in: late, has: true}, {what: "Go on: {n}", in: late, has: true}, {what: "cut.", in: late},
		{what: "To the", in: start}, {what: "Go on", in: start}, {what: "cut.go", in: start}, {what: "cut.", in: page},
		{what: "both", in: page}, {what: "both:", in: start}, {what: "Both", in: start, has: true}, {what: "Both", in: late, has: true}, {what: `"both"`, in: late}, // two files say it
		{what: `"yes":"Yes"`, in: page, has: true}, {what: "Arc", in: page, has: true}, {what: "No arc", in: page, has: true}, {what: "No gas", in: page}, {what: "worn", in: page, has: true}, // one may look them up
		{what: "Keep", in: page, has: true}, {what: "More", in: page}, {what: "Held", in: page, has: true},
		{what: "Yes", in: start}, {what: "No gas", in: start}, {what: "More", in: start}, {what: "Held", in: start}, {what: `getElementById("words")`, in: start, has: true},
	} {
		if strings.Contains(c.in, c.what) != c.has {
			t.Errorf("%q is in this: %v, want %v: %s", c.what, !c.has, c.has, c.in)
		}
	}
}

// TestWordsTrouble: what the bundler cannot follow, and a key without words, are
// told with their place.
func TestWordsTrouble(t *testing.T) {
	for _, c := range []struct{ name, call, want string }{
		{name: "no such key", call: `say("cut.gone")`, want: "no words for cut.gone"},
		{name: "none of two", call: `say(n ? "cut.go" : "cut.gone")`, want: "no words for cut.gone"},
		{name: "a key from elsewhere", call: `say(key)`, want: "name the key here"},
		{name: "a key that begins as none", call: "say(/* rig | sit */ `${key}.save`)", want: "no words for it with sit"},
		{name: "a key that begins anyhow", call: "say(`${key}.save`)", want: "with what it begins"},
	} {
		t.Run(c.name, func(t *testing.T) {
			modules := said()
			modules["pages/cut.js"] = "import { say } from \"../words/words.js\";\nexport const cut = (n, key) => " + c.call + ";\n"
			if _, err := joinModules(lay(t, modules), saidFiles); err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "pwa/pages/cut.js") {
				t.Errorf("joinModules = %v, want an error that names %s and the module", err, c.want)
			}
		})
	}
}

// TestWordsOfThePhone: most keys are gone from the phone's files, and none is said that is.
func TestWordsOfThePhone(t *testing.T) {
	app, err := os.ReadFile(filepath.Join("..", "..", "pwa", "app.js"))
	if err != nil {
		t.Fatal(err)
	}
	made, err := joinModules(filepath.Join("..", "..", "pwa"), withRest(pageFiles, app))
	if err != nil {
		t.Fatal(err)
	}
	var whole strings.Builder
	for _, name := range slices.Sorted(maps.Keys(made.Files)) {
		whole.WriteString(made.Files[name].Text)
	}
	all, kept := 0, 0
	for _, table := range pwa.WordTables {
		text, err := os.ReadFile(filepath.Join("..", "..", "pwa", filepath.FromSlash(table)))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range pwa.WordEntry.FindAllStringSubmatch(string(text), -1) {
			all++
			if _, isKept := made.Words[m[1]]; isKept {
				kept++
			} else if strings.Contains(whole.String(), `"`+m[1]+`"`) {
				t.Errorf("the phone's files say %s, which left the table", m[1])
			}
		}
	}
	if all < 500 || kept > all*3/4 {
		t.Errorf("%d of %d keys stayed", kept, all)
	}
}
