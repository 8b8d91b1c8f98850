package fold

import "kerfside/calc/order"

// part is one electrode, tip, diffuser or cup, from its first fitting on.
type part struct {
	id       string
	moves    []*entry // part.fitted and part.pulled
	readings []*entry

	stale    bool // where it was is to be computed anew
	fits     []fit
	warnings []Warning
	in       string // the rig that it is in, if it is in one
}

// fit is a stretch of time that a part spent in a rig.
type fit struct {
	rig, slot, line string
	from, to        int64 // ms; to is forever while it is in
	by              *entry
	out             *entry // what pulled it, nil while it is in or if it went elsewhere
}

var partFamily = family{kinds: []string{"part.fitted", "part.pulled", "part.reading"}, add: (*index).addPart, drop: (*index).dropPart}

// addPart takes a fitting, a pulling or a reading.
func (x *index) addPart(e *entry) {
	p := x.part(x.same.of(e.about))
	x.invalidatePart(p)
	if e.kind == "part.reading" {
		p.readings = append(p.readings, e)
		return
	}
	p.moves = append(p.moves, e)
	if line := e.body.Text("line"); e.kind == "part.fitted" && line != "" {
		x.stockLine(x.same.of(line)).put(x, e)
	}
}

// dropPart takes one of these out again.
func (x *index) dropPart(e *entry) {
	p := x.part(x.same.of(e.about))
	x.invalidatePart(p)
	p.moves, p.readings = without(p.moves, e), without(p.readings, e)
	if line := e.body.Text("line"); e.kind == "part.fitted" && line != "" {
		x.stockLine(x.same.of(line)).remove(x, e)
	}
}

// invalidatePart makes a part stale.
func (x *index) invalidatePart(p *part) {
	if !p.stale {
		p.stale = true
		x.staleParts = append(x.staleParts, p)
	}
}

// locatePart computes where a part was and is.
func (x *index) locatePart(p *part) {
	if x.fittedParts[p] {
		r := x.rig(p.in)
		r.cached = nil
		delete(r.inside, p)
		delete(x.fittedParts, p)
	}
	p.stale = false
	p.fits, p.warnings = p.findFits(x)
	if at, ok := current(p.fits); ok {
		p.in = at.rig
		r := x.rig(p.in)
		r.cached, r.inside[p], x.fittedParts[p] = nil, true, true
	}
}

// part returns the part of that id, a new one if need be.
func (x *index) part(id string) *part {
	p := x.parts[id]
	if p == nil {
		p = &part{id: id}
		x.parts[id] = p
	}
	return p
}

// findFits returns where the part was, in order, and what is odd about it. A part
// that is fitted elsewhere without having been pulled leaves the old place; a
// move that cannot have been is a warning, never a refusal: the steel is right.
func (p *part) findFits(x *index) ([]fit, []Warning) {
	moves := visible(p.moves)
	order.Sort(moves, byPlace)
	var list []fit
	checks := []Warning{}
	in := false
	for _, e := range moves {
		if in {
			list[len(list)-1].to = e.when()
		}
		if e.kind == "part.pulled" {
			if in {
				list[len(list)-1].out = e
			} else {
				checks = append(checks, Warning{What: "not-fitted", ID: e.id, Msg: "this part was pulled without having been fitted"})
			}
			in = false
			continue
		}
		if in {
			checks = append(checks, Warning{What: "fitted-twice", ID: e.id, Msg: "this part was fitted while it was still in: it may be two parts, or in the other rig"})
		}
		list = append(list, fit{rig: x.rigOf(e), slot: e.body.Text("slot"), line: x.same.of(e.body.Text("line")), from: e.when(), to: forever, by: e})
		in = true
	}
	return list, checks
}

// current returns the fit that the part is in, false if it is in none.
func current(list []fit) (fit, bool) {
	if len(list) == 0 || list[len(list)-1].to != forever {
		return fit{}, false
	}
	return list[len(list)-1], true
}

// arcTime returns the arc time and the starts that the part has seen before the
// time until.
func (p *part) arcTime(x *index, until int64) (ms, starts int64) {
	for _, f := range p.fits {
		m, s := x.rig(f.rig).timeline.between(f.from, min(f.to, until))
		ms, starts = ms+m, starts+s
	}
	return ms, starts
}
