package book

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/journal/journaltest"
)

// fullSet has one of each kind on a truck.
func fullSet(s *journaltest.Script, rig, n string) {
	for _, slot := range spareSlots {
		rating := ""
		if slot == "tip" {
			rating = "45 A"
		}
		aLine(s, slot+"-"+rig, `{'slot':'`+slot+`','rig':'`+rig+`','rating':'`+rating+`','price':200}`, 1, n)
	}
}

// gate is a job on truck 1 with so many cuts of thin sheet, which is cut at 1.5 m/min.
func gate(s *journaltest.Script, count, length string) {
	s.Add("job", 0, "job.set", `{'name':'Gate','rig':'rig-1','cut.a':{'metal':'mild-steel','thickness':'1.5mm','length':'`+length+`','count':'`+count+`','at':1}}`, journaltest.About("job-1"))
}

func needOf(t *testing.T, s *journaltest.Script, rig string) need {
	t.Helper()
	b := open(foldOf(s), lookAt(s, "stock", 10))
	_, lines := b.stockByPlace()
	all, err := b.needs(lines)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range all {
		if n.rig == rig {
			return n
		}
	}
	t.Fatalf("nothing is told of %s", rig)
	return need{}
}

// TestJobsAhead: of a job count the pieces that are left, 0.4 min and a start each.
func TestJobsAhead(t *testing.T) {
	s := trucks(t)
	gate(s, "100", "600mm")
	s.Add("done", minute, "cut.done", `{'cut':'a','n':40}`, journaltest.About("job-1"))
	s.Add("over", 0, "job.set", `{'name':'Over','rig':'rig-1','cut.b':{'metal':'mild-steel','thickness':'6mm','length':'1m','count':'1','at':1}}`, journaltest.About("job-2")).
		Add("over-2", minute, "cut.done", `{'cut':'b','n':1}`, journaltest.About("job-2"))
	s.Add("thick", 0, "job.set", `{'name':'Anvil','rig':'rig-1','cut.c':{'metal':'mild-steel','thickness':'90mm','length':'1m','count':'1','at':1}}`, journaltest.About("job-3"))
	all := open(foldOf(s), lookAt(s, "stock", 10)).jobsAhead()
	if len(all) != 1 {
		t.Fatalf("%+v", all)
	}
	a := all[0]
	if a.rig != "rig-1" || !slices.Equal(a.jobs, []string{"Gate"}) || math.Abs(a.use.Minutes-24) > 1e-9 || a.use.Starts != 60 {
		t.Errorf("%+v, want 24 min and 60 starts of the job Gate", a)
	}
	later := open(foldOf(s), lookAt(s, "stock", 61*aDay)).jobsAhead()
	if len(later) != 1 || later[0].old != 2 || len(later[0].jobs) > 0 {
		t.Errorf("after 61 days: %+v", later)
	}
	if said := reportOf(t, s, lookAt(s, "stock", 61*aDay)); len(said.Sections) > 0 {
		t.Errorf("a stock without a line tells of jobs: %+v", said)
	}
	if len(a.cause) != 1 || !strings.HasPrefix(a.cause[0], "Not reckoned: job Anvil: ") {
		t.Errorf("what cannot be cut: %q", a.cause)
	}
}

// TestIdleJobs: a job that nobody has touched for two months is named as not counted.
func TestIdleJobs(t *testing.T) {
	s := trucks(t)
	fullSet(s, "rig-1", "1")
	gate(s, "150", "6m")
	r := reportOf(t, s, lookAt(s, "stock", 61*aDay))
	if s := r.Sections[2]; s.Title != "Jobs ahead, Truck 1" || !slices.Equal(s.Says, []string{"1 job is not counted: pieces are left, and nothing was entered for 60 days."}) || r.Says[0] != "Nothing is short." {
		t.Errorf("%q, %+v", r.Says, s)
	}
}

// TestNeedGoesByRating: tips of another current than that in the torch are no spares.
func TestNeedGoesByRating(t *testing.T) {
	s := trucks(t)
	aLine(s, "a", `{'slot':'tip','rating':'45 A','rig':'rig-1'}`, 1, "2")
	aLine(s, "b", `{'slot':'tip','rating':'60 A','rig':'rig-1'}`, 1, "7")
	aLine(s, "c", `{'slot':'tip','rig':'rig-1'}`, 1, "1")
	aLine(s, "d", `{'slot':'electrode','rating':'60 A','rig':'rig-1'}`, 1, "3")
	if n := needOf(t, s, "rig-1"); !slices.Equal(n.have, []int{3, 3, 0, 0}) {
		t.Errorf("counted %v, want 3 tips and 3 electrodes", n.have)
	}
}

