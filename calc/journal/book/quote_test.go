package book

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/unit"
)

// aGate is a job with two cuts at a place, of a crew with a name and a rate of tax.
func aGate(t *testing.T) *journaltest.Script {
	s := &journaltest.Script{T: t}
	return s.Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1")).
		Add("site", 0, "site.set", `{'name':'Heron Croft'}`, journaltest.About("site-1")).
		Add("prices", 0, "setting.set", `{'crew_name':'Osier Ford Repair','currency':'€','tax':'19%','quote_days':'14'}`, journaltest.About(prices)).
		Add("job", 0, "job.set", `{'name':'Gate hinges','rig':'rig-1','site':'site-1','watch':'30min','cut.b':{'thickness':'1/4in','metal':'stainless','length':'2ft','at':2},'cut.a':{'name':'Hinge','thickness':'6mm','length':'400mm','count':'3','at':1}}`, journaltest.About("gate"))
}

// onGate looks at a report of the gate, so many minutes after the script began.
func onGate(report string, min int64) Look {
	return Look{Report: report, ID: "gate", Now: journaltest.T0 + min*minute, Zone: utc, Units: unit.Metric}
}

// entered adds what an act enters to a journal, as the phone would.
func entered(t *testing.T, f *fold.Fold, s *journaltest.Script, name string, act Act) Done {
	t.Helper()
	done, err := Do(f, act)
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range done.Entries {
		body, err := json.Marshal(e.Body)
		if err != nil {
			t.Fatal(err)
		}
		s.Add(name+itoa(int64(i)), act.Now-journaltest.T0, e.Kind, strings.ReplaceAll(string(body), `"`, "'"), journaltest.About(e.About))
		f.Add(s.Events[len(s.Events)-1], nil, int64(len(s.Events)))
	}
	return done
}

func sectionOf(t *testing.T, r Report, title string) Section {
	t.Helper()
	for _, s := range r.Sections {
		if s.Title == title {
			return s
		}
	}
	t.Fatalf("no section %q in %+v", title, r)
	return Section{}
}

func figures(s Section) string {
	var all []string
	for _, f := range s.Figures {
		all = append(all, strings.ReplaceAll(f.Label+": "+f.Text, "\u00a0", " "))
	}
	return strings.Join(all, "; ")
}

// TestDraft: before anything is quoted the plan's price is proposed, no finer than a plan
// knows it, with what will stand on the paper.
func TestDraft(t *testing.T) {
	look := onGate("quote", 60)
	look.Query = map[string]string{"price": "412.37", "low": "351.2", "high": "489.9"}
	r, err := Make(foldOf(aGate(t)), look)
	if err != nil {
		t.Fatal(err)
	}
	if want := "By the plan it costs about €410, between 350 and 490."; r.Paper || r.Says[0] != want {
		t.Errorf("says %q, want %q", r.Says, want)
	}
	if ask := r.Actions[0].Ask[0]; ask.Value != "410" || !ask.Count {
		t.Errorf("the price asked is %+v", ask)
	}
	want := []string{"1. Hinge · 3 × 400\u00a0mm · 6\u00a0mm mild steel", "2. 1 × 2\u00a0ft · 1/4\u00a0in stainless"}
	if got := sectionOf(t, r, "What is cut").Says; !slices.Equal(got, want) {
		t.Errorf("cuts %q, want %q", got, want)
	}
	if got := sectionOf(t, r, "Included").Says; len(got) != 2 || got[1] != "Fire watch of 30 min after the last cut." {
		t.Errorf("included: %q", got)
	}
	for title, says := range map[string]string{"Your crew’s name": "Osier Ford Repair", "Number": "2025-001", "Customer, in your own words": "Not said", "Rate of tax": "19\u00a0%", "Valid for, days": "14", "Currency": "€"} {
		if row := rowOfReport(t, r, title); row.Says[0] != says {
			t.Errorf("%s: %q, want %q", title, row.Says, says)
		}
	}
	look.Query = nil
	if r, _ := Make(foldOf(aGate(t)), look); r.Says[0] != "The plan has no price. Say what you ask for it." || r.Actions[0].Ask[0].Value != "" {
		t.Errorf("without a price: %q, asked %+v", r.Says, r.Actions[0].Ask)
	}
}

