package engine

import (
	"encoding/json"
	"fmt"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/journal/book"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
)

// TestHistory: what the call hands to calculators is read by the fields that it is for.
// The lives and times are worked by hand.
func TestHistory(t *testing.T) {
	s := (&script{T: t}).
		Add("job", 0, "job.set", `{'cut.k1':{'metal':'mild-steel','surface':'rusty'},'cut.k2':{'metal':'unobtainium'}}`, about("job-1")).
		Add("open", 0, "session.opened", `{'rig':'rig-1','job':'job-1'}`, about("s"))
	for i := range int64(4) { // tips of 3 min, 3 starts; the last is in
		tip, from := fmt.Sprintf("tip-%d", i), i*30*minute
		s.Add("fit-"+tip, from, "part.fitted", `{'slot':'tip'}`, about(tip), in("s"))
		for k := range int64(3) { // a piece each 90 s
			start := from + 2*minute + k*150_000
			s.Add(fmt.Sprintf("run-%d-%d", i, k), from+20*minute, "arc.run", fmt.Sprintf(`{'start':%d,'stop':%d,'cut':'k%d'}`, t0+start, t0+start+minute, 1+i%2), in("s"))
			s.Add(fmt.Sprintf("done-%d-%d", i, k), start+minute+1000, "cut.done", fmt.Sprintf(`{'cut':'k%d'}`, 1+i%2), about("job-1"), in("s"))
		}
		if i < 3 {
			s.Add("pull-"+tip, from+25*minute, "part.pulled", `{'why':'`+[]string{"worn", "lost", "damaged"}[i]+`'}`, about(tip), in("s"))
		}
	}
	f := fold.NewFold()
	for _, e := range s.Events {
		f.Add(e, nil, 0)
	}
	e := New()
	e.fold = f
	out, err := e.Call("journal-history", []byte(`{"rig":"rig-1"}`))
	if err != nil {
		t.Fatal(err)
	}
	values := out.(book.History).Values
	for key, want := range map[string]string{"tip_minutes": "3min", "tip_starts": "3", "move_piece": "1.5min", "move_own": "8", "part_change": "24min", "change_own": "3"} {
		if values[key] != want {
			t.Errorf("%s = %q, want %q", key, values[key], want)
		}
	}
	for _, key := range []string{"electrode_lives", "electrode_minutes", "mark_out", "gate"} {
		if text, ok := values[key]; ok {
			t.Errorf("%s = %q, of which the journal says nothing", key, text)
		}
	}
	parts := readLives(t, "tip_lives", "tip", values["tip_lives"])
	use := life.Use{Minutes: 3, Starts: 3}
	want := []life.Part{{Use: use, Failed: true, Seen: life.Seen{Metal: "mild-steel", Surface: "rusty", Rig: "rig-1", Start: "edge"}},
		{Use: use, Seen: life.Seen{Rig: "rig-1", Start: "edge"}},
		{Use: use, Failed: true, Seen: life.Seen{Metal: "mild-steel", Surface: "rusty", Rig: "rig-1", Start: "edge"}}}
	got, _ := json.Marshal(parts)
	if text, _ := json.Marshal(want); string(got) != string(text) {
		t.Errorf("lives\n%s, want\n%s", got, text)
	}
}

// readLives reads a list of lives as a calculator does.
func readLives(t *testing.T, key, slot, text string) []life.Part {
	c := form.Calculator{Name: "lives", Fields: []form.Field{life.LivesField(key, slot)}}
	r := form.NewReader(&c, map[string]any{key: text})
	parts := life.ReadLives(r, key)
	if err := r.Err(); err != nil {
		t.Fatal(err)
	}
	return parts
}
