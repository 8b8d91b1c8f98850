package job

import "kerfside/calc/unit"

// mostGoes is how often air and duty cycle may break a job off before it is no plan.
const mostGoes = 5000

// burn makes one run of arc, in as many goes as air and duty cycle ask for.
func (h *hands) burn(r *row) {
	if h.longest <= 0 {
		h.Stuck = true
		return
	}
	h.Longest[h.row] = h.longest
	for left := r.run; ; {
		next := sooner(left, h.longest)
		h.drain(next)
		h.change(next)
		h.await(next, r.heat)
		burnt := h.arc(next, r.heat)
		if burnt > 0 {
			h.Starts[h.row]++
			h.wear(burnt)
		}
		left -= burnt
		if left <= 1e-9*r.run {
			return
		}
		h.Split[h.row]++
		if h.goes++; h.goes > mostGoes {
			h.Stuck = true
			return
		}
	}
}

// await waits until tank and machine serve a run, by the longer of the two waits.
func (h *hands) await(burn unit.Duration, heat float64) {
	from := h.t
	cool := h.machine.until(burn, heat)
	aired := unit.Duration(0) // when the air did
	for {
		air := h.tank.serves() >= (burn+h.after)*(1-1e-9)
		step := cool - (h.t - from)
		if air && step <= 1e-9*unit.Second {
			break
		}
		if !air {
			h.tank.closed = h.tank.closed || h.valve == 0 // he lets out a little
			step = h.filling(burn + h.after)
		}
		h.advance(step, false, 0)
		if !air {
			aired = h.t - from
		}
	}
	waited := h.t - from
	if waited <= 0 {
		return
	}
	kind := WaitAir
	if aired < cool {
		kind = Cooling
	}
	h.Totals[kind] += waited
	h.Wait[h.row] += waited
	h.ahead(waited)
	h.tell(kind, from)
}

// filling is how long to wait before looking at the tank again.
func (h *hands) filling(open unit.Duration) unit.Duration {
	switch {
	case h.valve > 0:
		return h.valve
	case h.tank.hot:
		return h.tank.motor.until(forever, 1)
	}
	return max(h.tank.ready(open), 1e-6*unit.Second)
}

// arc burns for so long, or until a compressor that grew too warm on the way leaves no
// more than the after-flow takes. It returns how long it burnt.
func (h *hands) arc(burn unit.Duration, heat float64) unit.Duration {
	from, left := h.t, burn
	for left > 1e-12*burn {
		was := h.tank.hot
		left -= h.advance(left, true, heat)
		if h.tank.hot && !was {
			left = sooner(left, h.tank.serves()-h.after)
		}
	}
	lasted := h.t - from
	h.Totals[Cutting] += lasted
	h.Arc[h.row] += lasted
	h.trap += lasted
	h.tell(Cutting, from)
	return lasted
}

// drain empties the trap if the next run would pass its interval.
func (h *hands) drain(next unit.Duration) {
	if h.every > 0 && h.trap > 0 && h.trap+next > h.every*(1+1e-9) {
		h.spend(Drain, h.times.Drain)
		h.trap = 0
	}
}

// change fits a new part where the next run would pass its life, and its partner with
// it if that is past half of its own.
func (h *hands) change(next unit.Duration) {
	var due, worn [2]bool
	for i := range h.parts {
		if p := &h.parts[i]; p.known {
			due[i] = p.used > 0 && p.with(next) > h.lives[i]
			worn[i] = p.used > h.lives[i]/2
		}
	}
	if !due[0] && !due[1] {
		return
	}
	h.spend(Parts, h.times.Change)
	for i := range h.parts {
		if due[i] || due[1-i] && worn[i] {
			h.Changes[i]++
			h.parts[i].used, h.lives[i] = 0, h.parts[i].life(h.Changes[i])
		}
	}
}

func (h *hands) wear(run unit.Duration) {
	for i := range h.parts {
		if p := &h.parts[i]; p.known {
			p.used = p.with(run)
		}
	}
}