// TestQuoteStays: the paper shows what was quoted, whatever is changed afterwards. 19 % of
// 480.50 are 91.295, so 91.30 and 571.80 in all.
func TestQuoteStays(t *testing.T) {
	s := aGate(t)
	f := foldOf(s)
	act := Act{Look: onGate("quote", 60), Act: "quote", Answers: map[string]string{"price": "480,5"}}
	if done := entered(t, f, s, "quote", act); done.Said != "Quoted: €480.50." || done.Href != "/book/quote/gate" {
		t.Errorf("done: %+v", done)
	}
	r, err := Make(f, onGate("quote", 70))
	if err != nil {
		t.Fatal(err)
	}
	if r.Title != "Quote 2025-001" || !r.Paper || !slices.Equal(r.Says, []string{"Osier Ford Repair"}) || len(r.Cautions) > 0 {
		t.Errorf("head: %q %q %q", r.Title, r.Says, r.Cautions)
	}
	if got, want := figures(r.Sections[0]), "Date: 17 Oct 2025; Valid until: 31 Oct 2025; Job: Gate hinges; Place: Heron Croft"; got != want {
		t.Errorf("head %q, want %q", got, want)
	}
	price := "Work: €480.50; Tax, 19 %: €91.30; To pay: €571.80"
	if got := figures(sectionOf(t, r, "Price")); got != price {
		t.Errorf("price %q, want %q", got, price)
	}
	before := sectionOf(t, r, "What is cut").Says
	if v, _ := TaughtBy(f, "gate"); v.Quote != "Quoted: €480.50 and 19\u00a0% tax." {
		t.Errorf("the job page says %q", v.Quote)
	}

	s.Add("more", 80*minute, "job.set", `{'cut.a':{'thickness':'8mm','length':'400mm','count':'3','at':1}}`, journaltest.About("gate")).
		Add("dearer", 80*minute, "setting.set", `{'currency':'$','tax':'25%','quote_days':'3'}`, journaltest.About(prices))
	f = foldOf(s)
	r, _ = Make(f, onGate("quote", 90))
	if got := figures(sectionOf(t, r, "Price")); got != price || !slices.Equal(sectionOf(t, r, "What is cut").Says, before) {
		t.Errorf("after a change it is %q for %q", got, sectionOf(t, r, "What is cut").Says)
	}
	if !slices.Equal(r.Cautions, []string{"The cut list has changed since this was quoted."}) {
		t.Errorf("cautions: %q", r.Cautions)
	}
	if v, _ := TaughtBy(f, "gate"); v.Quote != "Quoted: €480.50 and 19\u00a0% tax. The cut list has changed since." {
		t.Errorf("the job page says %q", v.Quote)
	}
	// Put back as it was typed, in another place of the journal: the same list.
	s.Add("back", 100*minute, "job.set", `{'cut.a':{'length':'400mm','name':'Hinge','thickness':'6mm','count':'3','at':1}}`, journaltest.About("gate"))
	if r, _ := Make(foldOf(s), onGate("quote", 110)); len(r.Cautions) > 0 {
		t.Errorf("the same list again: %q", r.Cautions)
	}
}

// TestWrongPrice: an answer that is no price is asked again.
func TestWrongPrice(t *testing.T) {
	for key, wrong := range map[string]Act{
		"price": {Look: onGate("quote", 60), Act: "quote", Answers: map[string]string{"price": "-"}},
		"value": {Look: onGate("quote", 60), Act: "on-paper", With: map[string]string{"key": "tax"}, Answers: map[string]string{"value": "a lot"}},
	} {
		if _, err := Do(foldOf(aGate(t)), wrong); fieldOf(err) != key {
			t.Errorf("%+v: %v", wrong, err)
		}
	}
}

