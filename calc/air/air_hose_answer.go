package air

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// putHose fills in the results and cautions of air-hose.
func putHose(a *form.Answer, in HoseInput, res HoseResult) {
	a.PutYes("choked", res.Choked)
	if in.Needed > 0 || res.Choked {
		form.Put(a, "largest_flow", res.LargestFlow)
	}
	a.PutFactor("reynolds", res.Reynolds)
	a.PutFactor("friction", res.Friction)
	if in.Needed > 0 {
		form.Put(a, "margin", res.Margin)
		putBore(a, res)
	}
	a.Caution("Bleed the line before you open a coupler.")
	if res.Choked {
		a.PutWord("verdict", "choked")
		what := "comes through"
		if in.Needed > 0 {
			what = "serves the machine"
		}
		a.Caution("This hose cannot pass %s: at most %s %s. Fit a wider or shorter one. Never set more pressure than hose and machine are rated for.",
			sayFlow(a, in.Flow), sayFlow(a, res.LargestFlow), what)
		return
	}
	form.Put(a, "at_torch", res.AtTorch)
	bar := func(label string, p unit.Pressure) form.Bar { return form.NewBar(a, label, p, "bar", "psi") }
	marks := []form.Bar{}
	if in.Needed > 0 {
		marks = append(marks, bar("needed", in.Needed))
	}
	a.DrawBars("Pressure along the hose", "While air flows, before the hose and at the machine.",
		[]form.Bar{bar("before the hose", in.Pressure), bar("at the machine", res.AtTorch).Past(res.AtTorch < in.Needed)}, marks...)
	form.Put(a, "drop", res.Drop)
	form.Put(a, "speed_in", res.SpeedIn)
	form.Put(a, "speed_out", res.SpeedOut)
	if in.Line.Couplers == 0 {
		a.Caution("No couplers are counted. Most lines have two a hose: count yours.")
	}
	a.Caution("Read the gauge at the machine while air flows. A still gauge says nothing about the hose.")
}

// putBore tells what bore would do.
func putBore(a *form.Answer, res HoseResult) {
	if res.Bore == 0 {
		a.Caution("No wider hose helps: the couplers or the pressure before it are the limit.")
		return
	}
	form.Put(a, "bore_needed", res.Bore)
	if b, ok := CommonBore(res.Bore); ok {
		form.Put(a, "bore_to_buy", b)
	}
}

// workHose shows the sum.
func workHose(a *form.Answer, in HoseInput, res HoseResult) {
	l := in.Line
	length := l.Length + in.Fittings
	inlet := in.Pressure + res.Surrounding
	ref := in.Reference
	a.Step("air outside = %.3g kPa at %s, so p1 = %s gauge = %.3g kPa absolute", kPa(res.Surrounding), form.SayIn(a, in.Altitude, "m", "ft"), sayPressure(a, in.Pressure), kPa(inlet))
	a.Step("ṁ = q·ρ = %s × %.3g kg/m³ (%s) = %.3g g/s", sayFlow(a, in.Flow), float64(ref.Density()), ref.Label, 1000*float64(res.Mass))
	a.Step("Re = 4·ṁ/(π·D·μ) = %.0f with D = %s, μ = %.3g µPa·s", res.Reynolds, form.Say(a, l.Bore), 1e6*viscosity(l.Temperature))
	a.Step("f = %.3g at ε/D = %.2g (Colebrook; 64/Re below Re 2300)", res.Friction, float64(l.Roughness/l.Bore))
	a.Step("f·L/D + ΣK = %.3g × %s / %s + %.3g = %.3g", res.Friction, form.Say(a, length), form.Say(a, l.Bore), l.Loss, res.Friction*float64(length/l.Bore)+l.Loss)
	a.Step("G = ṁ/A = %.3g kg/(m²·s); G²·R·T = %.3g kPa²", float64(res.Mass)/l.area(), 1e-6*l.root(float64(res.Mass))*l.root(float64(res.Mass)))
	if l.Couplers > 0 {
		a.Step("couplers: %d with C = %s and b = %.2g, half of them before the hose and half behind it", l.Couplers, unit.In(l.Coupler.C, "l/(s·bar)"), float64(l.Coupler.B))
	}
	if res.Choked {
		a.Step("no p2 above the air outside solves p1² − p2² = G²·R·T·(f·L/D + ΣK + 2·ln(p1/p2)): choked")
		return
	}
	a.Step("p1² − p2² = G²·R·T·(f·L/D + ΣK + 2·ln(p1/p2)) gives p2 = %.3g kPa absolute behind hose and couplers", kPa(inlet-res.Drop))
	a.Step("at the machine %s gauge, lost %s", sayPressure(a, res.AtTorch), sayPressure(a, res.Drop))
}

func kPa(p unit.Pressure) float64 { return float64(p) / 1000 }
