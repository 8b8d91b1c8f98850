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
	Waited  unit.Duration // of that, for air or cooling; less than 0 if not known
}

// longer is how long they took: no less than the arc and the waits that were heard.
func (d Done) longer() unit.Duration { return max(d.Elapsed, d.Arc+max(0, d.Waited)) }

// odd reports whether arc and waits do not fit into the time that they took.
func (d Done) odd() bool { return d.Elapsed > 0 && d.Elapsed < d.longer()*(1-1e-9)-unit.Second }

// Learnt is what the pieces done tell of those that are left: factors with the standard
// deviation of their logarithm.
//
//	speed  ln f is normal about 0 with the plan's own doubt; each row done adds
//	       ln(planned/heard), with pieceScatter/√n and rowScatter, by precisions. What is
//	       heard counts as no stranger than twice that doubt: a cut given up tells of no
//	       speed
//	hands  the mean of the times taken and of the plan's, which counts as handPieces of
//	       them, or as the crew's own: so one piece that took no time moves it by a fifth
//	air    the factor of draw over delivery with which the play of those pieces waits as
//	       long, found by halving, with airOff before and waitScatter after
//
// The scatters and handPieces are a judgement: no figure was found.
type Learnt struct {
	Speed, Hand, Air Factor
}

// Factor is a lognormal factor.
type Factor struct {
	Mean float64 // of its logarithm
	Off  float64 // standard deviation of its logarithm; 0 for what is taken beforehand
}

// What single pieces scatter by, and what does not come out with more of them.
const (
	pieceScatter = 0.3
	rowScatter   = 0.05
	handPieces   = 4
	waitScatter  = 0.1
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
	var speeds []reading
	before := 0.0
	var took, planned unit.Duration // by the hand
	var timed float64               // pieces
	for _, d := range in.Done {
		for _, s := range stints {
			if s.index != d.Row || d.Pieces == 0 {
				continue
			}
			n := float64(d.Pieces)
			arc := s.run(middle()) * unit.Duration(s.cut.Runs*d.Pieces)
			if d.Arc > 0 {
				log := max(-2*s.off, min(2*s.off, math.Log(float64(arc/d.Arc))))
				speeds, before = append(speeds, reading{log, math.Hypot(pieceScatter/math.Sqrt(n), rowScatter)}), max(before, s.off)
				arc = d.Arc
			}
			if d.Elapsed > 0 && !d.odd() {
				took += max(0, d.Elapsed-arc-max(0, d.Waited))
				planned += unit.Duration(n) * in.handOf(s)
				timed += n
			}
		}
	}
	l := Learnt{Speed: learn(before, speeds)}
	if timed > 0 && planned > 0 {
		counts := float64(handPieces + max(in.Own.Mark, in.Own.Move, in.Own.Row))
		l.Hand = Factor{Mean: math.Log((counts + timed*float64(took/planned)) / (counts + timed)), Off: math.Hypot(dayOff, assumedOff/math.Sqrt(1+timed/counts))}
	}
	in.Learnt = l
	if log, ok := in.waited(stints); ok {
		l.Air = learn(airOff, []reading{{log, waitScatter}})
	}
	return l
}

// handOf is the hand's time at each piece of a row.
func (in Input) handOf(s stint) unit.Duration {
	t := in.Times.Move + in.Times.Reset*unit.Duration(s.cut.Runs-1)
	if in.Marking == MarkEach || in.Marking == MarkWaits {
		t += in.Times.Mark
	}
	return t
}

// waited finds by what factor the torch takes more of the compressor than planned, from
// how long the pieces done had to wait: false where they would hardly wait at any.
func (in Input) waited(stints []stint) (log float64, ok bool) {
	var total unit.Duration
	pieces := map[int]int{}
	for _, d := range in.Done {
		if d.Waited < 0 {
			return 0, false
		}
		total += d.Waited
		pieces[d.Row] += d.Pieces
	}
	var done []stint
	for _, s := range stints {
		if s.cut.Count = min(s.cut.Count, pieces[s.index]); s.cut.Count > 0 && s.aired {
			done = append(done, s)
		}
	}
	if len(done) == 0 {
		return 0, false
	}
	waits := func(log float64) unit.Duration {
		in.Learnt.Air = Factor{Mean: log, Off: airOff}
		o := in.play(done, middle()).do()
		if o.Stuck {
			return forever
		}
		return o.Totals[WaitAir] + o.Totals[Cooling]
	}
	low, high := -0.5, 0.5
	if waits(high) < worthwhile || waits(low) > total || waits(high) < total {
		return 0, false
	}
	for range 12 {
		if mid := (low + high) / 2; waits(mid) < total {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, true
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
		if in.Window != 0 {
			if in.Window -= d.longer(); in.Window == 0 {
				in.Window = -1e-9 // 0 stands for none
			}
		}
	}
	return in
}

func doneField() form.Field {
	return form.Field{Key: "done", Label: "Done so far", Help: "Then the rest is planned anew", Optional: true, Takes: form.List(form.EachRow{Name: "Done", Shown: "{pieces} of cut {cut} · {arc} of arc · {elapsed}", Bare: []string{"cut", "pieces"}},
		form.Field{Key: "cut", Label: "Which cut", Help: "Its number in the list", Takes: form.Count(), Limits: form.WithinCount(1, MostCuts)},
		form.Field{Key: "pieces", Label: "Pieces done", Takes: form.Count(), Default: "1", Basis: source.Neutral, Limits: form.WithinCount(0, mostPieces)},
		form.Field{Key: "arc", Label: "Arc heard", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
		form.Field{Key: "elapsed", Label: "They took", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
		form.Field{Key: "waited", Label: "Of that for air or cooling", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0, 100*unit.Hour)},
	)}
}

func readDone(r *form.Reader, cuts int) (list []Done) {
	for _, row := range r.Rows("done") {
		d := Done{Row: form.GetCount(row, "cut") - 1, Pieces: form.GetCount(row, "pieces"), Arc: form.Get[unit.Duration](row, "arc"), Elapsed: form.Get[unit.Duration](row, "elapsed"), Waited: -1}
		if row.Given("waited") {
			d.Waited = form.Get[unit.Duration](row, "waited")
		}
		if row.Err() == nil && d.Row >= cuts {
			row.Fail("cut", problem.Newf(problem.Range, "cut", "there is no cut %d", d.Row+1).WithHint("The list has %s.", unit.Count(cuts, "cut", "cuts")))
			continue
		}
		list = append(list, d)
	}
	return list
}
