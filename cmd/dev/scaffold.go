package main

import (
	"embed"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"text/template"

	"kerfside/calc/problem"
	cli "kerfside/cmd/internal/command"
)

// scaffoldFiles are a calculator that works, the area of a strip, and its
// vectors. It shows every part that a calculator has; the author replaces the
// formula, not the shape.
//
//go:embed scaffold
var scaffoldFiles embed.FS

// newCalculator is what the templates are filled with.
type newCalculator struct {
	Package string // air
	Name    string // air-dryness
	Go      string // AirDryness
	Title   string // Air dryness
}

var calculatorName = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)

// describeCalculator derives all names from the one that was given.
func describeCalculator(pkg, name string) (newCalculator, error) {
	if !calculatorName.MatchString(name) {
		return newCalculator{}, fail("a calculator cannot be called "+name, "Take small letters with hyphens, like air-dryness.")
	}
	c := newCalculator{Package: pkg, Name: name}
	for _, word := range strings.Split(name, "-") {
		c.Go += strings.ToUpper(word[:1]) + word[1:]
	}
	c.Title = strings.ToUpper(name[:1]) + strings.ReplaceAll(name[1:], "-", " ")
	return c, nil
}

// fill returns a template of the scaffold with the names filled in.
func (c newCalculator) fill(file string) ([]byte, error) {
	t, err := template.ParseFS(scaffoldFiles, "scaffold/"+file)
	if err != nil {
		return nil, err
	}
	var out strings.Builder
	err = t.Execute(&out, c)
	return []byte(out.String()), err
}

// scaffold starts a calculator: a file that computes and is tested from the
// first moment on, its vectors, and its entry in the list of its package.
func scaffold(args []string) error {
	if len(args) != 2 {
		return cli.Mistyped(problem.Missing, typed+" new takes a package of calc and a name", "As in: "+typed+" new air air-dryness")
	}
	c, err := describeCalculator(args[0], args[1])
	if err != nil {
		return err
	}
	heading("calculator %s in calc/%s", c.Name, c.Package)
	if err := c.write(); err != nil {
		return err
	}
	say("it computes the area of a strip; put your formula, its source and its cases there")
	return cmd("go", "test", "./calc/registry", "-run", "/"+c.Name).loud()
}

// write writes the files of a new calculator and lists it.
func (c newCalculator) write() error {
	list, err := c.list()
	if err != nil {
		return err
	}
	for path, file := range map[string]string{
		filepath.Join("calc", c.Package, strings.ReplaceAll(c.Name, "-", "_")+".go"): "calculator.go.tmpl",
		filepath.Join("testdata", "calc", c.Name+".txt"):                             "vectors.txt.tmpl",
	} {
		text, err := c.fill(file)
		if err != nil {
			return err
		}
		if err := writeNew(path, text); err != nil {
			return err
		}
		say("wrote %s", path)
	}
	if err := os.WriteFile(c.listPath(), list, 0o644); err != nil {
		return err
	}
	say("listed it in %s", c.listPath())
	return cmd("gofmt", "-w", c.listPath()).quiet()
}

// listPath is the file that lists the calculators of a package.
func (c newCalculator) listPath() string {
	return filepath.Join("calc", c.Package, c.Package+".go")
}

var calculatorList = regexp.MustCompile(`(?s)(var Calculators = \[\]\*form\.Declaration\{)(.*?)(\s*\})`)

// list returns the package's list with the new calculator at its end.
func (c newCalculator) list() ([]byte, error) {
	old, err := os.ReadFile(c.listPath())
	if err != nil || !calculatorList.Match(old) {
		return nil, fail("calc/"+c.Package+" is no package of calculators", "Take one that has a list: look for \"var Calculators\" under calc.")
	}
	return calculatorList.ReplaceAllFunc(old, func(found []byte) []byte {
		parts := calculatorList.FindSubmatch(found)
		body := strings.TrimRight(strings.TrimSpace(string(parts[2])), ",")
		if body != "" {
			body = "\n" + body + ","
		}
		return []byte(string(parts[1]) + body + "\n&" + c.Go + ",\n}")
	}), nil
}

// writeNew writes a file that must not be there yet.
func writeNew(path string, text []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if os.IsExist(err) {
		return fail(path+" exists already", "Take another name, or remove it first.")
	}
	if err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