// TestUsualDay: the middle of the sessions of that truck that had arc.
func TestUsualDay(t *testing.T) {
	s := trucks(t)
	for i, min := range []int64{10, 40, 20, 90, 30} {
		name := "s" + itoa(int64(i))
		at := int64(i) * aDay
		s.Add(name, at*minute, "session.opened", `{'rig':'rig-1'}`, journaltest.About(name))
		start := journaltest.T0 + (at+1)*minute
		s.Add(name+"a", (at+1+min)*minute, "arc.run", `{'rig':'rig-1','start':`+itoa(start)+`,'stop':`+itoa(start+min*minute)+`}`, journaltest.In(name))
		s.Add(name+"c", (at+2+min)*minute, "session.closed", `{}`, journaltest.About(name))
	}
	b := open(foldOf(s), lookAt(s, "stock", 10*aDay))
	if use, n := b.usualDay("rig-1"); n != 5 || use.Minutes != 30 || use.Starts != 1 {
		t.Errorf("%+v of %d, want 30 min and 1 start of 5", use, n)
	}
	if _, n := b.usualDay("rig-2"); n != 0 {
		t.Errorf("of another truck %d", n)
	}
}

// TestShoppingSentences: each reason to buy, and what it costs.
func TestShoppingSentences(t *testing.T) {
	for name, test := range map[string]struct {
		then  func(*journaltest.Script)
		says  string
		title string
		row   []string
	}{
		"nothing": {then: func(s *journaltest.Script) { fullSet(s, "rig-1", "1") }, says: "Nothing to buy."},
		"crew's word": {then: func(s *journaltest.Script) {
			fullSet(s, "rig-1", "2")
			s.Add("l", 2*minute, "line.set", `{'least':5}`, journaltest.About("cup-rig-1"))
		}, says: "Buy 3 pieces of 1 line: 6.00.", title: "3 × Shield cup", row: []string{"Below the lowest count of 5.", "6.00, 2.00 each"}},
		"one full set": {then: func(s *journaltest.Script) {
			fullSet(s, "rig-1", "1")
			s.Add("l", 2*minute, "stock.counted", `{'n':0}`, journaltest.About("cup-rig-1"))
		}, says: "Buy 1 piece of 1 line: 2.00.", title: "1 × Shield cup", row: []string{"One full set to spare, common practice.", "2.00, 2.00 each"}},
		"no line, no price": {then: func(s *journaltest.Script) {
			aLine(s, "tip", `{'slot':'tip','rating':'60 A','rig':'rig-1'}`, 1, "1")
			aLine(s, "e", `{'slot':'electrode','rig':'rig-1'}`, 1, "1")
			aLine(s, "d", `{'slot':'diffuser','rig':'rig-1'}`, 1, "1")
			aLine(s, "c", `{'slot':'cup','rig':'rig-1'}`, 1, "1")
		}, says: "Buy 1 piece of 1 line. No price is known.", title: "1 × Cutting tip 45 A", row: []string{"One full set to spare, common practice."}},
		"from the shop": {then: func(s *journaltest.Script) {
			fullSet(s, "rig-1", "1")
			s.Add("l", 2*minute, "line.set", `{'least':4}`, journaltest.About("cup-rig-1"))
			aLine(s, "shop-cups", `{'slot':'cup','least':1}`, 1, "9")
		}, says: "Nothing to buy: the shop has what the trucks lack.", title: "3 × Shield cup to Truck 1", row: []string{"Below the lowest count of 4."}},
		"partly from the shop": {then: func(s *journaltest.Script) {
			fullSet(s, "rig-1", "1")
			s.Add("l", 2*minute, "line.set", `{'least':4}`, journaltest.About("cup-rig-1"))
			aLine(s, "shop-cups", `{'slot':'cup','least':1}`, 1, "2")
		}, says: "Buy 2 pieces of 1 line: 4.00.", title: "2 × Shield cup", row: []string{"Below the lowest count of 4.", "4.00, 2.00 each"}},
	} {
		s := trucks(t)
		test.then(s)
		r := reportOf(t, s, lookAt(s, "shopping", 10))
		if r.Says[0] != test.says {
			t.Errorf("%s: %q, want %q", name, r.Says, test.says)
		}
		if test.title == "" {
			continue
		}
		if row := rowOfReport(t, r, test.title); !slices.Equal(row.Says, test.row) {
			t.Errorf("%s: %q, want %q", name, row.Says, test.row)
		}
	}
}

