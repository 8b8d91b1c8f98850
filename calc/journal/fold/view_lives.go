package fold

import (
	"encoding/json"
	"slices"
)

// Life is what a part has done from its first fitting on. Times are ms of arc.
type Life struct {
	Part      string        `json:"part"`
	Same      []string      `json:"same,omitempty"`
	Slot      string        `json:"slot"`
	Line      string        `json:"line"`
	Rigs      []string      `json:"rigs"`  // in their order
	From      int64         `json:"from"`  // first fitted
	To        int64         `json:"to"`    // came out last, 0 while it is in
	Ended     string        `json:"ended"` // why it came out; "not-told" if nobody said, "" while it is in
	Failed    bool          `json:"failed"`
	Ms        int64         `json:"ms"`
	Starts    int64         `json:"starts"`
	Metals    []Share       `json:"metals"` // ms, as far as it is known; the largest first
	Surfaces  []Share       `json:"surfaces"`
	Positions []Share       `json:"positions"`
	StartsBy  []Share       `json:"startsBy"`  // starts: edge and pierce
	Drains    bool          `json:"drains"`    // the crew tells of drained traps: else overdueMs says nothing
	OverdueMs int64         `json:"overdueMs"` // with the trap past due
	Partner   string        `json:"partner"`   // the last part beside it that wears with it
	PartnerMs int64         `json:"partnerMs"` // beside any
	WornMs    int64         `json:"wornMs"`    // beside one past half
	Half      int64         `json:"half"`      // ms: half of the median life of the partner's sort; 0 if too few failed
	Mostly    Mostly        `json:"mostly"`
	Readings  []LifeReading `json:"readings"`
}

// Mostly is what a part worked on and with for more than half of its arc time, or of its
// starts; "" where that is not known.
type Mostly struct {
	Metal    string `json:"metal"`
	Surface  string `json:"surface"`
	Rig      string `json:"rig"`
	Position string `json:"position"`
	Start    string `json:"start"`   // "edge" or "pierce"
	Air      string `json:"air"`     // "wet" past the time to drain, else "dry"
	Partner  string `json:"partner"` // "worn" or "good"
}

// mostly returns what holds of more than half of a life.
func (v *Life) mostly(rigs []Share) Mostly {
	m := Mostly{Metal: most(v.Metals, v.Ms), Surface: most(v.Surfaces, v.Ms), Rig: most(rigs, v.Ms), Position: most(v.Positions, v.Ms), Start: most(v.StartsBy, v.Starts)}
	if v.Drains && v.Ms > 0 {
		m.Air = most([]Share{{Word: "wet", N: v.OverdueMs}, {Word: "dry", N: v.Ms - v.OverdueMs}}, v.Ms)
	}
	if v.Half > 0 && v.PartnerMs > 0 {
		m.Partner = most([]Share{{Word: "worn", N: v.WornMs}, {Word: "good", N: v.PartnerMs - v.WornMs}}, v.PartnerMs)
	}
	return m
}

// most returns the word of a share of more than half, "" if there is none.
func most(list []Share, of int64) string {
	for _, s := range list {
		if 2*s.N > of {
			return s.Word
		}
	}
	return ""
}

// Share is a part of a whole by a word.
type Share struct {
	Word string `json:"word"`
	N    int64  `json:"n"`
}

// LifeReading is a reading of a part with what it had done by then.
type LifeReading struct {
	ID     string          `json:"id"`
	At     int64           `json:"at"`
	Ms     int64           `json:"ms"`
	Starts int64           `json:"starts"`
	Body   json.RawMessage `json:"body"`
}

// Lives are the lives of parts, the one fitted last first.
type Lives struct {
	Lives []Life `json:"lives"`
	More  int    `json:"more"` // older ones that were left out
}

// lifePage is how many lives are handed out that nobody asked more of. More of them tell
// little more of the next.
const lifePage = 400

// Lives returns at most limit lives of parts that were ever in that rig and that slot;
// "" is any, limit 0 is a page.
func (f *Fold) Lives(rig, slot string, limit int) Lives {
	if limit <= 0 {
		limit = lifePage
	}
	x := f.settled()
	rig = x.same.of(rig)
	var slots []string
	if slot != "" {
		slots = []string{slot}
	}
	l := newLives(x, slots...)
	v := Lives{Lives: []Life{}}
	for _, p := range l.all {
		if !p.wasIn(rig, slot) {
			continue
		}
		if len(v.Lives) == limit {
			v.More++
			continue
		}
		v.Lives = append(v.Lives, l.view(p))
	}
	return v
}

// NewestLives returns of each of these slots the lives of at most limit parts whose last
// place it was, the one fitted last first.
func (f *Fold) NewestLives(limit int, slots ...string) map[string][]Life {
	l := newLives(f.settled(), slots...)
	return l.newest(limit, slots, l.view)
}

// NewestUses is NewestLives with no more of each life than how long it was, in which rig
// last, and whether and why it ended: what the part worked on takes most of the time.
func (f *Fold) NewestUses(limit int, slots ...string) map[string][]Life {
	l := gatherLives(f.settled(), slots...)
	return l.newest(limit, slots, l.use)
}

// newest tells of each of these slots at most limit lives, the part fitted last first.
func (l *lives) newest(limit int, slots []string, tell func(*partLife) Life) map[string][]Life {
	all := map[string][]Life{}
	for _, p := range l.all {
		if slot := p.slot(); slices.Contains(slots, slot) && len(all[slot]) < limit {
			all[slot] = append(all[slot], tell(p))
		}
	}
	return all
}

// wasIn reports whether a part was ever in that rig and slot.
func (p *partLife) wasIn(rig, slot string) bool {
	for _, f := range p.fits {
		if (rig == "" || f.rig == rig) && (slot == "" || f.slot == slot) {
			return true
		}
	}
	return false
}
