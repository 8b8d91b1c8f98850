package main

import (
	"strings"
	"testing"
)

// Each of these would stop the app at its first line in an old Safari.
func TestNewSyntaxIsRefused(t *testing.T) {
	for name, text := range map[string]string{
		"look-behind":          `export const a = "b".replace(/(?<=x)y/, "z");`,
		"negative look-behind": `export const a = /(?<!x)y/;`,
		"block of a class":     `export class A { static b; static { A.b = 1; } }`,
		"flag v":               `export const a = /[a--b]/v;`,
		"using":                `export function f(a) { using b = a; return b; }`,
	} {
		err := refuseNewSyntax(map[string][]byte{"a.js": []byte("export const old = 1;\n" + text)})
		if err == nil || !strings.HasPrefix(err.Error(), "pwa/a.js") {
			t.Errorf("%s: refuseNewSyntax = %v, want pwa/a.js refused", name, err)
		}
	}
	for text, want := range map[string]bool{"var a = 1;": true, "const a = 1;": false, "(() => 1)();": false} {
		err := refuseNewSyntax(map[string][]byte{"index.html": []byte("<p>1</p>\n<script>\n" + text + "\n</script>\n<p>2</p>")})
		if (err == nil) != want {
			t.Errorf("refuseNewSyntax of a page with %q = %v", text, err)
		}
	}
	fit := `export class A { #b = 1; c = this.#b?.d ?? 2; static e = [1].at(-1); async *f() { for await (const g of this.c) yield /(?<name>x)/u.exec(g); } }`
	if err := refuseNewSyntax(map[string][]byte{"a.js": []byte(fit)}); err != nil {
		t.Errorf("refuseNewSyntax = %v, want what Safari 15 reads to pass", err)
	}
}
