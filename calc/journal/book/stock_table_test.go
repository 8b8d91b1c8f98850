package book

import (
	"strings"
	"testing"
)

// TestStockTableKeys: the columns of the file are fixed, for other programs read it.
func TestStockTableKeys(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1','price':310}`, 1, "5")
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: "csv", With: map[string]string{"table": tableAt(t, reportOf(t, s, lookAt(s, "stock", 10)))}})
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, c := range open(foldOf(s), lookAt(s, "stock", 10)).stockTable().Columns {
		keys = append(keys, c.Key)
	}
	if got := strings.Join(keys, " "); got != "part rating name truck pieces least price counted" {
		t.Errorf("keys %s", got)
	}
	want := "\ufeffPart,Rating,Name,Truck,Pieces,Lowest count,Price,Counted\r\ntip,45 A,,Truck 1,5,,3.10,2025-10-17T19:59\r\n"
	if d.Text != want || d.Name != "kerfside-stock-2025-10-17.csv" || d.Type != "text/csv" {
		t.Errorf("%s, %s: %q, want %q", d.Name, d.Type, d.Text, want)
	}
}

// tableAt is which table the report's button saves.
func tableAt(t *testing.T, r Report) string {
	t.Helper()
	for _, s := range r.Sections {
		for _, a := range s.Actions {
			if a.Act == "csv" {
				return a.With["table"]
			}
		}
	}
	t.Fatal("no table is to be saved")
	return ""
}
