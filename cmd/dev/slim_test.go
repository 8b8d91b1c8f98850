package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
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

type one struct{}
type two struct{}
type three struct{}
type four struct{}
type five struct{}

func (one) Error() string   { return "1" }
func (two) Error() string   { return "2" }
func (three) Error() string { return "3" }
func (four) Error() string  { return "4" }
func (five) Error() string  { return "5" }

// kind tells types apart by their hashes, which so many cases are compiled to.
func kind(v any) string {
	switch v := v.(type) {
	case one, two, []string, map[int]bool:
		return "a"
	case three, *link, float32:
		return "b"
	case int, string, bool, *box, func():
		return "c"
	case error:
		switch v.(type) {
		case two, three, *four, *five, *one:
			return "d"
		case four, five:
			return "e"
		}
	}
	return "f"
}

func kinds() (all string) {
	for _, v := range []any{one{}, two{}, three{}, four{}, &four{}, five{}, 7, "x", []string{}, &link{}, box{}, &box{}, map[int]bool{}, float32(1), 1.5, kind} {
		all += kind(v)
	}
	return all
}

var deepest interface{ Deep(int) int } = (*box)(nil)

// nothing calls a method of a box by a pointer to none.
func nothing() (what any) {
	defer func() { what = fmt.Sprint(recover())[:12] }()
	return deepest.Deep(1)
}

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
	fmt.Println(nothing(), kinds())
	breakOff()
}
`

// What is slim runs as what was linked, and its trace names functions by numbers, which
// the list of the linked program explains, and no lines.
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
	if !strings.Contains(trace, "main.breakOff") || !strings.Contains(trace, "main.go:") || !strings.Contains(said, "too deep") || !strings.Contains(said, "nil pointer") || !strings.Contains(said, "value method aabedecc") {
		t.Fatalf("as linked, it says:\n%s\n%s", said, trace)
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
	list, err := listFunctions(linked)
	if err != nil {
		t.Fatal(err)
	}
	number := regexp.MustCompile(`(?m)^(\d+) main\.breakOff$`).FindSubmatch(list)
	if number == nil {
		t.Fatalf("the list of functions lacks main.breakOff:\n%.300s", list)
	}
	if n := "wasm.(*" + string(number[1]) + ").f("; !strings.Contains(slimTrace, n) || strings.Contains(slimTrace, "main.") {
		t.Errorf("slim, its trace should have %s for main.breakOff and no file:\n%s", n, slimTrace)
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
