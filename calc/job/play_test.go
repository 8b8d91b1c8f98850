package job

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/air"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// anr is the free air of compressor plates.
var anr, _ = air.FindReference("anr")

// smallAir is a compressor of 120 l/min with 50 l, and a torch that takes 170.
func smallAir() Air {
	at := unit.Celsius(20)
	return Air{
		Known: true, Tank: air.Receiver{Volume: 50 * unit.Litre, At: at},
		Compressor: air.Compressor{Delivery: anr.Mass(120 * unit.LitrePerMinute), Duty: 1, CutIn: 6.5 * unit.Bar, CutOut: 8 * unit.Bar},
		Draw:       anr.Mass(170 * unit.LitrePerMinute), Least: 5.5 * unit.Bar, Start: 8 * unit.Bar,
	}
}

// one is a play of a row with so many pieces of a run each.
func one(a Air, duty unit.Ratio, pieces int, run unit.Duration) play {
	return play{rows: []row{{pieces: pieces, runs: 1, run: run, heat: taken(duty), draw: a.Draw, least: a.Least}}, air: a, least: duty, after: 20 * unit.Second, marking: MarkEach}
}

func nearly(t *testing.T, what string, got, want, within unit.Duration) {
	t.Helper()
	if math.Abs(float64(got-want)) > float64(within) {
		t.Errorf("%s = %.6f s, want %.6f", what, float64(got), float64(want))
	}
}

// TestWorkedByHand plays jobs that were worked by hand.
func TestWorkedByHand(t *testing.T) {
	// 50 l of 20 °C: a bar of pressure is 50 l of free air. From 8 to 6.5 bar at 170
	// l/min 75 l last 26.4706 s, then 50 l at 50 l/min 60 s: 86.4706 s of open valve, of
	// which 66.4706 s are arc. Full again: 125 l at 120 l/min are 62.5 s.
	p := one(smallAir(), 1, 1, 100*unit.Second)
	o := p.do()
	// 100 s are 66.4706 s, then 33.5294 s, for which, with the 20 s of after-flow and
	// the compressor running, 50 l/min × 53.5294 s = 44.6078 l must be there: 22.3039 s.
	nearly(t, "the wait", o.Wait[0], 20+22.3039, 1e-3)
	nearly(t, "the job", o.Work, 100+20+22.3039, 1e-3)
	if o.Starts[0] != 2 || o.Split[0] != 1 {
		t.Errorf("%d starts, %d of them since the tank gave out, want 2 and 1", o.Starts[0], o.Split[0])
	}
	// Of 80 s of open valve, 60 s are under cut-in; 20 s at 170 l/min before are 56.667 l, 1.1333 bar above it.
	p = one(smallAir(), 1, 2, 60*unit.Second)
	o = p.do()
	if o.Starts[0] != 2 || o.Split[0] != 0 {
		t.Errorf("%d starts, %d of them split off, want 2 and 0", o.Starts[0], o.Split[0])
	}
	left := 8 - (1.5 + (60+20-26.4705882)*50/60/50) // bar, after the first with its after-flow
	nearly(t, "till the second is served", o.Wait[0], 20+unit.Duration((6.5+1.13333333-left)*50/120*60), 1e-3)
	// With an hour of arc every further run waits for a full tank.
	p = one(smallAir(), 1, 1, 10*66.4705882353*unit.Second)
	nearly(t, "nine waits for a full tank", p.do().Wait[0], 9*(20+62.5), 1e-3)

	// 40 % of ten minutes: 4 min of arc, 6 of rest, 4, 3, 2.
	o = one(Air{}, 0.4, 1, 10*unit.Minute).do()
	nearly(t, "10 min of arc at 40 %", o.Work, 19*unit.Minute, 1e-6) // the last 2 min want half of the coolness: 3 min
	nearly(t, "its rests", o.Totals[Cooling], 9*unit.Minute, 1e-6)

	// Three pieces with all times of the hand, no air, no duty: 2+5 at the beginning,
	// 3 × (2 mark + 1 arc) and 2 × 1 between them, 60 of watch.
	p = one(Air{}, 1, 3, unit.Minute)
	p.times = Times{Gate: 2 * unit.Minute, Inspect: 5 * unit.Minute, Mark: 2 * unit.Minute, Move: unit.Minute, Watch: unit.Hour}
	o = p.do()
	nearly(t, "three pieces", o.Work, 18*unit.Minute, 1e-9)
	nearly(t, "with the watch", o.Elapsed, 78*unit.Minute, 1e-9)

	// The trap: 8 min of arc a piece, every 20: drained before the third and the fifth.
	p = one(Air{}, 1, 5, 8*unit.Minute)
	p.every, p.times.Drain = 20*unit.Minute, 3*unit.Minute
	nearly(t, "drains", p.do().Totals[Drain], 6*unit.Minute, 1e-9)

	// The tip lasts 10 min: fitted after 3 of 4 min, twice; the electrode, past half of
	// its 20 at the second, goes with it.
	p = one(Air{}, 1, 5, 4*unit.Minute)
	p.parts = [2]part{{known: true, life: func(int) float64 { return 10 }}, {known: true, life: func(int) float64 { return 20 }}}
	p.times.Change = 12 * unit.Minute
	o = p.do()
	if o.Changes != [2]int{2, 1} || o.Totals[Parts] != 24*unit.Minute {
		t.Errorf("changes %v in %v, want 2 tips and 1 electrode in 24 min", o.Changes, o.Totals[Parts])
	}
}

