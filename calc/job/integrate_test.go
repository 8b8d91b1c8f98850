package job

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// stepped plays a job again, written apart from play and without any of its formulas:
// pressure and warmth are integrated by Runge and Kutta's fourth order in steps of a
// twentieth of a second, the switch is looked at after each, and whether the tank serves
// a run is found by running it ahead in steps.
type stepped struct {
	p                  play
	t, bar             float64 // s, bar gauge
	on, hot            bool
	warm, motor, valve float64 // warmth 0 to 1; s of after-flow
	perKilogram        float64 // bar of a kilogram in the tank
	draw, least        float64
}

const step = 0.05

func (s *stepped) flow(on, open bool, pressure float64) float64 {
	net := 0.0
	if on {
		net += float64(s.p.air.Compressor.Delivery)
	}
	if open {
		net -= s.draw
	}
	return net * s.perKilogram
}

// rk4 moves y on by one step of its derivative.
func rk4(y float64, d func(float64) float64) float64 {
	k1 := d(y)
	k2 := d(y + step/2*k1)
	k3 := d(y + step/2*k2)
	k4 := d(y + step*k3)
	return y + step/6*(k1+2*k2+2*k3+k4)
}

func (s *stepped) one(arc bool, heat float64) {
	open := arc || s.valve > step/2
	run := s.on && !s.hot
	in, out := float64(s.p.air.Compressor.CutIn)/1e5, float64(s.p.air.Compressor.CutOut)/1e5
	s.bar = rk4(s.bar, func(p float64) float64 { return s.flow(run, open, p) })
	rest := float64(600 * (1 - s.p.least))
	s.warm = rk4(s.warm, func(float64) float64 {
		if arc {
			return heat
		}
		return -1 / rest
	})
	duty := float64(s.p.air.Compressor.Duty)
	s.motor = rk4(s.motor, func(float64) float64 {
		switch {
		case run && duty < 1:
			return 1 / (600 * duty)
		case run:
			return 0
		}
		return -1 / (600 * (1 - duty))
	})
	s.warm, s.motor = max(0, s.warm), max(0, s.motor)
	switch {
	case s.bar >= out:
		s.bar, s.on = out, false
	case s.bar <= in:
		s.on = true
	}
	switch {
	case s.motor >= 1:
		s.hot = true
	case s.hot && s.motor <= 0:
		s.hot = false
	}
	s.valve -= step
	if arc {
		s.valve = float64(s.p.after)
	}
	s.t += step
}

// served runs ahead: from the gauge, the compressor at rest until cut-in.
func (s *stepped) served(open float64) bool {
	ahead := *s
	ahead.on, ahead.motor = ahead.bar <= float64(s.p.air.Compressor.CutIn)/1e5, -1e9
	ahead.p.after = 0
	for t := 0.0; t < open-step/2; t += step {
		ahead.one(true, 0)
		if ahead.bar < s.least-1e-3 {
			return false
		}
	}
	return true
}

func (s *stepped) hands(t unit.Duration) {
	for end := s.t + float64(t); s.t < end-step/2; {
		s.one(false, 0)
	}
}

// job plays all rows and returns the time of the last arc's end.
func (s *stepped) job() float64 {
	for i, r := range s.p.rows {
		s.draw, s.least = float64(r.draw), float64(r.least)/1e5
		for k := range r.pieces {
			s.hands(s.p.times.Mark)
			if k > 0 {
				s.hands(s.p.times.Move)
			} else if i > 0 {
				s.hands(s.p.times.Row)
			}
			for j := range r.runs {
				if j > 0 {
					s.hands(s.p.times.Reset)
				}
				s.run(r)
			}
		}
	}
	return s.t
}

func (s *stepped) run(r row) {
	full := *s
	full.bar, full.on, full.motor, full.p.after = float64(s.p.air.Compressor.CutOut)/1e5, false, -1e9, 0
	longest := 0.0 // of open valve from a full tank
	for full.bar > s.least && longest < 7200 {
		full.one(true, 0)
		longest += step
	}
	longest -= float64(s.p.after)
	if r.heat > 0 {
		longest = min(longest, 1/r.heat)
	}
	for left := float64(r.run); left > step/2; {
		next := min(left, longest)
		for {
			filled := s.bar >= float64(s.p.air.Compressor.CutOut)/1e5-1e-6
			short := !filled && !s.served(next+float64(s.p.after))
			if !short && r.heat*next+s.warm <= 1+1e-4 {
				break
			}
			s.on = s.on || short && s.valve <= step/2
			s.one(false, 0)
		}
		for burnt := 0.0; burnt < next-step/2; burnt += step {
			s.one(true, r.heat)
		}
		left -= next
	}
}

// TestAgainstIntegration: the job from event to event agrees with one that is integrated
// in fine steps: the time of its end to 1e-3 and a step for each run, the pressure then to
// 1e-3 of cut-out, and what a step pumps.
func TestAgainstIntegration(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 5))
	compared := 0
	for i := 0; compared < 6; i++ {
		p := drawnPlay(r)
		if !p.air.Known || p.air.Least >= p.air.Compressor.CutIn {
			continue
		}
		if p.air.Tank.Time(p.air.Compressor.CutOut-p.air.Compressor.CutIn, p.air.Compressor.Delivery) < 100*step {
			continue // steps are too coarse for it
		}
		p.air.Start, p.marking, p.every, p.air.Compressor.Duty = p.air.Compressor.CutOut, MarkEach, 0, 1
		for k := range p.rows {
			p.rows[k].run = min(max(p.rows[k].run, 10), 90)
		}
		o := p.do()
		if o.Stuck || o.Work > 1200 || o.Totals[WaitAir] == 0 {
			continue
		}
		compared++
		s := stepped{p: p, bar: float64(p.air.Start) / 1e5, perKilogram: 1e-5 * float64(unit.Bar) / float64(p.air.Tank.Mass(unit.Bar))}
		end := s.job()
		pressure := float64(p.air.Compressor.CutOut) / 1e5 * float64(o.Held/p.air.Tank.Mass(p.air.Compressor.CutOut))
		rounded := 0.0 // each run waits for whole steps and burns whole steps
		for _, n := range o.Starts {
			rounded += step * float64(n)
		}
		if math.Abs(end-float64(o.Work)) > 1e-3*end+rounded || math.Abs(s.bar-pressure) > 1e-3*float64(p.air.Compressor.CutOut)/1e5+step*s.perKilogram*float64(p.air.Compressor.Delivery) {
			t.Errorf("play %d: %.2f s and %.4f bar in steps, %.2f s and %.4f bar from event to event (starts %v)", i, end, s.bar, float64(o.Work), pressure, o.Starts)
		}
	}
}
