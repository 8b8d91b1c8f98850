package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/andybalholm/brotli"
)

// gen is the folder of what is built for the phone.
const gen = "pwa/gen"

// wasmInlining keeps our own functions, and those that print and read, from
// being copied into their callers: that makes the file an eighth smaller over
// the air and folds a twentieth slower. All packages together would save half as
// much again, but folds would take half as long again.
var wasmInlining = []string{
	"-gcflags=encoding/json=-l", "-gcflags=fmt=-l", "-gcflags=kerfside/...=-l",
	"-gcflags=reflect=-l", "-gcflags=strconv=-l", "-gcflags=strings=-l",
}

// buildWasm builds the calculators for the phone and puts the loader of the
// same toolchain beside them. The flags make the result the same bit for bit
// in every folder, so its content name stays the same too. What is linked lies in a
// file of its own: the Go command leaves that alone while it is up to date, and would
// leave alone too what an older slim made of it.
func buildWasm() error {
	linked := filepath.Join("dist", "linked.wasm")
	for _, path := range []string{gen, filepath.Dir(linked)} {
		if err := os.MkdirAll(path, 0o755); err != nil {
			return err
		}
	}
	if err := linkWasm(linked); err != nil {
		return err
	}
	if err := writeFunctions(linked, filepath.Join(filepath.Dir(linked), "functions.txt")); err != nil {
		return err
	}
	slim := filepath.Join(gen, "calc.wasm")
	if err := slimFile(linked, slim); err != nil {
		return err
	}
	if err := gzipFile(slim, slim+".gz"); err != nil {
		return err
	}
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		return err
	}
	return copyIfNew(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"), filepath.Join(gen, "wasm_exec.js"))
}

// writeFunctions lists in a file what a trace on a phone has for numbers.
func writeFunctions(linked, to string) error {
	program, err := os.ReadFile(linked)
	if err != nil {
		return err
	}
	list, err := listFunctions(program)
	if err != nil {
		return err
	}
	return os.WriteFile(to, list, 0o644)
}

// linkWasm builds the calculators as the linker writes them, of sources without what
// they never read.
func linkWasm(path string) error {
	sources, err := os.MkdirTemp("", "kerfside-sources-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(sources)
	overlay, err := writeOverlay(sources)
	if err != nil {
		return err
	}
	words := append([]string{"build", "-overlay", overlay, "-trimpath", "-buildvcs=false", "-ldflags=-s -w"}, wasmInlining...)
	return cmd("go", append(words, "-o", path, "kerfside/cmd/wasm")...).with("GOOS=js", "GOARCH=wasm").quiet()
}

// packWasm packs calc.wasm as well as brotli can, which takes too long to do
// while a phone waits. The server takes it if it holds the same, so a form of
// an older build may lie there.
func packWasm() error {
	from := filepath.Join(gen, "calc.wasm")
	raw, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	if old, err := os.ReadFile(from + ".br"); err == nil {
		got, err := io.ReadAll(brotli.NewReader(bytes.NewReader(old)))
		if err == nil && bytes.Equal(got, raw) {
			return nil
		}
	}
	var packed bytes.Buffer
	w := brotli.NewWriterOptions(&packed, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24}) // the file is larger than the usual window
	if _, err := w.Write(raw); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	return os.WriteFile(from+".br", packed.Bytes(), 0o644)
}

// gzipFile packs a file by gzip unless the target holds the same already. The program
// carries this form: it goes out as it is to who asks without brotli.
func gzipFile(from, to string) error {
	raw, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return err
	}
	w.Write(raw) // into memory: cannot fail
	w.Close()
	if old, err := os.ReadFile(to); err == nil && bytes.Equal(old, packed.Bytes()) {
		return nil
	}
	return os.WriteFile(to, packed.Bytes(), 0o644)
}

// copyIfNew copies a file unless the target holds the same already.
func copyIfNew(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return fail("the Go toolchain has no "+from, "Take a whole Go distribution, 1.24 or newer.")
	}
	if old, err := os.ReadFile(to); err == nil && string(old) == string(data) {
		return nil
	}
	return os.WriteFile(to, data, 0o644)
}