// TestShoppingForJob: a job of ten hours of arc wants more than a full set, and says for
// which job and how sure that is; the words to send hold the same.
func TestShoppingForJob(t *testing.T) {
	s := trucks(t)
	fullSet(s, "rig-1", "1")
	gate(s, "150", "6m")
	r := reportOf(t, s, lookAt(s, "shopping", 10))
	n := needOf(t, s, "rig-1")
	if n.told == nil || n.buy[0] == 0 {
		t.Fatalf("a job of ten hours wants no tip: %+v", n)
	}
	title := itoa(int64(n.buy[0])) + " × Cutting tip 45 A"
	_, odds, _ := n.told.Told("enough")
	if row := rowOfReport(t, r, title); row.Says[0] != "For the job Gate: then enough in "+odds+"." {
		t.Errorf("%q", row.Says)
	}
	d := do(t, s, "shopping-words", nil, nil)
	if !strings.Contains(d.Text, "For Truck 1:\n"+title+", "+strconv.Itoa(2*n.buy[0])+".00\n") || !strings.HasSuffix(d.Text, r.Says[0]+"\n") || d.Name != "" {
		t.Errorf("words %q", d.Text)
	}
	stock := reportOf(t, s, lookAt(s, "stock", 10))
	for _, section := range stock.Sections {
		if section.Title == "Jobs ahead, Truck 1" && section.Says[0] == "The job Gate: some 600 min of arc and 150 starts left." {
			return
		}
	}
	t.Errorf("the stock does not tell of the job: %+v", stock.Sections)
}

// TestNeedLaws: what is to be bought never gets less when the job grows, and with it on
// the truck what there is reaches the level.
func TestNeedLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 62))
	for range 6 {
		have := strconv.Itoa(1 + random.IntN(3))
		last := []int{0, 0, 0, 0}
		for _, count := range []int{5, 20, 80, 160} {
			s := trucks(t)
			fullSet(s, "rig-1", have)
			gate(s, strconv.Itoa(count), "6m")
			n := needOf(t, s, "rig-1")
			if n.told == nil {
				t.Fatal(n.why)
			}
			total := 0
			for _, k := range n.buy {
				total += k
			}
			was := 0
			for _, k := range last {
				was += k
			}
			if total < was {
				t.Errorf("with %s of each, %d cuts: buy %v, and of fewer %v", have, count, n.buy, last)
			}
			last = n.buy
			for i, slot := range spareSlots {
				s.Add("buy-"+slot, 5*minute, "stock.moved", `{'n':`+strconv.Itoa(max(n.buy[i], 0))+`,'why':'bought'}`, journaltest.About(slot+"-rig-1"))
			}
			after := needOf(t, s, "rig-1")
			value, _ := after.told.Results().Get("with_stock")
			if v, ok := value.(form.Value); !ok || v.Value < 0.95 {
				t.Errorf("with %s of each and %v bought, %d cuts: enough in %v", have, n.buy, count, value)
			}
			if slices.Max(after.buy) > 0 {
				t.Errorf("after buying %v more is wanted: %v", n.buy, after.buy)
			}
		}
	}
}

// TestNeedSections: how sure what there is serves stands first, the cautions behind it,
// and why nothing can be told where nothing can.
func TestNeedSections(t *testing.T) {
	s := trucks(t)
	fullSet(s, "rig-1", "1")
	gate(s, "10", "600mm")
	all := open(foldOf(s), lookAt(s, "stock", 10)).needSections(ptr(needOf(t, s, "rig-1")))
	if len(all) != 2 || !slices.Equal(all[0].Says, []string{"The job Gate: some 4 min of arc and 10 starts left.", "Of tips, those of 45 A are counted: that is in the torch."}) ||
		!all[0].Figures[0].Main || all[0].Figures[0].Label != "What you have is enough in" || all[0].Figures[1].Text != "Nothing for this job." || len(all[0].Cautions) > 0 || len(all[1].Cautions) == 0 {
		t.Errorf("%+v", all)
	}
	n := need{why: "too long", ahead: ahead{rig: "rig-1", jobs: []string{"Gate", "Rail"}}}
	if all := open(foldOf(s), lookAt(s, "stock", 10)).needSections(&n); all[1].Cautions[0] != "What that wants cannot be told: too long." || !strings.HasPrefix(all[0].Says[0], "2 jobs: some ") {
		t.Errorf("%+v", all)
	}
}

func ptr[T any](v T) *T { return &v }