// TestMarking: the three ways to mark out, and a helper, by hand.
func TestMarking(t *testing.T) {
	p := one(Air{}, 0.5, 4, 5*unit.Minute) // 5 min of arc, 5 of rest
	p.times.Mark = 3 * unit.Minute
	for marking, want := range map[Order]unit.Duration{
		MarkEach:  4*3 + 4*5 + 3*2, // 3 of each rest are marking
		MarkFirst: 4*3 + 4*5 + 3*5,
		// 5 min of rest: 3 of the second's marking, 2 of waiting with 2 of the third's; then
		// 1 of the third's, 4 of waiting with all of the fourth's; then 5 of waiting.
		MarkWaits:  3 + 4*5 + 5 + 5 + 5,
		MarkHelper: 3 + 4*5 + 3*5,
	} {
		p.marking = marking
		want *= unit.Minute
		nearly(t, string(marking), p.do().Work, want, 1e-6)
	}
}

// drawn is a play at random; air and duty are known in most.
func drawnPlay(r *rand.Rand) play {
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	a := Air{}
	if r.IntN(8) > 0 {
		in := between(4.5, 8)
		a = Air{Known: true, Tank: air.Receiver{Volume: unit.Volume(between(5, 200)) * unit.Litre, At: unit.Celsius(between(-10, 40))},
			Compressor: air.Compressor{Delivery: anr.Mass(unit.Flow(between(30, 300)) * unit.LitrePerMinute), Duty: 1,
				CutIn: unit.Pressure(in) * unit.Bar, CutOut: unit.Pressure(in+between(0.2, 4)) * unit.Bar}}
		if r.IntN(2) == 0 {
			a.Compressor.Duty = unit.Ratio(between(0.3, 1))
		}
		a.Start = unit.Pressure(between(0, 1)) * a.Compressor.CutOut
		a.Least = unit.Pressure(between(3, in+0.1)) * unit.Bar
	}
	p := play{air: a, least: 1, after: unit.Duration(between(0, 30)), marking: []Order{MarkEach, MarkWaits, MarkFirst, MarkHelper}[r.IntN(4)],
		times: Times{Mark: unit.Duration(between(0, 120)), Row: unit.Duration(between(0, 120)), Move: unit.Duration(between(0, 60)), Reset: unit.Duration(between(0, 20)), Drain: 60},
		every: 20 * unit.Minute}
	for range 1 + r.IntN(6) {
		duty := unit.Ratio(1)
		if r.IntN(3) > 0 {
			duty = unit.Ratio(between(0.2, 1))
		}
		p.least = min(p.least, duty)
		p.rows = append(p.rows, row{pieces: 1 + r.IntN(4), runs: 1 + r.IntN(3), run: unit.Duration(math.Exp(between(0, 6.5))), heat: taken(duty),
			draw: anr.Mass(unit.Flow(between(60, 300)) * unit.LitrePerMinute), least: a.Least})
	}
	return p
}

