package fold

import (
	"cmp"
	"slices"
	"sort"

	"kerfside/calc/order"
)

// partLife is a part with the stretches of time that count for its life.
type partLife struct {
	*part
	fits []fit // as in part, but each ends where another part came into its slot

	summed     bool  // what follows is known: few of all lives are asked for
	ms, starts int64 // of arc
	failed     bool
}

// failures are the reasons for which a part comes out that has failed.
var failures = []string{"worn", "damaged"}

// partners are the slots whose parts wear each other.
var partners = map[string]string{"tip": "electrode", "electrode": "tip"}

// seat is a place in a torch. A torch has several O-rings and one of each other part.
type seat struct{ rig, slot string }

// lives are the lives of parts.
type lives struct {
	x      *index
	look   *looker
	all    []*partLife
	seats  map[seat][]seated // by when they came in
	halves map[string]int64  // ms: half of the median life of a slot's newest parts that failed; 0 if too few did
}

// seated is a part in a seat.
type seated struct {
	fit
	of *partLife
}

// leastFailed is how many parts of a slot have to have failed before half of their
// median life tells old from young, and mostFailed how many of the newest count.
const (
	leastFailed = 3
	mostFailed  = 200
)

// newLives returns the lives of all parts that were ever in one of some slots, or that
// wear with one of these; no slots are all.
func newLives(x *index, slots ...string) *lives {
	l := gatherLives(x, slots...)
	for slot := range partners {
		l.halves[slot] = l.half(slot)
	}
	return l
}

// gatherLives returns them without what tells old from young.
func gatherLives(x *index, slots ...string) *lives {
	l := &lives{x: x, look: newLooker(x), seats: map[seat][]seated{}, halves: map[string]int64{}}
	wanted := slices.Clone(slots)
	for _, slot := range slots {
		if other := partners[slot]; other != "" {
			wanted = append(wanted, other)
		}
	}
	for _, p := range x.parts {
		if !slices.ContainsFunc(p.fits, func(f fit) bool { return len(slots) == 0 || slices.Contains(wanted, f.slot) }) {
			continue
		}
		l.all = append(l.all, &partLife{part: p, fits: p.fits})
	}
	order.Sort(l.all, byLastFit)
	for _, one := range slices.Backward(l.all) { // which leaves little to sort in each seat
		for _, f := range one.fits {
			at := seat{rig: f.rig, slot: f.slot}
			l.seats[at] = append(l.seats[at], seated{fit: f, of: one})
		}
	}
	l.parted()
	return l
}

// sum computes what a part has done, and whether it failed.
func (l *lives) sum(p *partLife) *partLife {
	if !p.summed {
		p.summed = true
		p.ms, p.starts = p.arcTime(l.x, forever)
		last := p.fits[len(p.fits)-1]
		p.failed = last.out != nil && slices.Contains(failures, last.out.body.Text("why"))
	}
	return p
}

// byLastFit orders lives by when the part was last fitted, the last first.
func byLastFit(a, b *partLife) int {
	return cmp.Or(cmp.Compare(b.fits[len(b.fits)-1].from, a.fits[len(a.fits)-1].from), cmp.Compare(a.id, b.id))
}

// parted ends the time of a part in a seat where the next one came into it: nobody told
// that it was pulled.
func (l *lives) parted() {
	for at, list := range l.seats {
		order.Sort(list, func(a, b seated) int { return byPlace(a.by, b.by) })
		for i := range list {
			s := &list[i]
			if i+1 == len(list) || at.slot == "o-ring" || s.of == list[i+1].of || s.to <= list[i+1].from {
				continue
			}
			s.to, s.out = list[i+1].from, nil
			s.of.fits = slices.Clone(s.of.fits) // they are the part's own
			i := slices.IndexFunc(s.of.fits, func(f fit) bool { return f.by == s.by })
			s.of.fits[i] = s.fit
		}
	}
}

// half returns half of the median arc time of a slot's newest parts that failed.
func (l *lives) half(slot string) int64 {
	var failed []int64
	for _, p := range l.all {
		if p.slot() == slot && l.sum(p).failed {
			failed = append(failed, p.ms)
		}
		if len(failed) == mostFailed {
			break
		}
	}
	if len(failed) < leastFailed {
		return 0
	}
	return spreadOf(failed).Median / 2
}