// TestNumbers: the next number counts on in its year, and begins again with a new one. A
// number on two jobs is told on both, with the next that is free to take.
func TestNumbers(t *testing.T) {
	s := aGate(t)
	numbers := func(min int64) string { return open(foldOf(s), onGate("quote", min)).nextNumber() }
	if got := numbers(0); got != "2025-001" {
		t.Errorf("the first is %s", got)
	}
	s.Add("one", 1, "job.set", `{'name':'Hopper','number':'2025-009'}`, journaltest.About("hopper"))
	if got := numbers(1); got != "2025-010" {
		t.Errorf("after 2025-009 comes %s", got)
	}
	if got := numbers(100 * aDay); got != "2026-001" { // 25 January
		t.Errorf("the first of the next year is %s", got)
	}
	s.Add("two", 2, "job.set", `{'number':'2025-009'}`, journaltest.About("gate"), journaltest.Device("phone-b")).
		Add("quoted", 3, "job.set", `{'quote':{'number':'2025-009','price':100}}`, journaltest.About("gate"))
	f := foldOf(s)
	r, err := Make(f, onGate("quote", 2))
	if err != nil || !slices.Equal(r.Cautions, []string{"Number 2025-009 is on Hopper too."}) {
		t.Fatalf("cautions: %q, %v", r.Cautions, err)
	}
	take := r.Sections[0].Actions[1]
	if take.Label != "Take 2025-010" {
		t.Fatalf("actions: %+v", r.Sections[0].Actions)
	}
	entered(t, f, s, "take", Act{Look: onGate("quote", 3), Act: take.Act, With: take.With})
	if r, _ := Make(f, onGate("quote", 4)); r.Title != "Quote 2025-010" || !slices.Equal(r.Cautions, []string{"It was handed out as 2025-009."}) {
		t.Errorf("then: %q %q", r.Title, r.Cautions)
	}
	s.Add("own", 5*minute, "job.set", `{'number':'A17'}`, journaltest.About("hopper"))
	if got := numbers(100 * aDay); got != "A18" {
		t.Errorf("a crew that counts otherwise goes on with %s", got)
	}
}

// TestCustomerAlone: what is the customer's is entered by itself.
func TestCustomerAlone(t *testing.T) {
	done, err := Do(foldOf(aGate(t)), Act{Look: onGate("quote", 60), Act: "on-paper", With: map[string]string{"key": "customer"}, Answers: map[string]string{"value": " Mrs Alder "}})
	if err != nil || len(done.Entries) != 1 || len(done.Entries[0].Body) != 1 || done.Entries[0].Body["customer"] != "Mrs Alder" {
		t.Errorf("%+v, %v", done, err)
	}
}

// TestWordsToShare: what is handed on is what stands on the paper.
func TestWordsToShare(t *testing.T) {
	s := aGate(t)
	f := foldOf(s)
	entered(t, f, s, "quote", Act{Look: onGate("quote", 60), Act: "quote", Answers: map[string]string{"price": "480"}})
	done, err := Do(f, Act{Look: onGate("quote", 70), Act: "words"})
	if err != nil || done.Name != "quote-2025-001.txt" || done.Type != "" {
		t.Fatalf("%+v, %v", done, err)
	}
	want := `Quote 2025-001
Osier Ford Repair

Date: 17 Oct 2025
Valid until: 31 Oct 2025
Job: Gate hinges
Place: Heron Croft

What is cut
1. Hinge · 3 × 400 mm · 6 mm mild steel
2. 1 × 2 ft · 1/4 in stainless

Included
Cutting tips and electrodes that are used up.
Fire watch of 30 min after the last cut.

Price
Work: €480.00
Tax, 19 %: €91.20
To pay: €571.20

` + hotWork + "\n"
	if done.Text != want {
		t.Errorf("the words are\n%s\nwant\n%s", done.Text, want)
	}
}

// TestRows: each shape is said with the measures that make it.
func TestRows(t *testing.T) {
	for want, row := range map[string]map[string]string{
		"1 × 400\u00a0mm · 6\u00a0mm mild steel":                      {"length": "400mm", "thickness": "6mm"},
		"2 × ring 60\u00a0mm × 20\u00a0mm · 16\u00a0ga galvanised":    {"shape": "ring", "diameter": "60mm", "bore": "20 mm", "count": "2", "thickness": "16ga", "metal": "galvanised"},
		"1 × oblong hole 1-1/2\u00a0in × ½\u00a0in · 3 mild steel":    {"shape": "window", "length": "1-1/2in", "width": "½in", "thickness": "3"},
		"4 × box tube 40\u00a0mm × 60\u00a0mm · 3\u00a0mm mild steel": {"shape": "box-tube", "width": "40mm", "height": "60mm", "count": "4", "thickness": "3mm", "length": "9mm"},
		"1 · mild steel": {},
	} {
		if got := sayRow(row); got != want {
			t.Errorf("%v is said as %q, want %q", row, got, want)
		}
	}
}
