package job

import (
	"math"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// stint is a row that can be cut, with what the play of it needs.
type stint struct {
	cut   Cut
	index int // in the cut list
	plan  cutting.PlanResult
	off   float64 // of ln speed
	reach unit.Speed
	duty  unit.Ratio // that the machine allows; 1 where it is not known
	tank  air.TankInput
	air   Air  // of tank
	aired bool // whether the air is known, and serves an arc

	starved, hot bool // it serves none; the machine is too hot for any
}

// plans plans each cut, and says what is wrong with those that cannot be cut.
func (in Input) plans() (stints []stint, refused []error) {
	stints, refused = make([]stint, 0, len(in.Cuts)), make([]error, len(in.Cuts))
	for i := range in.Cuts {
		c := &in.Cuts[i]
		if refused[i] = c.Refused; c.Refused != nil {
			continue
		}
		plan, err := cutting.ComputePlan(c.Place.Plan)
		if err != nil {
			refused[i] = err
			continue
		}
		s := stint{cut: *c, index: i, plan: plan, off: math.Log(float64(plan.Off)), duty: 1}
		if plan.Capped { // what the arc could do beyond the hand is to spare
			s.reach = plan.Most / (1 + quantile95*unit.Speed(c.Place.Plan.Scatter))
		}
		s.duty = c.duty(plan.Arc.Current)
		if s.duty < leastDuty {
			s.duty, s.hot = 1, true
		}
		if s.tank, s.aired = c.Place.Serve(plan); s.aired {
			s.air = feed(s.tank)
			full := newTank(s.air)
			s.starved = s.tank.Needed >= s.tank.CutOut || full.longest() <= c.Place.After
			s.aired = !s.starved
		}
		stints = append(stints, s)
	}
	return stints, refused
}

// leastDuty is the duty cycle under which no arc is planned: three seconds in ten minutes.
const leastDuty = 0.005

// quantile95 is that of cutting's recommended speed.
const quantile95 = 1.645

// duty is the share of ten minutes that the arc may burn today; above the plate that of
// its largest current.
func (c *Cut) duty(i unit.Current) unit.Ratio {
	plate := c.Place.Plate
	if plate == nil {
		return 1
	}
	may, err := plate.Today(min(i, plate[len(plate)-1].Current), c.Place.Temperature, power.UsualGuard)
	if err != nil {
		return 1
	}
	return may
}

// run is the arc time of a run in a draw: the speed may be off by a factor, no hand means to
// follow faster than its limit, and none keeps to what it means exactly.
func (s *stint) run(d draw) unit.Duration { return s.runWith(&d, Factor{}) }

// runWith is run with what was learnt of the speed.
func (s *stint) runWith(d *draw, learnt Factor) unit.Duration {
	speed := s.plan.Speed
	if learnt.Off > 0 { // of the pace that was really kept
		f := d.scaled(ofSpeed, learnt, s.off)
		speed = min(speed*unit.Speed(f), max(s.plan.Speed, s.cut.Place.Plan.HandLimit))
	} else if f := d.scaled(ofSpeed, learnt, s.off); f != 1 {
		limit := speed
		if s.plan.Capped {
			speed = s.reach
		} else {
			limit = max(limit, s.cut.Place.Plan.HandLimit)
		}
		speed = min(speed*unit.Speed(f), limit)
	}
	return unit.Duration(float64(s.cut.Length)/(float64(speed)*d.pace)) / unit.Duration(max(1, s.cut.Runs))
}

// play is the job as it goes in a draw.
func (in Input) play(stints []stint, d draw) play {
	return in.playOn(make([]row, len(stints)), stints, &d)
}

// playOn is play with its rows, of which nothing stays, on that array.
func (in Input) playOn(rows []row, stints []stint, d *draw) play {
	p := play{rows: rows, times: in.times(d), marking: in.Marking, every: in.Every, trap: in.Trap, least: 1,
		parts: [2]part{in.Parts[0].play(d, ofTip), in.Parts[1].play(d, ofElectrode)}}
	more := unit.MassFlow(d.scaled(ofAir, in.Learnt.Air, airOff))
	for i := range stints {
		s := &stints[i]
		p.least = sooner(p.least, s.duty)
		p.after = s.cut.Place.After
		rows[i] = row{pieces: s.cut.Count, runs: s.cut.Runs, run: s.runWith(d, in.Learnt.Speed), heat: taken(s.duty)}
		if s.aired {
			p.air = s.air
			rows[i].draw, rows[i].least = p.air.Draw*more, p.air.Least
		}
	}
	return p
}

// feed is the air of a job from what calculator air-tank takes, the tank full.
func feed(t air.TankInput) Air {
	return Air{Known: true, Tank: air.Receiver{Volume: t.Volume, At: t.Temperature}, Compressor: t.Compressor(),
		Draw: t.Reference.Mass(t.Demand), Least: t.Needed, Start: t.CutOut}
}
