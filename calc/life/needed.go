package life

import (
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Wearing is a tip or an electrode before a job.
type Wearing struct {
	Model    *Model
	Fitted   *Fitted    // of Model, with that age; nil where nobody has made it yet
	Age, Job Use        // of the one in the torch; what the job asks of it
	Stock    int        // spares on hand, the one in the torch aside
	Price    unit.Money // of one; 0 if not known
}

// Other is a part that fails by accident: diffuser or cup.
type Other struct {
	Counts Counts
	Stock  int
	Price  unit.Money
}

// NeedInput is a job and the parts that it is done with.
type NeedInput struct {
	Tip, Electrode Wearing
	Others         []Other
	Level          unit.Ratio // chance with which the spares shall be enough
	Pair           bool       // change both where the other is past half of its life
	Listed         bool       // one of several: fewRuns are enough
}

func (in NeedInput) runs() int {
	if in.Listed {
		return fewRuns
	}
	return allRuns
}

// Stock is how many spares of each kind.
type Stock struct {
	Tips, Electrodes int
	Others           []int
}

// Need is what a job needs of parts.
type Need struct {
	TipLasts, ElectrodeLasts Chance  // of the one in the torch, to the end of the job
	BothLast                 float64 // of both
	Tips, Electrodes         float64 // used up on average

	Carry     Stock     // the fewest, or cheapest, that are enough at that level
	Enough    float64   // how likely they are enough
	Buy       Stock     // the cheapest way from the stock on hand to that level
	WithStock float64   // how likely the stock on hand is enough
	Short     []float64 // how likely the stock on hand of tips, electrodes, others runs short, in this order
	Off       float64   // by which the simulation may be off
}

// mostOthers is how many spares of one of the other kinds are reckoned with.
const mostOthers = 20

// longest is how many average lives a job may ask for.
const longest = 20

// ComputeNeed tells how many spares a job needs, jointly for all kinds of parts:
//
//	P(tips ≤ s_t, electrodes ≤ s_e, others ≤ s_o …) ≥ level
//
// With the pair rule tip and electrode are played together, in some thousand runs that
// are always the same ones; what is not known of their lives is drawn once a run and
// holds for all its parts. Without it renewals are counted, up to a few lives. A
// stock is enough if its chance reaches the level by more than the simulation may be
// off (twice its standard error), and holds one of each kind at least. Of all such
// stocks the one is taken whose parts cost the least, where prices are known, or are
// fewest; then the one with the better chance.
func ComputeNeed(in NeedInput) (Need, error) {
	if !(in.Level > 0 && in.Level < 1) {
		return Need{}, problem.New(problem.Range, "level", "the level is not between 0 and 100 %", "Ask for 95 %: then 1 job in 20 may need more.")
	}
	n := Need{}
	var sides [2]side
	for s, w := range []Wearing{in.Tip, in.Electrode} {
		fitted := w.Fitted
		if fitted == nil {
			fitted = w.Model.Fitted(w.Age)
		}
		sides[s] = side{laws: fitted.Laws(), age: w.Age, job: w.Job}
		slot := []string{"tip", "electrode"}[s]
		if len(sides[s].laws) == 0 {
			return Need{}, problem.New(problem.Range, slot+"_lives", "these lives lie too far apart to make sense of", "Look for a wrong unit or a slip of the finger.")
		}
		if lives := sides[s].lives(); lives > longest {
			return Need{}, problem.Newf(problem.Range, "job_minutes", "that would use up some %s %ss", unit.Figures(lives, 2), slot).
				WithHint("This reckons up to %d. Plan the job in parts.", longest)
		}
		last := w.Model.Lasts(w.Age, w.Job)
		if s == 0 {
			n.TipLasts = last
		} else {
			n.ElectrodeLasts = last
		}
	}
	for _, o := range in.Others {
		if o.Counts.Spares(float64(in.Level)) > mostOthers {
			return Need{}, problem.Newf(problem.Range, "job_minutes", "of swirl rings or cups it would take more than %d", mostOthers).
				WithHint("Check their lives. Or plan the job in parts.")
		}
	}
	n.BothLast = n.TipLasts.P * n.ElectrodeLasts.P
	m := market{in: in}
	switch {
	case in.Pair:
		m.pair = simulate(sides, pastHalf, in.runs())
	case max(sides[0].lives(), sides[1].lives()) > few:
		m.pair = simulate(sides, never, in.runs())
	default:
		m.pair = countApart(sides)
	}
	n.Tips, n.Electrodes = m.pair.usedUp()
	var found bool
	if n.Carry, n.Enough, found = m.cheapest(Stock{Others: make([]int, len(in.Others))}); !found {
		return Need{}, problem.New(problem.Range, "job_minutes", "for a job this long nobody can tell how many parts it takes", "Plan it in parts, or ask for less than the level.")
	}
	have := Stock{Tips: in.Tip.Stock, Electrodes: in.Electrode.Stock}
	for _, o := range in.Others {
		have.Others = append(have.Others, o.Stock)
	}
	n.WithStock = m.chance(have)
	target, _, _ := m.cheapest(have)
	n.Buy = target.less(have)
	n.Off = m.off(n.Carry)
	n.Short = m.short(have)
	return n, nil
}

// lives is how many average lives the job asks for.
func (s side) lives() float64 {
	lives := 0.0
	for _, l := range s.laws {
		lives += l.Weight * s.job.Equivalent(l.PerStart) / l.Mean()
	}
	return lives
}

// less is what is missing in have.
func (s Stock) less(have Stock) Stock {
	left := Stock{Tips: s.Tips - have.Tips, Electrodes: s.Electrodes - have.Electrodes}
	for i, n := range s.Others {
		left.Others = append(left.Others, n-have.Others[i])
	}
	return left
}
