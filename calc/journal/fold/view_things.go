package fold

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Thing is a rig, a site or a job.
type Thing struct {
	ID   string   `json:"id"`
	Same []string `json:"same,omitempty"` // further ids that mean it
	Fields
}

// Things are the rigs, sites and jobs of the crew.
type Things struct {
	Rigs  []Thing `json:"rigs"`
	Sites []Thing `json:"sites"`
	Jobs  []Thing `json:"jobs"`
}

// Things returns the view rigs.
func (f *Fold) Things() Things {
	x := f.settled()
	rigs := map[string]register{}
	for id, r := range x.rigs {
		rigs[id] = r.fields
	}
	return Things{x.things(rigs), x.things(x.sites), x.things(x.jobs)}
}

// things returns those of which something is set, by id.
func (x *index) things(all map[string]register) []Thing {
	list := []Thing{}
	for _, id := range order.Keys(all) {
		if v := all[id].view(); len(v.By) > 0 {
			list = append(list, Thing{id, x.aliases(id), v})
		}
	}
	return list
}

// aliases returns the other ids that mean the thing id.
func (x *index) aliases(id string) []string {
	var list []string
	for other := range x.same {
		if x.same.of(other) == id {
			list = append(list, other)
		}
	}
	order.Sort(list, cmp.Compare)
	return list
}

// Stocks is the view stock.
type Stocks struct {
	Lines []Stock `json:"lines"`
}

// Stocks returns the view stock, by id.
func (f *Fold) Stocks() Stocks {
	x := f.settled()
	v := Stocks{Lines: []Stock{}}
	for _, id := range order.Keys(x.stockLines) {
		l := x.stockLines[id]
		if s := l.stock(); len(s.By) > 0 || l.moved() {
			s.Same = x.aliases(id)
			v.Lines = append(v.Lines, s)
		}
	}
	return v
}

// Settings is the view settings.
type Settings struct {
	Devices map[string]Fields `json:"devices"`
}

// ownSettings never leave the phone that they are entered on. Earlier versions
// wrote the number to call into the journal.
var ownSettings = []string{"emergency", "watcher"}

// Settings returns the settings of all devices, without what should be on that
// phone alone; a phone takes its own.
func (f *Fold) Settings() Settings {
	v := Settings{Devices: map[string]Fields{}}
	for id, r := range f.settled().devices {
		fields := r.view()
		for _, own := range ownSettings {
			delete(fields.Fields, own)
			delete(fields.By, own)
		}
		fields.Also = slices.DeleteFunc(fields.Also, func(a LostValue) bool { return slices.Contains(ownSettings, a.Field) })
		v.Devices[id] = fields
	}
	return v
}

// Part is a part with its life.
type Part struct {
	Part     string        `json:"part"`
	Same     []string      `json:"same,omitempty"`
	Ms       int64         `json:"ms"`
	Starts   int64         `json:"starts"`
	Fits     []PartFit     `json:"fits"`
	Readings []PartReading `json:"readings"`
	Check    []Warning     `json:"check"`
}

// PartFit is a stretch of time that a part spent in a rig.
type PartFit struct {
	ID   string `json:"id"`
	Rig  string `json:"rig"`
	Slot string `json:"slot"`
	Line string `json:"line"`
	From int64  `json:"from"`
	To   int64  `json:"to"`  // 0 while it is in
	Why  string `json:"why"` // why it was pulled
	Ms   int64  `json:"ms"`
}

// Part returns the life of one part. Its error is a problem.
func (f *Fold) Part(id string) (Part, error) {
	x := f.settled()
	p := x.parts[x.same.of(id)]
	if p == nil {
		return Part{}, problem.New(problem.NotFound, "id", "there is no such part on this phone", "It may come with the next sync.")
	}
	return p.view(x), nil
}

func (p *part) view(x *index) Part {
	v := Part{Part: p.id, Same: x.aliases(p.id), Fits: []PartFit{}, Readings: p.reading(x), Check: p.warnings}
	v.Ms, v.Starts = p.burnt(x, forever)
	for _, f := range p.stays {
		ms, _ := x.rig(f.rig).burnt.between(f.from, f.to)
		pf := PartFit{ID: f.by.id, Rig: f.rig, Slot: f.slot, Line: f.line, From: f.from, To: f.to, Ms: ms}
		if f.to == forever {
			pf.To = 0
		}
		if f.out != nil {
			pf.Why = f.out.body.Text("why")
		}
		v.Fits = append(v.Fits, pf)
	}
	return v
}

// Parts returns the lives of all parts, the last fitted first.
func (f *Fold) Parts() []Part {
	x := f.settled()
	list := []Part{}
	for _, id := range order.Keys(x.parts) {
		if v := x.parts[id].view(x); len(v.Fits)+len(v.Readings) > 0 {
			list = append(list, v)
		}
	}
	began := func(p Part) int64 {
		if len(p.Fits) == 0 {
			return always
		}
		return p.Fits[len(p.Fits)-1].From
	}
	order.Stable(list, func(a, b Part) int { return cmp.Compare(began(b), began(a)) })
	return list
}
