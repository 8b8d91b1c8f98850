package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// deepProgram grows and collects its stack with pointers on it, recovers from panics,
// the runtime's own too, and breaks off at the end: all that the runtime walks the
// stack for.
const deepProgram = `package main

import (
	"fmt"
	"reflect"
	"runtime"
)

type link struct {
	up *link
	n  int
}

//go:noinline
func deep(up *link, n int) int {
	if n == 0 {
		runtime.GC()
		sum := 0
		for l := up; l != nil; l = l.up {
			sum += l.n
		}
		return sum
	}
	return deep(&link{up, n}, n-1) + len(make([]byte, n))
}

type box struct{ up *link }

func (b box) Deep(n int) int { return deep(b.up, n) }

func caught() (what any) {
	defer func() { what = recover() }()
	var none map[string]int
	none["a"] = deep(nil, 10)
	return nil
}

// uncaught recovers one call too deep, which is no recovering, and then as it should.
func uncaught() (what any) {
	defer func() { what = recover() }()
	defer func() { recovers() }()
	panic("too deep")
}

func recovers() { recover() }

// lists walks a list in a loop until it ends in nothing, collects, and counts in its
// deferred calls how far it came.
func lists(n int) (far int, what any) {
	var all *link
	for i := range n {
		all = &link{all, i}
	}
	defer func() { what = recover() }()
	for l := all; ; l = l.up {
		defer func() { far += l.n - deep(l, 3) + deep(l, 2) }()
		if l.n%3 == 0 {
			runtime.Gosched()
		}
		far += len(fmt.Sprint(l.n)) // breaks off behind the last
	}
}

//go:noinline
func breakOff() { panic("as it should") }

func main() {
	sums := make(chan int)
	for i := range 20 {
		go func() { sums <- deep(nil, 500*i) }()
	}
	all := 0
	for range 20 {
		all += <-sums
	}
	method := reflect.ValueOf(box{&link{nil, 7}}).Method(0).Interface().(func(int) int)
	fmt.Println(all+method(700), caught(), uncaught())
	fmt.Println(lists(40))
	breakOff()
}
`

// What is slim runs as what was linked, and its trace names our functions, no other
// and no lines.
func TestSlimWasm(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"main.go": deepProgram, "go.mod": "module deep\n\ngo 1.24\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(dir, "deep.wasm")
	if err := cmd("go", "build", "-o", path, ".").in(dir).with("GOOS=js", "GOARCH=wasm", "GOFLAGS=").quiet(); err != nil {
		t.Fatal(err)
	}
	said, trace := runWasm(t, path)
	if !strings.Contains(trace, "main.breakOff") || !strings.Contains(trace, "main.go:") || !strings.Contains(said, "too deep") || !strings.Contains(said, "nil pointer") {
		t.Fatalf("as linked, it says:\n%s", trace)
	}
	linked, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(dir, "slim.wasm")
	if err := os.WriteFile(to, []byte("what an older slim made"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := slimFile(path, to); err != nil {
		t.Fatal(err)
	}
	slimSaid, slimTrace := runWasm(t, to)
	if slimSaid != said {
		t.Errorf("slim it says %q, as linked %q", slimSaid, said)
	}
	if !strings.Contains(slimTrace, "main.breakOff") || strings.Contains(slimTrace, "main.go") {
		t.Errorf("slim, its trace should name main.breakOff and no file:\n%s", slimTrace)
	}
	slim, err := os.ReadFile(to)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(slim, linked) {
		t.Error("slimFile changed nothing")
	}
	if again, err := slimWasm(slim); err != nil || !bytes.Equal(again, slim) {
		t.Errorf("made slim twice it is not the same (%v)", err)
	}
}

// runWasm runs a program that ends by a panic and returns what it wrote to its
// output and to its errors.
func runWasm(t *testing.T, path string) (out, errs string) {
	t.Helper()
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		t.Fatal(err)
	}
	var said, trace bytes.Buffer
	if err := cmd(nodeLoader(root), path).start(&said, &trace).Run(); err == nil {
		t.Fatalf("it did not break off; it said %s", &said)
	}
	return said.String(), trace.String()
}

func TestSlimRefusesOtherFiles(t *testing.T) {
	for name, file := range map[string]string{
		"nothing":         "",
		"a length past":   "\x00asm\x01\x00\x00\x00\x0b\x7f\x01",
		"no function tab": "\x00asm\x01\x00\x00\x00\x0b\x0d\x02\x00\x41\x00\x0b\x01a\x00\x41\x08\x0b\x01b",
	} {
		if _, err := slimWasm([]byte(file)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