// arcTime is that of the part before the time until.
func (p *partLife) arcTime(x *index, until int64) (ms, starts int64) {
	for _, f := range p.fits {
		m, s := x.rig(f.rig).timeline.between(f.from, min(f.to, until))
		ms, starts = ms+m, starts+s
	}
	return ms, starts
}

// slot is where the part was last.
func (p *partLife) slot() string { return p.fits[len(p.fits)-1].slot }

// use returns the life of a part without what it worked on.
func (l *lives) use(p *partLife) Life {
	l.sum(p)
	last := p.fits[len(p.fits)-1]
	v := Life{Part: p.id, Same: l.x.aliases(p.id), Slot: last.slot, Line: last.line, Rigs: []string{last.rig}, From: p.fits[0].from, Ms: p.ms, Starts: p.starts, Failed: p.failed, Readings: []LifeReading{}}
	v.To, v.Ended = last.ended()
	return v
}

// view returns the life of a part.
func (l *lives) view(p *partLife) Life {
	v := l.use(p)
	v.Rigs = []string{}
	metals, surfaces, positions, starts, rigs := shares{}, shares{}, shares{}, shares{}, shares{}
	for _, f := range p.fits {
		if !slices.Contains(v.Rigs, f.rig) {
			v.Rigs = append(v.Rigs, f.rig)
		}
		of := l.look.rig(f.rig)
		for k := startingAt(of.union, f.from); k < len(of.union) && of.union[k].start < f.to; k++ {
			s, cut := of.union[k], l.look.cut(of, k)
			ms := s.stop - s.start
			rigs.add(f.rig, ms)
			metals.add(cut.metal, ms)
			surfaces.add(cut.surface, ms)
			positions.add(cut.position, ms)
			starts.add(cut.struck, s.starts)
			if of.isOverdue(k) {
				v.OverdueMs += ms
			}
		}
		l.addPartners(&v, f)
	}
	v.Metals, v.Surfaces, v.Positions, v.StartsBy = metals.list(), surfaces.list(), positions.list(), starts.list()
	v.Drains = slices.ContainsFunc(p.fits, func(f fit) bool { return len(l.look.rig(f.rig).drains) > 0 })
	v.Mostly = v.mostly(rigs.list())
	for _, e := range order.Sorted(visible(p.readings), byPlace) {
		r := LifeReading{ID: e.id, At: e.when(), Body: e.raw()}
		r.Ms, r.Starts = p.arcTime(l.x, e.when())
		v.Readings = append(v.Readings, r)
	}
	return v
}

// addPartners adds the arc time beside partners in a stretch of a part's life, and how
// much of it beside one past half its life.
func (l *lives) addPartners(v *Life, f fit) {
	other := partners[f.slot]
	half := l.halves[other]
	list := l.seats[seat{rig: f.rig, slot: other}]
	i := sort.Search(len(list), func(i int) bool { return list[i].to > f.from }) // one comes after the other
	for ; i < len(list) && list[i].from < f.to; i++ {
		from, to := max(f.from, list[i].from), min(f.to, list[i].to)
		if from >= to {
			continue
		}
		t := l.x.rig(f.rig).timeline
		ms, _ := t.between(from, to)
		v.Partner, v.PartnerMs = list[i].of.id, v.PartnerMs+ms
		if half > 0 {
			young, _ := list[i].of.arcTime(l.x, from)
			v.WornMs += max(0, young+ms-max(young, half))
		}
	}
	v.Half = half
}

// shares are amounts by word.
type shares map[string]int64

func (s shares) add(word string, n int64) {
	if word != "" && n > 0 {
		s[word] += n
	}
}

// list returns them, the largest first.
func (s shares) list() []Share {
	list := []Share{}
	for _, word := range order.Keys(s) {
		list = append(list, Share{Word: word, N: s[word]})
	}
	order.Stable(list, func(a, b Share) int { return cmp.Compare(b.N, a.N) })
	return list
}
