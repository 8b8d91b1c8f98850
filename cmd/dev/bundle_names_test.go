package main

import (
	"strings"
	"testing"

	"github.com/evanw/esbuild/pkg/api"
)

// TestShortNames: each scope has the first letters that it does not need for others.
func TestShortNames(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{name: "the top level stays", text: "let q=1;export{q as one};", want: "let q=1;export{q as one};"},
		{name: "what is not used inside is free there", text: "let f=i=>i.map(n=>n+1);", want: "let f=t=>t.map(t=>t+1);"},
		{name: "what is used inside is not", text: "let f=i=>i.map(n=>n+i);", want: "let f=t=>t.map(e=>e+t);"},
		{name: "nor is a name of the top level or of nobody", text: "let t=1,f=i=>i+t+e;", want: "let t=1,f=s=>s+t+e;"},
		{name: "a key stays a key", text: "let f=({x,y:u=x})=>({x,u});", want: "let f=({x:t,y:e=t})=>({x:t,u:e});"},
		{name: "a choice between two is no key", text: "let f=(a,b)=>b?a:b;", want: "let f=(t,e)=>e?t:e;"},
		{name: "properties and texts stay", text: "let f=q=>q.q+`q ${q}`+\"q\"+/q/.test(q);", want: "let f=t=>t.q+`q ${t}`+\"q\"+/q/.test(t);"},
		{name: "blocks and what is caught", text: "function f(a){for(let b of a)try{b()}catch(c){a(c)}}", want: "function f(t){for(let e of t)try{e()}catch(e){t(e)}}"},
		{name: "methods, and what is private", text: "class A{#a=1;get b(){return this.#a}c(d,{e}={}){return d+e}}", want: "class A{#a=1;get b(){return this.#a}c(t,{e}={}){return t+e}}"},
		{name: "a function that is used before it is there", text: "function f(a){return g(a);function g(b){return a+b}}", want: "function f(t){return e(t);function e(e){return t+e}}"},
	} {
		changes, err := shortNames(c.text)
		if got := changed(c.text, changes); err != nil || got != c.want {
			t.Errorf("%s: %s became %s, %v; want %s", c.name, c.text, got, err, c.want)
		}
	}
	if _, err := shortNames("let a="); err == nil {
		t.Error("a broken text was taken")
	}
}

// TestManyNames: no two variables of a scope share a name, and none is a keyword.
func TestManyNames(t *testing.T) {
	seen := map[string]bool{}
	for n := range 5000 {
		if name := nthName(n); seen[name] {
			t.Fatalf("name %d is %s again", n, name)
		} else {
			seen[name] = true
		}
	}
	if !seen["in"] {
		t.Fatal("the names do not come to a keyword: this test sees nothing")
	}
	var list []string
	for n := range 5000 {
		list = append(list, "q"+nthName(n))
	}
	text := "let f=(" + strings.Join(list, ",") + ")=>1;"
	changes, err := shortNames(text)
	if err != nil || strings.Contains(changed(text, changes), ",in,") {
		t.Errorf("a variable is called in, %v", err)
	}
}

// TestSame: a name that would mean something else is found.
func TestSame(t *testing.T) {
	p, err := parseNames("let f=a=>b=>a+b;")
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]bool{"let f=b=>a=>b+a;": true, "let f=a=>a=>a+a;": false, "let f=a=>b=>f+b;": false} {
		if got := p.same(text) == nil; got != want {
			t.Errorf("same(%s) = %v", text, got)
		}
	}
}

// TestMoved: what a source map says of a place, it says of the same place after changes.
func TestMoved(t *testing.T) {
	made := api.Build(api.BuildOptions{
		Stdin:  &api.StdinOptions{Contents: "export const tell = (text) => text.map((each) => `“${each}”\n${text} ${each}`);\nexport const more = (first, second) => first + \"😀\" + second + tell(first);\n"},
		Bundle: true, Format: api.FormatESModule, MinifyWhitespace: true, MinifyIdentifiers: true, Charset: api.CharsetUTF8,
		Sourcemap: api.SourceMapExternal, Outfile: "small.js",
	})
	if len(made.Errors) > 0 {
		t.Fatal(made.Errors)
	}
	text := string(made.OutputFiles[1].Contents)
	_, mappings, _ := strings.Cut(string(made.OutputFiles[0].Contents), `"mappings": "`)
	mappings, _, _ = strings.Cut(mappings, `"`)
	changes, err := shortNames(text)
	if err != nil || len(changes) < 3 {
		t.Fatalf("changes of %s: %v, %v", text, changes, err)
	}
	now := map[int]string{}
	for _, c := range changes {
		now[c.at] = c.now
	}
	var want []string
	for _, at := range placesOf(mappings, text) {
		if name, is := now[at]; is {
			want = append(want, name)
		} else {
			want = append(want, text[at:at+1])
		}
	}
	after := changed(text, changes)
	for i, at := range placesOf(moved(mappings, text, changes), after) {
		if !strings.HasPrefix(after[at:], want[i]) {
			t.Errorf("place %d is at %.10q, not at %q", i, after[at:], want[i])
		}
	}
}

// placesOf returns where in a text the places of mappings are, in bytes.
func placesOf(mappings, text string) []int {
	var places []int
	start := 0
	lines := strings.SplitAfter(text, "\n")
	for n, line := range strings.Split(mappings, ";") {
		column := 0
		for place := range strings.SplitSeq(line, ",") {
			if place == "" {
				continue
			}
			step, _ := readNumber(place)
			column += step
			at := 0
			for columns(lines[n][:at]) < column {
				at++
			}
			places = append(places, start+at)
		}
		start += len(lines[n])
	}
	return places
}
