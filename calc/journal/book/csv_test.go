package book

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// saved is the table of a report as it goes into a file.
func saved(t *testing.T, s *journaltest.Script, report, id string) string {
	t.Helper()
	look := lookAt(s, report, 10)
	look.ID = id
	d, err := Do(foldOf(s), Act{Look: look, Act: "csv", With: map[string]string{"table": tableAt(t, reportOf(t, s, look))}})
	if err != nil {
		t.Fatal(err)
	}
	return d.Text
}

// drawnStock is a stock at random, with names that are hard to keep in a file.
func drawnStock(t *testing.T, seed uint64) *journaltest.Script {
	random := rand.New(rand.NewPCG(seed, 63))
	s := trucks(t)
	for i := range 12 {
		body := map[string]any{"rating": []string{"", "45 A", "007", "1/4", "=1+1", "60 A; long, \"old\""}[i%6], "slot": []string{"tip", "electrode", "cup"}[i%3]}
		if i >= 6 {
			body["rig"] = []string{"rig-1", "rig-2"}[random.IntN(2)]
		}
		if i%4 == 3 {
			delete(body, "slot")
			body["name"] = []string{"Wipes", "-Kit, 3-4", "Ölfilter"}[i/4]
		}
		if random.IntN(2) == 0 {
			body["price"] = int64(random.IntN(5000))
		}
		if random.IntN(2) == 0 {
			body["least"] = int64(random.IntN(5))
		}
		raw, err := jsonOf(body)
		if err != nil {
			t.Fatal(err)
		}
		name := "line-" + itoa(int64(i))
		s.Add(name, 0, "line.set", strings.ReplaceAll(raw, `\"`, ``), journaltest.About(name))
		if random.IntN(5) > 0 {
			s.Add(name+"-n", minute, "stock.moved", `{'n':`+itoa(int64(random.IntN(30)-5))+`}`, journaltest.About(name))
		}
	}
	return s
}

// TestStockComesBack: what is saved and read again changes nothing, and read by a phone
// without stock it makes the same.
func TestStockComesBack(t *testing.T) {
	for seed := range uint64(30) {
		s := drawnStock(t, seed)
		file := saved(t, s, "stock", "")
		stockStays(t, s, file)
		fresh := trucks(t)
		enter(t, fresh, 5, do(t, fresh, "stock-enter", nil, map[string]string{"file": strings.ReplaceAll(file, ",-", ",")}))
		if a, b := plainStock(s), plainStock(fresh); !slices.Equal(a, b) {
			t.Errorf("seed %d:\n%q\nis read as\n%q", seed, a, b)
		}
	}
}

// stockStays reads a file that was saved, and wants it to change nothing.
func stockStays(t *testing.T, s *journaltest.Script, file string) {
	t.Helper()
	d := do(t, s, "stock-read", nil, map[string]string{"file": file})
	if d.Report.Says[0] != "This file changes nothing." || len(d.Report.Cautions) > 0 || len(d.Report.Actions) > 0 {
		t.Errorf("%q, %q of %q", d.Report.Says, d.Report.Cautions, file)
	}
	if d := do(t, s, "stock-enter", nil, map[string]string{"file": file}); len(d.Entries) > 0 {
		t.Errorf("entries %+v", d.Entries)
	}
}

// plainStock is what a stock holds, without ids; counts below zero come as those above.
func plainStock(s *journaltest.Script) []string {
	var all []string
	for _, l := range foldOf(s).Stocks().Lines {
		all = append(all, strings.Join([]string{l.Slot, l.Name, l.Rating, l.Rig, itoa(max(l.N, -l.N)), itoa(l.Price), itoa(l.Least)}, "|"))
	}
	slices.Sort(all)
	return all
}

// TestStockFile: what each line of a file changes, and each bad line by its number.
func TestStockFile(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1','price':310,'least':2}`, 1, "5")
	aLine(s, "cups", `{'slot':'cup'}`, 1, "5")
	file := "part;rating;truck;pieces;least;price\n" + // 1
		"Cutting tip;45a;truck 1;7;3;3,20\n" + // 2: count, least, price
		"cup;;shop;5;;\n" + // 3: the same
		"electrode;;Truck 2;4;;1,5\n" + // 4: new
		"nozzle;;;1;;\n" + // 5: no such part
		"tip;;Truck 3;1;;\n" + // 6: no such truck
		"tip;45 A;Truck 1;9;;\n" + // 7: twice
		"cup;60 A;shop;-2;;\n" + // 8: below zero
		"cup;60 A;shop;x;;\n" + // 9: no number
		"other;;shop;1;;\n" // 10: no name
	d := do(t, s, "stock-read", nil, map[string]string{"file": file})
	if want := "Nothing is entered yet: 1 line changes, 1 is new, 1 stays as it is; 6 troubles stand below, and those lines are left out."; d.Report.Says[0] != want {
		t.Errorf("%q, want %q", d.Report.Says[0], want)
	}
	for i, line := range []string{"Line 9: ", "Line 5: “nozzle” is no part", "Line 6: ", "Line 7: the same part, rating and truck stand on line 2", "Line 8: ", "Line 10: the part has no name"} {
		line = strings.NewReplacer("“", `"`, "”", `"`).Replace(line)
		if i >= len(d.Report.Cautions) || !strings.HasPrefix(d.Report.Cautions[i], line) {
			t.Errorf("trouble %d of %q, want %q", i, d.Report.Cautions, line)
		}
	}
	if row := rowOfReport(t, *d.Report, "Cutting tip 45 A, Truck 1"); !slices.Equal(row.Says, []string{"Lowest count: 3", "Price: 3.20", "Pieces: 7, now 5"}) {
		t.Errorf("changed: %q", row.Says)
	}
	if row := rowOfReport(t, *d.Report, "Electrode"); !slices.Equal(row.Says, []string{"New, on Truck 2", "Price: 1.50", "Pieces: 4"}) {
		t.Errorf("new: %q", row.Says)
	}
	if a := d.Report.Actions; len(a) != 1 || a[0].Label != "Enter 2 changes" || a[0].With["file"] != file {
		t.Errorf("button %+v", a)
	}
	enter(t, s, 20, do(t, s, "stock-enter", d.Report.Actions[0].With, nil))
	got := plainStock(s)
	if want := []string{"cup||||5|0|0", "electrode|||rig-2|4|150|0", "tip||45 A|rig-1|7|320|3"}; !slices.Equal(got, want) {
		t.Errorf("stock %q, want %q", got, want)
	}
	for _, bad := range []string{"", "a,b\n1,2\n", "part,part,pieces\n"} {
		if _, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: "stock-read", Answers: map[string]string{"file": bad}}); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}

