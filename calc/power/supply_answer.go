package power

import (
	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// putSupply fills in the results, cautions and working of supply.
func putSupply(a *form.Answer, in SupplyInput, res SupplyResult) {
	form.Put(a, "volts_at_machine", res.AtMachine)
	form.Put(a, "percent", res.Share)
	form.Put(a, "drop", res.Drop)
	a.PutWord("verdict", res.Verdict)
	form.Put(a, "current", res.Current)
	if in.Draw > 0 {
		a.Step("the machine takes %s whatever the volts: with %s left at it, %s flow", form.Say(a, in.Draw), form.Say(a, res.AtMachine), form.Say(a, res.Current))
	}
	in.Current = res.Current
	putLimit(a, "3", res.Run)
	putLimit(a, "5", res.All)
	form.Put(a, "heat", res.Heat)
	form.Put(a, "breaker_most", res.OverMost)
	drawSupply(a, in, res)
	stepDrop(a, in.Cord, in.Current, res.Drop)
	a.Step("lost %s of %s = %s; advice: %s for the run, %s in all", form.Say(a, res.Drop), form.Say(a, in.Volts), form.Say(a, res.Share), form.Say(a, adviceRun), form.Say(a, adviceAll))
	if res.ByK > 0 {
		form.Put(a, "k_drop", res.ByK)
		a.Step("K form: %.3g × %.3g × %s × %.3g ft / %.0f cmil = %s", legs(in.Cord.Phases), kCopper, form.Say(a, in.Current), float64(in.Cord.Length/unit.Foot), float64(in.Cord.Conductor.Area/unit.CircularMil), unit.Figures(float64(res.ByK), 3)+" V")
	}
	if in.Duty > 0 {
		form.Put(a, "ampacity_needed", res.Ampacity)
		form.Put(a, "effective_current", res.Effective)
		a.PutFactor("factor", float64(res.Factor))
		a.Step("NEC 630.11(A): %s × %.3g at %s duty = %s that the supply conductors must carry", form.Say(a, in.Current), float64(res.Factor), form.Say(a, in.Duty), form.Say(a, res.Ampacity))
	}
	if in.Breaker > 0 {
		a.PutWord("breaker_verdict", string(res.Breaker))
		if res.Breaker == margin.Fails {
			a.Caution("The breaker is too small: it can open in the cut. Cut with fewer amps or use a larger circuit. Never swap the breaker.")
		}
		if in.Breaker < in.Current && res.Breaker != margin.Fails {
			a.Caution("The breaker holds cut and pause on average. One cut that is too long can still open it.")
		}
		if in.Breaker > res.OverMost {
			a.Caution("That breaker is larger than NEC 630.12 allows for this machine (200 %% of the current).")
		}
	}
	if in.LeastVolt > 0 {
		form.Put(a, "volts_margin", res.VoltMargin)
		if res.VoltMargin < 0 {
			a.Caution("The machine gets less than it runs on: expect faults and a dropping arc.")
		}
	}
	if res.Verdict != "ok" {
		a.Caution(VoltsLost)
	}
	a.Caution("Uncoil the cord fully: it heats on the reel. " + Protected)
	a.Caution("What a cord may carry is on its jacket and in local code. A licensed electrician decides.")
}

// drawSupply shows the volts at both ends of the cord, and how low they may go.
func drawSupply(a *form.Answer, in SupplyInput, res SupplyResult) {
	volts := func(label string, u unit.Voltage) form.Bar { return form.NewBar(a, label, u, "V", "V") }
	marks := []form.Bar{volts(form.Say(a, adviceAll)+" lost", in.Volts*unit.Voltage(1-adviceAll))}
	if in.LeastVolt > 0 {
		marks = append(marks, volts("least it runs on", in.LeastVolt))
	}
	a.DrawBars("Volts along the cord", "What is left of the volts of the socket at the machine, while it cuts.",
		[]form.Bar{volts("at the socket", in.Volts), volts("at the machine", res.AtMachine).Past(res.Verdict != "ok" || res.AtMachine < in.LeastVolt)}, marks...)
}

// putLargest tells the largest cutting current that the socket and cord give.
func putLargest(a *form.Answer, in SupplyInput, m Machine, arc unit.Voltage) {
	draw := in.LargestDraw()
	s := Power(draw, in.Volts-in.Cord.Drop(draw), in.Cord.Phases)
	form.Put(a, "largest_cutting", m.Gives(s, arc))
	a.Step("largest draw within %s lost%s = %s = %s; × λ × η, over the arc volts: %s of cutting current", form.Say(a, adviceAll), withinToo(in), form.Say(a, draw), form.Say(a, s), form.Say(a, m.Gives(s, arc)))
}

// withinToo names the other limits that were given.
func withinToo(in SupplyInput) string {
	text := ""
	if in.LeastVolt > 0 {
		text += ", the least volts"
	}
	if in.Breaker > 0 {
		text += ", the breaker"
	}
	return text
}

// putLimit fills in what would keep to the advice of that many per cent.
func putLimit(a *form.Answer, percent string, l Limit) {
	word := "none in the table"
	if l.Found {
		word = l.Conductor.Label
	}
	a.PutWord("size_for_"+percent, word)
	form.Put(a, "reach_for_"+percent, l.Reach)
	form.Put(a, "current_for_"+percent, l.Current)
}

// stepDrop shows the sum of a voltage drop.
func stepDrop(a *form.Answer, c Cord, i unit.Current, drop unit.Voltage) {
	r := c.Conductor.Resistance(c.Length, c.At)
	a.Step("R of %s of %s at %s = %s mΩ one way", form.SayIn(a, c.Length, "m", "ft"), c.Conductor.Label, form.Say(a, c.At), unit.Figures(1000*float64(r), 3))
	ways := "2"
	if c.Phases == 3 {
		ways = "√3"
	}
	a.Step("ΔU = %s × %s × %s mΩ = %s V", ways, form.Say(a, i), unit.Figures(1000*float64(r), 3), unit.Figures(float64(drop), 3))
}
