package main

import (
	"go/scanner"
	"go/token"
	"os"
	"slices"
	"strings"
	"testing"
)

// How many lines of code a Go file may have, without blanks and comments.
const (
	longestFile  = 300 // any
	medianOfCode = 72  // half of those that are no tests
)

// TestFilesAreSmall: a file holds one idea, and its name says which.
func TestFilesAreSmall(t *testing.T) {
	var code []int
	for name := range goImports(t) {
		lines := linesOfCode(t, name)
		if lines > longestFile {
			t.Errorf("%s has %d lines of code; split it by its nouns until none has more than %d", name, lines, longestFile)
		}
		if !strings.HasSuffix(name, "_test.go") {
			code = append(code, lines)
		}
	}
	slices.Sort(code)
	if median := code[len(code)/2]; median > medianOfCode {
		t.Errorf("half of %d files have %d lines of code or more, want at most %d; the longest have %v", len(code), median, medianOfCode, code[len(code)-5:])
	}
}

// linesOfCode counts the lines of a Go file on which something of the language
// stands.
func linesOfCode(t *testing.T, name string) int {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	file := token.NewFileSet().AddFile(name, -1, len(text))
	var s scanner.Scanner
	s.Init(file, text, nil, 0)
	lines := map[int]bool{}
	for {
		at, tok, word := s.Scan()
		if tok == token.EOF {
			return len(lines)
		}
		if tok == token.SEMICOLON && word == "\n" {
			continue // of a line's end, not written
		}
		first := file.Line(at)
		for line := range strings.Count(word, "\n") + 1 {
			lines[first+line] = true
		}
	}
}

func TestLinesOfCode(t *testing.T) {
	name := t.TempDir() + "/a.go"
	if err := os.WriteFile(name, []byte("// Package a.\npackage a\n\n/* a\nb */\nvar x = `1\n2`\n\nfunc f() { // why\n}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := linesOfCode(t, name); got != 5 {
		t.Errorf("%d lines of code, want 5: package, two of var, two of func", got)
	}
}
