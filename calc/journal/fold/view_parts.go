package fold

import (
	"cmp"
	"encoding/json"
	"slices"
)

// PartPhoto is a photo of a part.
type PartPhoto struct {
	ID   string          `json:"id"`
	At   int64           `json:"at"`
	Body json.RawMessage `json:"body"`
}

// Photo returns the photo of that event, nil if it is not here or was taken out.
func (f *Fold) Photo(id string) *PartPhoto {
	e := f.settled().entries[id]
	if e == nil || !e.counts("photo.added") || e.hidden {
		return nil
	}
	return &PartPhoto{ID: e.id, At: e.when(), Body: e.raw()}
}

// PartRow is a part in short.
type PartRow struct {
	Part     string   `json:"part"`
	Same     []string `json:"same,omitempty"`
	Slot     string   `json:"slot"`
	Rig      string   `json:"rig"` // in which it was last
	Line     string   `json:"line"`
	At       int64    `json:"at"`    // last fitted
	From     int64    `json:"from"`  // first fitted
	To       int64    `json:"to"`    // came out last, 0 while it is in
	Ended    string   `json:"ended"` // why it came out; "not-told" if nobody said, "" while it is in
	Failed   bool     `json:"failed"`
	Ms       int64    `json:"ms"` // arc time over its whole life
	Starts   int64    `json:"starts"`
	Readings int      `json:"readings"`
}

// PartRows are parts, the one fitted last first.
type PartRows struct {
	Parts []PartRow `json:"parts"`
	Total int       `json:"total"` // of that slot and that rig
	More  bool      `json:"more"`  // older ones follow
}

// partPage is how many parts a page of them holds.
const partPage = 100

// PartsPage returns at most limit parts that were ever in that rig and that slot, behind the
// part before; "" is any, and the beginning; limit 0 is a page. A part ends as its life does,
// and only those of the page are added up.
func (f *Fold) PartsPage(before string, limit int, slot, rig string) PartRows {
	if limit <= 0 || limit > 10*partPage {
		limit = partPage
	}
	x := f.settled()
	before, rig = x.same.of(before), x.same.of(rig)
	v := PartRows{Parts: []PartRow{}}
	l := gatherLives(x)
	behind := !slices.ContainsFunc(l.all, func(p *partLife) bool { return p.id == before })
	for _, p := range l.all {
		if p.wasIn(rig, slot) {
			v.Total++
			if behind && len(v.Parts) < limit {
				v.Parts = append(v.Parts, l.row(p))
			} else if behind {
				v.More = true
			}
		}
		behind = behind || p.id == before
	}
	return v
}

// row returns a part in short.
func (l *lives) row(p *partLife) PartRow {
	l.sum(p)
	last := p.fits[len(p.fits)-1]
	v := PartRow{Part: p.id, Same: l.x.aliases(p.id), Slot: last.slot, Rig: last.rig, Line: last.line, At: last.from, From: p.fits[0].from,
		Failed: p.failed, Ms: p.ms, Starts: p.starts, Readings: len(visible(p.readings))}
	v.To, v.Ended = last.ended()
	return v
}

// ended returns when and why a part came out; 0 and "" while it is in.
func (f fit) ended() (to int64, why string) {
	if f.to != forever {
		to, why = f.to, "not-told"
	}
	if f.out != nil {
		why = cmp.Or(f.out.body.Text("why"), why)
	}
	return to, why
}
