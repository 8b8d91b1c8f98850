package book

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// TestJobs: a list says of each job what is left to do with it, to the bill.
func TestJobs(t *testing.T) {
	state := func(s *journaltest.Script, min int64) []string {
		t.Helper()
		look := onGate("jobs", min)
		look.ID = ""
		r, err := Make(foldOf(s), look)
		if err != nil {
			t.Fatal(err)
		}
		return r.Sections[0].Rows[0].Says
	}
	s := aGate(t)
	if got := state(s, 5); !slices.Equal(got, []string{"4 cuts planned", "today"}) {
		t.Errorf("before: %q", got)
	}
	s.Add("quote", 5*minute, "job.set", `{'number':'2025-003','quote':{'at':1760731416544,'price':48000,'currency':'EUR'}}`, journaltest.About("gate")).
		Add("who", 6*minute, "job.set", `{'customer':'Mrs Alder'}`, journaltest.About("gate"))
	if got := state(s, 10); !slices.Equal(got, []string{"Quoted 480.00\u00a0EUR, 4 cuts planned", "2025-003 · Mrs Alder · today"}) {
		t.Errorf("quoted: %q", got)
	}
	s.Add("open", 10*minute, "session.opened", `{'rig':'rig-1','job':'gate'}`, journaltest.About("s")).
		Add("cut", 20*minute, "cut.done", `{'cut':'a','n':3}`, journaltest.About("gate"), journaltest.In("s"))
	if got := state(s, 30)[0]; got != "Under way: 1 of 4 left" {
		t.Errorf("under way: %q", got)
	}
	s.Add("close", 40*minute, "session.closed", `{}`, journaltest.About("s"))
	if got := state(s, 50)[0]; got != "1 of 4 left, not billed" {
		t.Errorf("left: %q", got)
	}
	s.Add("rest", 60*minute, "cut.done", `{'cut':'b'}`, journaltest.About("gate"))
	if got := state(s, 70)[0]; got != "All 4 cuts done, not billed" {
		t.Errorf("done: %q", got)
	}
	s.Add("billed", 80*minute, "job.set", `{'billed':1760735916544}`, journaltest.About("gate"))
	if got := state(s, 3*aDay)[0]; got != "Billed 17 Oct" {
		t.Errorf("billed: %q", got)
	}
	look := onGate("jobs-list", 90)
	r, err := Make(foldOf(s), look)
	if err != nil || len(r.Sections[0].Table.Rows) != 1 {
		t.Fatalf("%+v, %v", r, err)
	}
	var cells []string
	for _, c := range r.Sections[0].Table.Rows[0] {
		cells = append(cells, strings.ReplaceAll(c.Text, "\u00a0", " "))
	}
	if want := []string{"2025-003", "Gate hinges", "Mrs Alder", "Billed today", "4", "480.00 EUR", "today", "today"}; !slices.Equal(cells, want) {
		t.Errorf("the table has %q, want %q", cells, want)
	}
}

// TestJobsPages: what does not fit on one screen stands on the next, each job once.
func TestJobsPages(t *testing.T) {
	s := &journaltest.Script{T: t}
	for i := range int64(jobsShown + 3) {
		s.Add("job"+itoa(i), i, "job.set", `{'name':'Job `+itoa(i)+`'}`, journaltest.About("job-"+itoa(i)))
	}
	look := Look{Report: "jobs", Now: journaltest.T0 + minute, Zone: utc}
	seen := map[string]bool{}
	for _, want := range []int{jobsShown, 3} {
		r, err := Make(foldOf(s), look)
		if err != nil || len(r.Sections[0].Rows) != want {
			t.Fatalf("%d rows, %v; want %d", len(r.Sections[0].Rows), err, want)
		}
		for _, row := range r.Sections[0].Rows {
			seen[row.Title] = true
		}
		more := r.Sections[0].Actions[len(r.Sections[0].Actions)-1]
		if _, before, found := strings.Cut(more.Href, "?before="); found {
			look.Query = map[string]string{"before": before}
		}
	}
	if len(seen) != jobsShown+3 {
		t.Errorf("%d jobs of %d were shown", len(seen), jobsShown+3)
	}
	if r, _ := Make(foldOf(&journaltest.Script{T: t}), look); len(r.Says) != 1 || r.Actions[0].Label != "New job" {
		t.Errorf("without jobs: %+v", r)
	}
}

// TestNoCustomerInAFile: what customers are called stays on the phone, and the other
// columns keep the keys that files are read by.
func TestNoCustomerInAFile(t *testing.T) {
	s := aGate(t).Add("who", 6*minute, "job.set", `{'customer':'Mrs Alder'}`, journaltest.About("gate"))
	look := onGate("jobs-list", 10)
	look.ID = ""
	r, err := Make(foldOf(s), look)
	if err != nil {
		t.Fatal(err)
	}
	if row := r.Sections[0].Table.Rows[0]; row[2].Text != "Mrs Alder" {
		t.Errorf("the screen lacks the customer: %+v", row)
	}
	d, err := Do(foldOf(s), Act{Look: look, Act: "csv", With: map[string]string{"table": "0"}})
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(d.Text, "Alder") || strings.Contains(d.Text, "Customer") {
		t.Errorf("the file names the customer:\n%s", d.Text)
	}
	if head, _, _ := strings.Cut(d.Text, "\r\n"); head != "\ufeffNumber,Job,State,Cuts,Quoted,Ended,Billed" {
		t.Errorf("head %q", head)
	}
	if d.Name != "kerfside-jobs-list-2025-10-17.csv" || d.Type != "text/csv" {
		t.Errorf("%s, %s", d.Name, d.Type)
	}
}
