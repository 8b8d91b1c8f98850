package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Remedy is one change that makes the job shorter, found by playing it again.
type Remedy struct {
	Do    string // with a place for Volume or Flow
	Saves unit.Duration
	Field string // to enter it
	Value string
	Order []int // of the cut list, from 0, where that is the change

	Volume unit.Volume
	Flow   unit.Flow
}

// A change is proposed if it saves so long, and that part of the work: judgement.
const (
	worthwhile      = 2 * unit.Minute
	worthwhileShare = 0.05
)

// worth reports whether a change from one length of the work to another is worth while.
func worth(was, work unit.Duration) bool {
	return was-work >= max(worthwhile, worthwhileShare*was)
}

// remedies are what it takes to cut at all, then the changes that are worth while: those
// that cost nothing first, what has to be bought last.
func (in Input) remedies(p play, was Outcome, stints []stint) []Remedy {
	var list []Remedy
	add := func(m Remedy, work unit.Duration) {
		if m.Saves = was.Work - work; worth(was.Work, work) {
			list = append(list, m)
		}
	}
	if m, ok := in.served(stints); ok {
		list = append(list, m)
	}
	if waits := was.Totals[WaitAir] + was.Totals[Cooling]; waits >= worthwhile {
		if order, work := p.better(was.Work); order != nil {
			m := Remedy{Field: "cuts", Order: make([]int, len(order))}
			for i, k := range order {
				m.Order[i] = stints[k].index
			}
			add(m, work)
		}
		if p.marking == MarkEach || p.marking == MarkFirst {
			q := p
			q.marking = MarkWaits
			add(Remedy{Do: "Mark out the next pieces while the tank fills and the machine cools", Field: "marking", Value: string(MarkWaits)}, q.do().Work)
		}
	}
	if was.Totals[Cooling] >= worthwhile {
		if current, work, ok := in.lower(stints); ok {
			add(Remedy{Do: fmt.Sprintf("Set at most %s: slower, but the machine rests less", unit.In(current, "A")), Field: "max_current" + stints[0].cut.Place.Plan.Rig.Inlet.Key, Value: unit.In(current, "A")}, work)
		}
	}
	if p.marking != MarkHelper {
		q := p
		q.marking = MarkHelper
		add(Remedy{Do: "Let a helper mark out", Field: "marking", Value: string(MarkHelper)}, q.do().Work)
	}
	if was.Changes != [2]int{} {
		trial := in
		for i := range trial.Parts {
			trial.Parts[i].Fitted = trial.Parts[i].Fresh
		}
		add(Remedy{Do: "Begin with a new tip and electrode"}, trial.play(stints, middle()).do().Work)
	}
	if was.Totals[WaitAir] >= worthwhile {
		if litres, ok := least(func(l float64) bool { return p.withTank(l).do().Totals[WaitAir] < unit.Second }, unit.Value(p.air.Tank.Volume, "l"), 1000); ok {
			litres = upwards(litres)
			add(Remedy{Do: "Use a tank of %s in all, full when you begin: nothing waits for air then", Volume: unit.Volume(litres) * unit.Litre, Field: "tank", Value: fmt.Sprintf("%.0fl", litres)}, p.withTank(litres).do().Work)
		}
		free := stints[len(stints)-1].tank.Free
		if more, ok := least(func(f float64) bool { return p.withFree(f, free).do().Totals[WaitAir] < unit.Second }, unit.Value(free, "l/min"), 20*unit.Value(free, "l/min")); ok {
			more = upwards(more)
			add(compressor(more), p.withFree(more, free).do().Work)
		}
	}
	return list
}

// served is the least compressor that serves without a wait what the one on hand does not
// serve at all; false if all is served, or if the torch asks for more pressure than the
// tank holds.
func (in Input) served(stints []stint) (Remedy, bool) {
	all, starved := slices.Clone(stints), false
	for i := range all {
		if s := &all[i]; s.starved {
			s.aired, starved = true, true
		}
	}
	if !starved {
		return Remedy{}, false
	}
	p, was := in.play(all, middle()), all[len(all)-1].tank.Free
	most := max(anyTorch, 20*unit.Value(was, "l/min"))
	free, ok := least(func(f float64) bool { o := p.withFree(f, was).do(); return !o.Stuck && o.Totals[WaitAir] < unit.Second }, unit.Value(was, "l/min"), most)
	if !ok {
		return Remedy{}, false
	}
	return compressor(upwards(free)), true
}

