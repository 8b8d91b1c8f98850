package air

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// putWater fills in the results and cautions of air-water.
func putWater(a *form.Answer, in WaterInput, res WaterResult) {
	form.Put(a, "drain", res.Drain)
	a.PutWord("class", res.Class)
	level := 0.0
	if res.Fill > 0 {
		level = min(1, float64(res.Drain/res.Fill))
	}
	a.Draw("water-way", map[string]any{"tank": form.SayIn(a, res.TankWater, "g/min", "oz/h"), "trap": form.SayIn(a, res.MachineWater, "g/min", "oz/h"),
		"drain": form.SayIn(a, res.Drain, "min", "min"), "level": level, "share": float64((res.In - res.AtTank) / max(res.In, 1e-12))})
	form.Put(a, "dew_point", res.DewPoint)
	form.Put(a, "tank_water", res.TankWater)
	form.Put(a, "machine_water", res.MachineWater)
	if res.Fill > 0 {
		form.Put(a, "fill", res.Fill)
	}
	form.Put(a, "liquid", res.Liquid)
	form.Put(a, "open_dew_point", res.OpenDewPoint)
	form.Put(a, "vapour_in", res.VapourIn)
	form.Put(a, "ratio_in", res.In)
	form.Put(a, "ratio_tank", res.AtTank)
	form.Put(a, "ratio_machine", res.AtMachine)
	if res.Liquid > 0 {
		a.Caution("Water reaches the machine. Let the air cool in the tank, or fit a filter with a drain or a dryer.")
	}
	if in.Machine < triple && res.AtTank > res.AtMachine || in.Tank < triple && res.In > res.AtTank {
		a.Caution("This water can freeze and plug the line. Keep trap and hose warm, and drain before the night.")
	}
	a.Caution("Bleed the pressure before you open a bowl. Keep its guard on. Drain the compressor's tank completely and often.")
	a.Caution("The machine's manual says how dry the air must be, before its own trap.")
}

// workWater shows the sum.
func workWater(a *form.Answer, in WaterInput, res WaterResult) {
	pa := AirPressure(in.Altitude)
	e := unit.Pressure(in.Humidity) * Saturation(in.Inlet)
	a.Step("vapour pressure today = %s × %.3g Pa (saturated at %s) = %.3g Pa, %.3g g/m³", form.Say(a, in.Humidity), float64(Saturation(in.Inlet)), form.Say(a, in.Inlet), float64(e), 1000*float64(res.VapourIn))
	a.Step("W in = %.3g × %.3g / (%.0f − %.3g) = %.3g g/kg", molecules, float64(e), float64(pa), float64(e), 1000*float64(res.In))
	stepHeld(a, "tank", in.Tank, in.TankPressure+pa, res.AtTank)
	stepHeld(a, "machine", in.Machine, in.MachinePressure+pa, res.AtMachine)
	a.Step("dry air = %s × %.3g kg/m³ (%s) = %.3g g/min", sayFlow(a, in.Flow), float64(in.Reference.Density()), in.Reference.Label, 60e3*float64(res.Dry))
	a.Step("settling: tank %.3g g/min, machine %.3g g/min", 60e3*float64(res.TankWater), 60e3*float64(res.MachineWater))
	if res.Fill > 0 {
		a.Step("bowl = %s / that = %s; drained at least every %s", form.Say(a, in.Bowl), form.Say(a, res.Fill), form.Say(a, in.Practice))
	}
}

// stepHeld shows what saturated air holds at one place.
func stepHeld(a *form.Answer, where string, t unit.Temperature, p unit.Pressure, left unit.Ratio) {
	a.Step("%s, %s and %.3g kPa absolute: saturated air holds %.3g × %.3g / (p − that) = %.3g g/kg, so %.3g g/kg goes on as vapour",
		where, form.Say(a, t), kPa(p), molecules, float64(Saturation(t)), 1000*float64(holds(t, p)), 1000*float64(left))
}
