package book

import (
	"os"
	"strings"
	"testing"

	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
)

// filesPage is where it is written down what stands in each file.
const filesPage = "../files.md"

// TestFilesAsWritten: the first line of every file that a report saves stands on the page
// that says what is in it, so that what reads such files can be written by it.
func TestFilesAsWritten(t *testing.T) {
	page, err := os.ReadFile(filesPage)
	if err != nil {
		t.Fatal(err)
	}
	f, last := fold.NewFold(), int64(0)
	for i, e := range journaltest.HistoryOfJobs(t, 4000) {
		f.Add(e, nil, int64(i+1))
		last = max(last, e.T.Ms())
	}
	look := Look{Now: last, Zone: utc}
	written := 0
	for _, name := range Names() {
		look.Report, look.ID = name, ""
		switch name {
		case "part", "line", "quote", "sheet":
			continue // they have no table
		case "cuts":
			look.ID = f.Jobs("", 1).Jobs[0].ID
		}
		r, err := Make(f, look)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for i, s := range r.Sections {
			if s.Table == nil {
				continue
			}
			d, err := Do(f, Act{Look: look, Act: "csv", With: map[string]string{"table": itoa(int64(i))}})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			head, _, _ := strings.Cut(strings.TrimPrefix(d.Text, "\ufeff"), "\r\n")
			if name == "cuts" { // its columns are those that its rows have
				for _, column := range strings.Split(head, ",") {
					if !strings.Contains(string(page), "| "+column+" |") {
						t.Errorf("%s lacks the column %s of cuts", filesPage, column)
					}
				}
			} else if !strings.Contains(string(page), "\n"+head+"\n") || !strings.Contains(string(page), "kerfside-"+name+"-") {
				t.Errorf("%s lacks this file of %s, or its first line:\n%s", filesPage, name, head)
			}
			written++
		}
	}
	if written < 7 {
		t.Errorf("only %d tables were looked at", written)
	}
}