// TestCutsComeBack: a cut list that is saved and read again adds no row, and read into an
// empty job it makes the same list.
func TestCutsComeBack(t *testing.T) {
	s := trucks(t)
	s.Add("job", 0, "job.set", `{'name':'Gate','cut.a':{'metal':'mild-steel','thickness':'1.5mm','length':'600mm','count':'3','at':1},'cut.b':{'metal':'stainless','thickness':'1/4in','length':'24','name':'Rail, left; old','at':2},'cut.c':{'metal':'stainless','thickness':'16 ga','shape':'disc','diameter':'90mm','at':3}}`, journaltest.About("job-1")).
		Add("other", 0, "job.set", `{'name':'Other'}`, journaltest.About("job-2"))
	file := saved(t, s, "cuts", "job-1")
	look := lookAt(s, "cuts", 10)
	ask := func(id, act string, with map[string]string) Done {
		t.Helper()
		look.ID = id
		d, err := Do(foldOf(s), Act{Look: look, Act: act, With: with})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	if d := ask("job-1", "cuts-read", map[string]string{"file": file}); d.Report.Says[0] != "This file adds no row." || len(d.Report.Actions) > 0 {
		t.Errorf("%+v", d.Report)
	}
	d := ask("job-2", "cuts-read", map[string]string{"file": file})
	if d.Report.Says[0] != "Nothing is entered yet: 3 rows are new, 0 stand on the list already." || len(d.Report.Cautions) > 0 {
		t.Errorf("%q, %q", d.Report.Says, d.Report.Cautions)
	}
	enter(t, s, 20, ask("job-2", "cuts-enter", d.Report.Actions[0].With))
	one, _ := foldOf(s).Job("job-1")
	two, _ := foldOf(s).Job("job-2")
	if a, b := cutRows(one), cutRows(two); len(a) != 3 || !slices.EqualFunc(a, b, func(x, y map[string]string) bool { return sameCut(x) == sameCut(y) }) {
		t.Errorf("%v is read as %v", a, b)
	}
	if again := ask("job-2", "cuts-enter", d.Report.Actions[0].With); len(again.Entries) > 0 {
		t.Errorf("entered twice: %+v", again.Entries)
	}
}

// TestCutFile: a unit may stand in the header, and each bad row is named by its line.
func TestCutFile(t *testing.T) {
	s := trucks(t)
	s.Add("job", 0, "job.set", `{'name':'Gate'}`, journaltest.About("job-1"))
	look := lookAt(s, "cuts", 10)
	look.ID = "job-1"
	file := "Metal,Thickness (mm),length (mm),How many\nmild-steel,1.5,600,3\nwood,3,100,1\nstainless,x,100,1\nstainless,3,100,0\nstainless,3in,100,2\n"
	d, err := Do(foldOf(s), Act{Look: look, Act: "cuts-read", Answers: map[string]string{"file": file}})
	if err != nil {
		t.Fatal(err)
	}
	if want := "Nothing is entered yet: 2 rows are new, 0 stand on the list already."; d.Report.Says[0] != want {
		t.Errorf("%q, want %q", d.Report.Says[0], want)
	}
	for i, line := range []string{"Line 3: ", "Line 4: ", "Line 5: "} {
		if i >= len(d.Report.Cautions) || !strings.HasPrefix(d.Report.Cautions[i], line) || strings.Contains(d.Report.Cautions[i], "Cut 1") {
			t.Errorf("trouble %d of %q, want %q", i, d.Report.Cautions, line)
		}
	}
	rows := d.Report.Sections[0].Table
	if got := rows.Rows[0]; got[1].Text != "1.5mm" || got[2].Text != "600mm" || rows.Rows[1][1].Text != "3in" {
		t.Errorf("read %+v", rows.Rows)
	}
	var keys []string
	for _, f := range cutFields() {
		keys = append(keys, f.Key)
	}
	if got := strings.Join(keys[:4], " "); got != "name metal alloy thickness" || !slices.Contains(keys, "length") || !slices.Contains(keys, "count") || !slices.Contains(keys, "pierces") {
		t.Errorf("keys %q", keys)
	}
}