// anyTorch is more free air than a hand torch takes, l/min: judgement.
const anyTorch = 2000

// compressor is the remedy of one with so many l/min by its plate.
func compressor(free float64) Remedy {
	return Remedy{Do: "Use a compressor of %s free air by its plate: nothing waits for air then", Flow: unit.Flow(free) * unit.LitrePerMinute, Field: "free_air", Value: fmt.Sprintf("%.0fl/min", free)}
}

// upwards rounds a size up to two figures, as it is told and entered.
func upwards(v float64) float64 {
	step := math.Pow10(int(math.Floor(math.Log10(v))) - 1)
	return math.Ceil(v/step-1e-9) * step
}

func (p play) withTank(litres float64) play {
	p.air.Tank.Volume = unit.Volume(litres) * unit.Litre
	return p
}

// withFree is the play with a compressor of so many l/min by its plate instead of was.
func (p play) withFree(litres float64, was unit.Flow) play {
	p.air.Compressor.Delivery *= unit.MassFlow(litres / unit.Value(was, "l/min"))
	return p
}

// least is the smallest whole value above from, up to most, with which holds does, and
// false if not even most does. A hold that comes and goes in between is found at one of
// its beginnings.
func least(holds func(float64) bool, from, most float64) (float64, bool) {
	if !holds(most) {
		return 0, false
	}
	low, high := math.Floor(from), math.Ceil(most)
	for high-low > 1 {
		if mid := math.Round((low + high) / 2); holds(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, true
}

// lower finds the current below the highest one at which the job is soonest over.
func (in Input) lower(stints []stint) (best unit.Current, work unit.Duration, ok bool) {
	at := stints[0].cut.Place
	most := unit.Current(0)
	for _, s := range stints {
		most = max(most, s.plan.Arc.Current)
	}
	if at.Plate == nil {
		return 0, 0, false
	}
	all := at.Plate.Largest(1, power.HeatShare(at.Temperature, power.UsualGuard))
	work = forever
	for _, share := range []unit.Current{0, 0.5} { // that needs no rest, and half of the way
		current := unit.Current(math.Floor(float64(all + share*(most-all))))
		if current >= most || current < at.Plan.Rig.Min {
			continue
		}
		trial := in
		trial.Cuts = append([]Cut(nil), in.Cuts...)
		for i := range trial.Cuts {
			trial.Cuts[i].Place.Plan.Rig.Max = current
		}
		lesser, _ := trial.plans()
		lesser = trial.remaining(lesser)
		if len(lesser) < len(stints) || worse(lesser, stints) {
			continue
		}
		if o := trial.play(lesser, middle()).do(); !o.Stuck && o.Work < work {
			best, work, ok = current, o.Work, true
		}
	}
	return best, work, ok
}

// worse reports whether a cut is no longer as good as it was.
func worse(now, was []stint) bool {
	for i, s := range now {
		if s.plan.Grade != was[i].plan.Grade && s.plan.Grade != cutting.CutsClean {
			return true
		}
	}
	return false
}

// say is a remedy as a sentence.
func (m Remedy) say(t tell) string {
	text := m.Do
	switch {
	case m.Order != nil:
		var names []string
		for _, i := range m.Order {
			names = append(names, t.name(i))
		}
		text = "Cut in this order: " + strings.Join(names, ", ")
		if len(names) > 12 {
			text = "Cut in another order, " + names[0] + " first"
		}
	case m.Volume > 0:
		text = fmt.Sprintf(text, m.Volume.Quantity().Up(float64(m.Volume), t.a.Unit("l", "gal"), unit.Doubt{}))
	case m.Flow > 0:
		text = fmt.Sprintf(text, m.Flow.Quantity().Up(float64(m.Flow), t.a.Unit("l/min", "cfm"), unit.Doubt{}))
	}
	if m.Saves == 0 { // what was left out of the sum before
		return text + "."
	}
	return text + ". " + capital(sayTime(m.Saves)) + " less."
}
