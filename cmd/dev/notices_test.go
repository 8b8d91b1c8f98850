package main

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// noticed is how the notices begin with a module.
var noticed = regexp.MustCompile(`(?m)^={72}\n(\S+\.\S+/\S+) (v\S+)\nIn (.*)\.$`)

// TestNoticesOfAllThatIsLinked: the notices have each module that the Go command
// lists for the program and for the phone, in the version of go.mod, and no other.
func TestNoticesOfAllThatIsLinked(t *testing.T) {
	t.Chdir("../..")
	text, err := os.ReadFile(noticesFile)
	if err != nil {
		t.Fatal(err)
	}
	told := map[string][]string{} // by what it is in
	required, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range noticed.FindAllStringSubmatch(string(text), -1) {
		for _, in := range strings.Split(m[3], " and ") {
			told[in] = append(told[in], m[1])
		}
		if !strings.Contains(string(required), "\t"+m[1]+" "+m[2]) {
			t.Errorf("go.mod does not require %s %s", m[1], m[2])
		}
	}
	for in, ask := range map[string][]string{
		"the program":             {"GOOS=" + "linux", "./cmd/kerfside"},
		"what it sends to phones": {"GOOS=js", "GOARCH=wasm", "./cmd/wasm"},
	} {
		c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ask[len(ask)-1])
		c.Env = append(append(os.Environ(), "CGO_ENABLED=1"), ask[:len(ask)-1]...)
		out, err := c.Output()
		if err != nil {
			t.Fatal(err)
		}
		want := strings.Fields(string(out))
		slices.Sort(want)
		want = slices.DeleteFunc(slices.Compact(want), func(path string) bool { return path == module })
		if slices.Sort(told[in]); !slices.Equal(told[in], want) || len(want) == 0 {
			t.Errorf("in %s are %q, and the notices tell of %q: go run ./cmd/dev notices", in, want, told[in])
		}
	}
	for _, sought := range []string{"Copyright 2009 The Go Authors", "The author disclaims copyright to this source code", "THIRD_PARTY_LICENSES/Cephes-LICENSE", "Yasuhiro Matsumoto"} {
		if !strings.Contains(string(text), sought) {
			t.Errorf("the notices do not have %q", sought)
		}
	}
}

// TestNoticesAreNew: the file is what the task writes.
func TestNoticesAreNew(t *testing.T) {
	t.Chdir("../..")
	want, err := linkedNotices()
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(noticesFile); err != nil || string(got) != string(want) {
		t.Errorf("%s is out of date, %v: go run ./cmd/dev notices", noticesFile, err)
	}
}