// TestConservation: what the compressor brought is what was drawn and what is left in
// the tank more than at the beginning, and the hands' time is all of the job's.
func TestConservation(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	played := 0
	for i := range 5000 {
		p := drawnPlay(r)
		o := p.do()
		if o.Stuck {
			continue
		}
		played++
		if p.air.Known {
			begin := p.air.Tank.Mass(p.air.Start)
			if off := math.Abs(float64(begin + o.Pumped - o.Drawn - o.Held)); off > 1e-9*float64(begin+o.Pumped) {
				t.Fatalf("play %d: %g kg of air are lost of %g", i, off, float64(begin+o.Pumped))
			}
		}
		var all, arc unit.Duration
		for _, d := range o.Totals {
			all += d
		}
		for _, row := range p.rows {
			arc += unit.Duration(row.pieces*row.runs) * row.run
		}
		if math.Abs(float64(all-o.Elapsed)) > 1e-6*float64(o.Elapsed) || math.Abs(float64(arc-o.Totals[Cutting])) > 1e-6*float64(arc) {
			t.Fatalf("play %d: parts %v of %v, arc %v of %v", i, all, o.Elapsed, o.Totals[Cutting], arc)
		}
	}
	if played < 4000 {
		t.Errorf("only %d of 5000 plays came to an end", played)
	}
}

// TestLimits: with an endless tank and 100 % of duty a job takes its arc and its hands.
func TestLimits(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 2))
	for i := range 500 {
		p := drawnPlay(r)
		if !p.air.Known {
			continue
		}
		p.least, p.marking, p.times.Drain = 1, MarkEach, 0
		p.air.Tank.Volume, p.air.Start = 1e9, p.air.Compressor.CutOut
		var want unit.Duration
		for k := range p.rows {
			p.rows[k].heat = 0
			n := unit.Duration(p.rows[k].pieces)
			runs := unit.Duration(p.rows[k].runs)
			want += n*(p.times.Mark+runs*p.rows[k].run+(runs-1)*p.times.Reset) + (n-1)*p.times.Move
			if k > 0 {
				want += p.times.Row
			}
		}
		if o := p.do(); !o.Stuck && math.Abs(float64(o.Work-want)) > 1e-6*float64(want) {
			t.Errorf("play %d: %v, want %v of arc and hands", i, o.Work, want)
		}
	}
}

// TestAgreesWithTankAndDuty: a single run that goes on for ever keeps the rhythm of
// air-tank, or that of duty.
func TestAgreesWithTankAndDuty(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 3))
	compared := 0
	for i := range 2000 {
		p := drawnPlay(r)
		if !p.air.Known {
			continue
		}
		a := p.air
		a.Compressor.Duty, a.Start = 1, a.Compressor.CutOut
		draw := p.rows[0].draw
		rhythm, forever := a.Compressor.Rhythm(a.Tank, draw, a.Least)
		burn, wait := rhythm.Arc(p.after)
		if forever || burn < unit.Second || a.Tank.Time(a.Compressor.CutOut-a.Compressor.CutIn, a.Compressor.Delivery) < shortestPump || a.Least >= a.Compressor.CutOut {
			continue
		}
		compared++
		a.Draw = draw
		q := play{air: a, least: 1, after: p.after, marking: MarkEach, rows: []row{{pieces: 1, runs: 1, run: 5 * burn, draw: draw, least: a.Least}}}
		if o := q.do(); math.Abs(float64(o.Wait[0]-4*wait)) > 1e-6*float64(wait) || o.Starts[0] != 5 {
			t.Errorf("play %d: %v of waiting in %d runs, want 4 × %v", i, o.Wait[0], o.Starts[0], wait)
		}
	}
	plate, err := power.Plate{{Current: 45, Duty: 0.35}, {Current: 30, Duty: 0.6}}.Check()
	if err != nil {
		t.Fatal(err)
	}
	for i := unit.Current(30); i <= 45; i++ {
		res, err := power.ComputeDuty(power.DutyInput{Plate: plate, Want: i, Air: unit.Celsius(44), Limit: power.UsualGuard})
		if err != nil {
			t.Fatal(err)
		}
		compared++
		o := one(Air{}, res.Duty, 1, 5*res.On).do()
		nearly(t, "rests", o.Totals[Cooling], 4*res.Rest, 1e-6)
	}
	if compared < 300 {
		t.Errorf("only %d rhythms were compared", compared)
	}
}
