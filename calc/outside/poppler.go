package outside

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Page is a page of a PDF as Poppler paints it: rows of greys from the top, 0 for black.
type Page struct {
	Wide, High int
	Greys      []byte
}

// Dark says whether the dot is darker than the middle grey.
func (p Page) Dark(x, y int) bool { return p.Greys[y*p.Wide+x] < 128 }

// Pages has qpdf check a PDF and Poppler paint it, with so many dots to an inch. It fails
// if either complains.
func Pages(t testing.TB, pdf string, dots int) []Page {
	t.Helper()
	dir := pdfIn(t, pdf)
	run(t, QPDF, "--check", filepath.Join(dir, "it.pdf"))
	run(t, Poppler, "-gray", "-r", fmt.Sprint(dots), filepath.Join(dir, "it.pdf"), filepath.Join(dir, "page"))
	files, err := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	if err != nil || len(files) == 0 {
		t.Fatalf("Poppler painted nothing: %v", err)
	}
	slices.Sort(files)
	pages := make([]Page, len(files))
	for i, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var most int
		if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P5\n%d %d\n%d\n", &pages[i].Wide, &pages[i].High, &most); err != nil || most != 255 {
			t.Fatalf("page %d begins %q: %v", i+1, data[:min(len(data), 20)], err)
		}
		pages[i].Greys = data[len(data)-pages[i].Wide*pages[i].High:]
	}
	return pages
}

// Word is a word of a PDF with its box in points from the upper left corner of its page.
type Word struct {
	Page int     `xml:"-"`
	Left float64 `xml:"xMin,attr"`
	High float64 `xml:"yMin,attr"`
	End  float64 `xml:"xMax,attr"`
	Low  float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

// Words are the words of a PDF as Poppler reads them.
func Words(t testing.TB, pdf string) []Word {
	t.Helper()
	dir := pdfIn(t, pdf)
	reader := Poppler
	reader.Program = "pdftotext"
	run(t, reader, "-bbox", filepath.Join(dir, "it.pdf"), filepath.Join(dir, "words.html"))
	data, err := os.ReadFile(filepath.Join(dir, "words.html"))
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Pages []struct {
			Words []Word `xml:"word"`
		} `xml:"body>doc>page"`
	}
	decoder := xml.NewDecoder(bytes.NewReader(data))
	decoder.Strict, decoder.Entity = false, xml.HTMLEntity
	if err := decoder.Decode(&read); err != nil {
		t.Fatalf("the words of Poppler: %v", err)
	}
	var words []Word
	for i, page := range read.Pages {
		for _, w := range page.Words {
			w.Page = i
			words = append(words, w)
		}
	}
	return words
}

// pdfIn writes a PDF as it.pdf into a folder.
func pdfIn(t testing.TB, pdf string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "it.pdf"), []byte(pdf), 0o600); err != nil {
		t.Fatal(err)
	}
	return dir
}

// run runs a tool that is to say nothing amiss.
func run(t testing.TB, tool Tool, args ...string) {
	t.Helper()
	if err := tool.Find(); err != nil {
		absent(t, err)
	}
	var said strings.Builder
	cmd := exec.Command(tool.Program, args...)
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil || said.Len() > 0 {
		t.Fatalf("%s: %v\n%s", tool.Name, err, said.String())
	}
}
