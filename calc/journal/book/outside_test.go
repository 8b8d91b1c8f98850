//go:build !js

// Native only: it runs other programs, which a phone cannot.

package book

import (
	"testing"

	"kerfside/calc/journal/journaltest"
	"kerfside/calc/outside"
)

// TestStockFileAgainstLibreOffice: a stock that LibreOffice opens and saves changes
// nothing when it is read again, and neither does a cut list. Both are exact.
func TestStockFileAgainstLibreOffice(t *testing.T) {
	var scripts []*journaltest.Script
	var files []string
	for seed := range uint64(6) {
		s := drawnStock(t, seed)
		scripts, files = append(scripts, s), append(files, saved(t, s, "stock", ""))
	}
	list := trucks(t)
	list.Add("job", 0, "job.set", `{'name':'Gate','cut.a':{'metal':'mild-steel','thickness':'1.5mm','length':'600mm','count':'3','at':1},'cut.b':{'metal':'stainless','thickness':'1/4','length':'24','name':'Rail, left; =old','at':2}}`, journaltest.About("job-1"))
	files = append(files, saved(t, list, "cuts", "job-1"))
	for i, file := range outside.Spreadsheet(t, files, ',', "csv") {
		if i < len(scripts) {
			stockStays(t, scripts[i], file)
			continue
		}
		look := lookAt(list, "cuts", 10)
		look.ID = "job-1"
		d, err := Do(foldOf(list), Act{Look: look, Act: "cuts-read", Answers: map[string]string{"file": file}})
		if err != nil || d.Report.Says[0] != "This file adds no row." || len(d.Report.Cautions) > 0 {
			t.Errorf("%+v, %v of %q", d.Report, err, file)
		}
	}
	t.Logf("tally: %d files went through LibreOffice", len(files))
}
