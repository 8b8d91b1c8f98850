package book

import (
	"slices"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// trucks are two trucks with 45 A tips.
func trucks(t *testing.T) *journaltest.Script {
	return (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1','fitted':'45A','tips':'45A:1.05mm','min_current':'20A','max_current':'45A','pressure':'5bar'}`, journaltest.About("rig-1")).
		Add("rig2", 0, "rig.set", `{'name':'Truck 2'}`, journaltest.About("rig-2"))
}

// aLine is a stock line with a count at a minute.
func aLine(s *journaltest.Script, name, body string, min int64, n string) {
	s.Add(name, 0, "line.set", body, journaltest.About(name)).Add(name+"-n", min*minute, "stock.counted", `{'n':`+n+`}`, journaltest.About(name))
}

// TestStockRows: what stands there of a line follows from what was counted, came and went.
func TestStockRows(t *testing.T) {
	for name, test := range map[string]struct {
		then func(*journaltest.Script)
		says []string
		tag  string
	}{
		"counted": {then: func(*journaltest.Script) {}, says: []string{"5 left", "Counted today"}},
		"fitted": {then: func(s *journaltest.Script) {
			s.Add("f", 5*minute, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, journaltest.About("p")).Add("s", 6*minute, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s"))
			arcs(s, "a", 6, 1)
		}, says: []string{"4 left", "Counted today", "1 fitted in the last 90 days of work"}},
		"fewer": {then: func(s *journaltest.Script) {
			s.Add("c", 5*minute, "stock.counted", `{'n':3}`, journaltest.About("tips"))
		}, says: []string{"3 left", "Counted today: 2 fewer than entered"}},
		"more": {then: func(s *journaltest.Script) {
			s.Add("c", 5*minute, "stock.counted", `{'n':9}`, journaltest.About("tips"))
		}, says: []string{"9 left", "Counted today: 4 more than entered"}},
		"below zero": {then: func(s *journaltest.Script) {
			s.Add("m", 5*minute, "stock.moved", `{'n':-6}`, journaltest.About("tips"))
		}, says: []string{"Should be -1: something was not entered.", "Counted today"}, tag: "count again"},
		"low": {then: func(s *journaltest.Script) {
			s.Add("m", 5*minute, "line.set", `{'least':6}`, journaltest.About("tips"))
		}, says: []string{"5 left, no fewer than 6 wanted", "Counted today"}, tag: "low"},
	} {
		s := trucks(t)
		aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1'}`, 1, "5")
		test.then(s)
		row := rowOfReport(t, reportOf(t, s, lookAt(s, "stock", 10)), "Cutting tip 45 A")
		if !slices.Equal(row.Says, test.says) || row.Tag != test.tag || row.Href != "/book/line/tips" {
			t.Errorf("%s: %q, tag %q, %s; want %q, %q", name, row.Says, row.Tag, row.Href, test.says, test.tag)
		}
	}
	s := trucks(t)
	s.Add("never", 0, "line.set", `{'name':'Wipes'}`, journaltest.About("wipes"))
	r := reportOf(t, s, lookAt(s, "stock", 10))
	if row := rowOfReport(t, r, "Wipes"); !slices.Equal(row.Says, []string{"0 left", "Never counted"}) || r.Sections[1].Title != "The shop" {
		t.Errorf("never counted, in the shop: %+v, %q", row, r.Sections[1].Title)
	}
	if r := reportOf(t, trucks(t), lookAt(s, "stock", 10)); r.Says[0] != "No stock is entered yet." {
		t.Errorf("without a line: %q", r.Says)
	}
}

// TestStockSays: the answer names what wants doing first.
func TestStockSays(t *testing.T) {
	full := func(s *journaltest.Script, rig string) {
		for _, slot := range spareSlots {
			aLine(s, slot+rig, `{'slot':'`+slot+`','rig':'`+rig+`'}`, 1, "2")
		}
	}
	for name, test := range map[string]struct {
		then func(*journaltest.Script)
		want string
	}{
		"enough": {then: func(s *journaltest.Script) { full(s, "rig-1") }, want: "Nothing is short."},
		"again": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			s.Add("m", 2*minute, "stock.moved", `{'n':-3}`, journaltest.About("cuprig-1")).Add("m2", 2*minute, "stock.moved", `{'n':-3}`, journaltest.About("tiprig-1"))
		}, want: "Count again: cutting tip on Truck 1, and 1 more."},
		"buy": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			aLine(s, "tips", `{'slot':'tip','rating':'60 A','rig':'rig-1','least':4}`, 1, "1")
		}, want: "Buy for Truck 1: 3 × cutting tip 60 A."},
		"move": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			aLine(s, "tips", `{'slot':'tip','rating':'60 A','rig':'rig-1','least':4}`, 1, "1")
			aLine(s, "more", `{'slot':'tip','rating':'60A','least':1}`, 1, "4")
		}, want: "Move from the shop to Truck 1: 3 × cutting tip 60 A."},
		"the shop": {then: func(s *journaltest.Script) { aLine(s, "wipes", `{'name':'Wipes','least':4}`, 1, "1") }, want: "Buy for the shop: 3 × wipes."},
	} {
		s := trucks(t)
		test.then(s)
		if r := reportOf(t, s, lookAt(s, "stock", 10)); r.Says[0] != test.want {
			t.Errorf("%s: %q, want %q", name, r.Says[0], test.want)
		}
	}
}
