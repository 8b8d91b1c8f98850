package job

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Done is what really happened with pieces of a row.
type Done struct {
	Row     int // of the cut list, from 0
	Pieces  int
	Arc     unit.Duration // heard; 0 if not
	Elapsed unit.Duration // that they took; 0 if not known
	Waited  unit.Duration // of that, for air or cooling
}

// Learnt is what the pieces done tell of those that are left: factors with the standard
// deviation of their logarithm.
//
// What is not known before is a factor with ln f normal about 0. Each row done adds what
// its pieces tell, ln(planned/heard), with the scatter of one hand's pieces; the two are
// put together by their precisions, as for any normal prior and normal readings. Speed
// has the plan's own doubt before; the hand's times have handOff. The scatters are a
// judgement: no figure was found.
type Learnt struct {
	Speed, Hand Factor
}

// Factor is a lognormal factor.
type Factor struct {
	Mean float64 // of its logarithm
	Off  float64 // standard deviation of its logarithm; 0 for what is taken beforehand
}

// What single pieces scatter by, and what does not come out with more of them.
const (
	pieceScatter = 0.2
	handScatter  = 0.5
	rowScatter   = 0.05
)

// reading is one thing told of a factor.
type reading struct{ log, off float64 }

// learn puts readings together with what was taken before.
func learn(before float64, readings []reading) Factor {
	if len(readings) == 0 {
		return Factor{}
	}
	precision, sum := 1/(before*before), 0.0
	for _, r := range readings {
		w := 1 / (r.off * r.off)
		precision, sum = precision+w, sum+w*r.log
	}
	return Factor{Mean: sum / precision, Off: 1 / math.Sqrt(precision)}
}

// learnt compares what happened with what was planned for the same pieces.
func (in Input) learnt(stints []stint) Learnt {
	var speeds, hands []reading
	before := 0.0
	for _, d := range in.Done {
		for _, s := range stints {
			if s.index != d.Row || d.Pieces == 0 {
				continue
			}
			n := unit.Duration(d.Pieces)
			arc := s.run(middle()) * unit.Duration(s.cut.Runs) * n
			off := func(scatter float64) float64 { return math.Hypot(scatter/math.Sqrt(float64(n)), rowScatter) }
			if d.Arc > 0 {
				speeds, before = append(speeds, reading{math.Log(float64(arc / d.Arc)), off(pieceScatter)}), max(before, s.off)
				arc = d.Arc
			}
			planned := n * (in.Times.Mark + in.Times.Move + in.Times.Reset*unit.Duration(s.cut.Runs-1))
			if took := d.Elapsed - arc - d.Waited; d.Elapsed > 0 && took > 0 && planned > 0 {
				hands = append(hands, reading{math.Log(float64(took / planned)), off(handScatter)})
			}
		}
	}
	return Learnt{Speed: learn(before, speeds), Hand: learn(assumedOff, hands)}
}

// left is the job without what is done.
func (in Input) left() Input {
	if len(in.Done) == 0 {
		return in
	}
	in.Times.Gate, in.Times.Inspect = 0, 0
	in.Cuts = append([]Cut(nil), in.Cuts...)
	for _, d := range in.Done {
		in.Cuts[d.Row].Count = max(0, in.Cuts[d.Row].Count-d.Pieces)
		if in.Window > 0 {
			in.Window = max(in.Window-d.Elapsed, unit.Second)
		}
	}
	return in
}

func doneField() form.Field {
	return form.Field{Key: "done", Label: "Done so far", Help: "Then the rest is planned anew", Optional: true, Takes: form.List(form.EachRow{Name: "Done", Shown: "{pieces} of cut {cut} · {arc} of arc · {elapsed}", Bare: []string{"cut", "pieces"}},
		form.Field{Key: "cut", Label: "Which cut", Help: "Its number in the list", Takes: form.Count(), Limits: form.WithinCount(1, mostCuts)},
		form.Field{Key: "pieces", Label: "Pieces done", Takes: form.Count(), Default: "1", Basis: source.Neutral, Limits: form.WithinCount(0, mostPieces)},
		form.Field{Key: "arc", Label: "Arc heard", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
		form.Field{Key: "elapsed", Label: "They took", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
		form.Field{Key: "waited", Label: "Of that for air or cooling", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
	)}
}

func readDone(r *form.Reader, cuts int) (list []Done) {
	for _, row := range r.Rows("done") {
		d := Done{Row: form.GetCount(row, "cut") - 1, Pieces: form.GetCount(row, "pieces"), Arc: form.Get[unit.Duration](row, "arc"), Elapsed: form.Get[unit.Duration](row, "elapsed"), Waited: form.Get[unit.Duration](row, "waited")}
		if row.Err() == nil && d.Row >= cuts {
			row.Fail("cut", problem.Newf(problem.Range, "cut", "there is no cut %d", d.Row+1).WithHint("The list has %s.", unit.Count(cuts, "cut", "cuts")))
			continue
		}
		list = append(list, d)
	}
	return list
}
