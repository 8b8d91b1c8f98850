package fold

import (
	"fmt"
	"testing"
)

// lived is a rig whose tips wore out on a job and whose electrode stayed in. All times are
// worked by hand.
func lived(t *testing.T) *script {
	s := (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'South truck'}`, about("rig-1")).
		Add("job", 0, "job.set", `{'cut.k1':{'metal':'mild-steel','surface':'rusty','position':'overhead','pierces':'2'},'cut.k2':{'metal':'stainless','surface':'clean'}}`, about("job-1")).
		Add("open", 0, "session.opened", `{'rig':'rig-1','job':'job-1','plan_metal':'aluminium'}`, about("s")).
		Add("e", 0, "part.fitted", `{'slot':'electrode'}`, about("e-1"), in("s")).
		Add("drain", 0, "trap.drained", `{}`, in("s"))
	for i := range 4 { // tips of 10, 12, 14 and 16 min; each twice on k1 and once on what the plan says
		long, from := int64(10+2*i), int64(i)*60
		tip := fmt.Sprintf("tip-%d", i)
		s.Add("fit-"+tip, from*minute, "part.fitted", `{'slot':'tip','line':'tips'}`, about(tip), in("s"))
		for k, cut := range []string{"k1", "k1", ""} {
			start := from + 1 + int64(k)*17
			ms := (long - 4) * minute / 2
			if k == 2 {
				ms = 4 * minute
			}
			text, _ := jsonOf(map[string]any{"start": t0 + start*minute, "stop": t0 + start*minute + ms, "starts": 3, "cut": cut})
			s.Add(fmt.Sprintf("run-%d-%d", i, k), (from+58)*minute, "arc.run", text, in("s"))
		}
		s.Add("read-"+tip, (from+30)*minute, "part.reading", `{'dmax':1200}`, about(tip), in("s"))
		s.Add("pull-"+tip, (from+59)*minute, "part.pulled", `{'why':'`+[]string{"worn", "damaged", "worn", "inspection"}[i]+`'}`, about(tip), in("s"))
	}
	return s
}

// lifeOf returns the life of a part of a script.
func lifeOf(s *script, part string) Life {
	s.T.Helper()
	for _, v := range foldOf(s).Lives("", "", 0).Lives {
		if v.Part == part {
			return v
		}
	}
	s.T.Fatalf("%s has no life", part)
	return Life{}
}

func TestLives(t *testing.T) {
	s := lived(t)
	tip := lifeOf(s, "tip-1")
	want := Life{Part: "tip-1", Slot: "tip", Line: "tips", Rigs: []string{"rig-1"}, From: t0 + 60*minute, To: t0 + 119*minute, Ended: "damaged", Failed: true,
		Ms: 12 * minute, Starts: 9, Metals: []Share{{"mild-steel", 8 * minute}, {"aluminium", 4 * minute}}, Surfaces: []Share{{"rusty", 8 * minute}},
		Positions: []Share{{"overhead", 8 * minute}}, StartsBy: []Share{{"pierce", 6}}, Drains: true, Partner: "e-1", PartnerMs: 12 * minute,
		// The trap is due after 20 min of arc: 10 min went before, then 4, 4 and 4.
		OverdueMs: 0, Half: 0, Mostly: Mostly{Metal: "mild-steel", Surface: "rusty", Rig: "rig-1", Position: "overhead", Start: "pierce", Air: "dry"}, Readings: []LifeReading{{ID: id("read-tip-1"), At: t0 + 90*minute, Ms: 8 * minute, Starts: 6, Body: []byte(`{"dmax":1200}`)}}}
	if !sameJSON(tip, want) {
		t.Errorf("tip-1\n%+v, want\n%+v", tip, want)
	}
	if v := lifeOf(s, "tip-3"); v.Failed || v.Ended != "inspection" || v.OverdueMs != 16*minute {
		t.Errorf("tip-3 = %+v", v)
	}
	// Of three tips that failed the median is 12 min: beside each the electrode cut all that
	// is past its sixth minute.
	if v := lifeOf(s, "e-1"); v.To != 0 || v.Ended != "" || v.Failed || v.Ms != 52*minute || v.Half != 6*minute || v.Mostly.Partner != "worn" || v.Mostly.Air != "wet" || v.WornMs != (4+6+8+10)*minute || v.PartnerMs != 52*minute {
		t.Errorf("e-1 = %+v", v)
	}
	// Wrong entries are taken back.
	s.Add("oops", 300*minute, "void", `{'of':'`+id("pull-tip-1")+`'}`).
		Add("other", 300*minute, "amend", `{'of':'`+id("run-1-0")+`','set':{'cut':'k2'}}`)
	v := lifeOf(s, "tip-1")
	if v.Failed || v.Ended != "not-told" || v.To != t0+120*minute || v.Ms != 12*minute {
		t.Errorf("not pulled, tip-1 = %+v", v)
	}
	if !sameJSON(v.Metals, []Share{{"aluminium", 4 * minute}, {"mild-steel", 4 * minute}, {"stainless", 4 * minute}}) || !sameJSON(v.StartsBy, []Share{{"edge", 3}, {"pierce", 3}}) {
		t.Errorf("amended, tip-1 = %+v", v)
	}
	if v := lifeOf(s, "e-1"); v.Half != 0 || v.WornMs != 0 {
		t.Errorf("two failed, e-1 = %+v", v)
	}
}

// TestLivesAsked: by rig, by slot, the newest first, and so many.
func TestLivesAsked(t *testing.T) {
	f := foldOf(lived(t))
	for _, test := range []struct {
		rig, slot string
		limit     int
		want      string
	}{
		{want: "tip-3 tip-2 tip-1 e-1 tip-0 0"}, {slot: "tip", limit: 2, want: "tip-3 tip-2 2"},
		{rig: "rig-1", slot: "electrode", want: "e-1 0"}, {rig: "rig-2", want: "0"},
	} {
		v, got := f.Lives(test.rig, test.slot, test.limit), ""
		for _, one := range v.Lives {
			got += one.Part + " "
		}
		if got += fmt.Sprint(v.More); got != test.want {
			t.Errorf("Lives(%q, %q, %d) = %s, want %s", test.rig, test.slot, test.limit, got, test.want)
		}
	}
}

// TestLivesCountEachArcOnce: the arc time of the parts that followed each other in a seat
// is that of the rig, whether anybody told that they were pulled or not.
func TestLivesCountEachArcOnce(t *testing.T) {
	s := (&script{T: t}).Add("arc-0", 2*minute, "arc.run", run(0, minute, "rig-1")) // before any
	for i := range int64(5) {
		s.Add(fmt.Sprintf("fit-%d", i), (10+i*10)*minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, about(fmt.Sprintf("tip-%d", i%3)))
		s.Add(fmt.Sprintf("arc-%d", i+1), (19+i*10)*minute, "arc.run", run((12+i*10)*minute, (13+i*10)*minute, "rig-1"))
	}
	sum := int64(0)
	for _, v := range foldOf(s).Lives("", "tip", 0).Lives {
		sum += v.Ms
	}
	if sum != 5*minute {
		t.Errorf("the tips have %d ms, the rig had 5 min with one in", sum)
	}
}
