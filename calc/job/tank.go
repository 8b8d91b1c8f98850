package job

import (
	"kerfside/calc/air"
	"kerfside/calc/unit"
)

// Air is what feeds the torch on a site.
type Air struct {
	Known      bool // or nothing waits for air
	Tank       air.Receiver
	Compressor air.Compressor
	Draw       unit.MassFlow // while the valve is open
	Least      unit.Pressure // gauge, in the tank, that still serves the torch
	Start      unit.Pressure // gauge, in the tank when the job begins
}

// near is what rounding leaves, as a part of the whole.
const near = 1e-12

// shortestPump is the shortest run of a compressor that is told apart: nobody's switch
// lets it start more often.
const shortestPump = unit.Second

// tank is the air in the tank and the state of its compressor. Masses are above what
// the tank holds at no gauge pressure.
type tank struct {
	Air
	full, in, least, held unit.Mass
	closed                bool // the pressure switch: cut-in was passed and cut-out not yet
	hot                   bool // the compressor rests, whatever the switch says
	motor                 coolness
	warms                 float64       // what running takes of the motor's coolness each second
	pumped, drawn         unit.Mass     // since the job began
	ran                   unit.Duration // the compressor
	most                  unit.Duration // that the valve may be open from a full tank, in this row
}

func newTank(a Air) tank {
	k := tank{Air: a, motor: newCoolness(a.Compressor.Duty), warms: taken(a.Compressor.Duty)}
	if !a.Known {
		return k
	}
	k.full, k.in, k.least = a.Tank.Mass(a.Compressor.CutOut), a.Tank.Mass(a.Compressor.CutIn), a.Tank.Mass(a.Least)
	k.in = min(k.in, k.full-unit.Mass(float64(a.Compressor.Delivery)*float64(shortestPump)))
	k.held = min(a.Tank.Mass(a.Start), k.full)
	k.closed = k.held <= k.in
	return k
}

// runs reports whether the compressor runs.
func (k *tank) runs() bool { return k.closed && !k.hot }

// serve lets it serve a row of the job.
func (k *tank) serve(draw unit.MassFlow, least unit.Pressure) {
	k.Draw, k.Least, k.least = draw, least, k.Tank.Mass(least)
	k.most = k.longest()
}

// net is the flow into the tank.
func (k *tank) net(open bool) (in, out unit.MassFlow) {
	if k.runs() {
		in = k.Compressor.Delivery
	}
	if open {
		out = k.Draw
		if k.held <= 0 {
			out = sooner(out, in) // an empty tank gives no more than comes in
		}
	}
	return in, out
}

// pass lets at most t pass, up to where the straight line of the tank's state ends, and
// switches what is due then. It returns how long that was.
func (k *tank) pass(t unit.Duration, open bool) unit.Duration {
	if !open && !k.closed && !k.hot && k.held > k.in*(1+near) { // nothing flows, nothing is due
		k.motor.rest(t)
		return t
	}
	in, out := k.net(open)
	switch net := in - out; { // how long the tank keeps to its line
	case net < 0 && !k.closed && k.held > k.in:
		t = sooner(t, k.time(k.held-k.in, -net))
	case net < 0 && k.held > 0:
		t = sooner(t, k.time(k.held, -net))
	case net > 0:
		t = sooner(t, k.time(k.full-k.held, net))
	}
	switch {
	case k.hot:
		t = sooner(t, k.motor.until(forever, 1))
	case k.closed:
		t = sooner(t, k.motor.lasts(k.warms))
	}
	t = later(t, 0)

	k.pumped += unit.Mass(float64(in) * float64(t))
	k.drawn += unit.Mass(float64(out) * float64(t))
	k.held += unit.Mass(float64(in-out) * float64(t))
	if k.runs() {
		k.ran += t
		k.motor.work(t, k.warms)
	} else {
		k.motor.rest(t)
	}

	switch {
	case k.held >= k.full*(1-near) && in > out:
		k.held, k.closed = k.full, false
	case k.held <= k.in*(1+near) && in <= out:
		k.closed = true
	}
	if k.held < k.full*near {
		k.held = 0
	}
	switch {
	case k.hot && k.motor.left >= 1-near:
		k.hot, k.motor.left = false, 1
	case k.runs() && k.warms > 0 && k.motor.left <= near:
		k.hot, k.motor.left = true, 0
	}
	return t
}

func (k *tank) time(m unit.Mass, flow unit.MassFlow) unit.Duration {
	return unit.Duration(float64(m) / float64(flow))
}

// longest is how long the valve may be open from a full tank, as air-tank's run time.
func (k *tank) longest() unit.Duration {
	if !k.Known {
		return forever
	}
	if t, ends := k.Compressor.RunTime(k.Tank, k.Draw, k.Least, false); ends {
		return t
	}
	return forever
}

// serves is how long the valve may be open from what the gauge shows, as air-tank has it:
// above cut-in the compressor is not counted on. Nor is one that rests; one that grows
// too warm on the way is not foreseen.
func (k *tank) serves() unit.Duration {
	switch above := k.held - k.least; {
	case !k.Known:
		return forever
	case above < -k.full*near:
		return 0
	case k.held == k.full && k.full > k.in && !k.hot:
		return k.most
	case k.hot:
		return k.time(above, k.Draw)
	}
	from := air.Compressor{Delivery: k.Compressor.Delivery, CutIn: k.Compressor.CutIn, CutOut: k.pressure()}
	if t, ends := from.RunTime(k.Tank, k.Draw, k.Least, k.held <= k.in); ends {
		return t
	}
	return forever
}

// pressure is what the gauge shows.
func (k *tank) pressure() unit.Pressure {
	return k.Compressor.CutOut * unit.Pressure(k.held/k.full)
}

// ready is how long the tank fills, with the compressor running and the valve shut, until
// it serves so long, or is full.
func (k *tank) ready(open unit.Duration) unit.Duration {
	takes := func(t unit.Duration, flow unit.MassFlow) unit.Mass {
		return unit.Mass(float64(max(0, flow)) * float64(t))
	}
	under := max(0, k.in-k.least) // that the compressor helps with
	net := k.Draw - k.Compressor.Delivery
	wants := k.least + takes(open, net)
	switch {
	case under == 0:
		wants = k.least + takes(open, k.Draw)
	case takes(open, net) > under:
		wants = k.in + takes(open-k.time(under, net), k.Draw)
	}
	return k.time(max(0, min(wants, k.full)-k.held), k.Compressor.Delivery)
}
