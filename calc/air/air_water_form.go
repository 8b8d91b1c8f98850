package air

import (
	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// AirWater is the calculator air-water.
var AirWater = form.Declaration{Name: "air-water", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Water in the air",
		About: "See how much water comes with the air today, where it settles, and when to drain.",
		Place: "ready",
		Terms: []string{"moisture", "wet air", "dew point", "condensate", "trap", "separator", "drain", "dryer", "ISO 8573-1", "humid"},
		Fields: []form.Field{
			{Key: "inlet", Label: "Air temperature today", Takes: form.Number[unit.Temperature]("°C", "°F"), Chips: []string{"10°C", "20°C", "30°C"}, ChipsUS: []string{"50°F", "70°F", "90°F"},
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
			{Key: "humidity", Label: "Relative humidity today", Help: "The weather report.", Takes: form.Number[unit.Ratio]("%", "%"), Chips: []string{"40%", "60%", "80%", "100%"},
				Limits: form.Within(5*unit.Percent, 100*unit.Percent)},
			{Key: "flow", Label: "Air flow", Help: "Free air while the valve is open. Air need tells it.", Takes: form.Number[unit.Flow]("l/min", "cfm"), Chips: []string{"120l/min", "170l/min"}, ChipsUS: []string{"4.5cfm", "6.5cfm"},
				Limits: form.Within(unit.LitrePerMinute, largestFlow)},
			{Key: "pressure", Label: "Pressure in the tank", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "7bar", Basis: "common-practice", Limits: form.Within(0*unit.Bar, 40*unit.Bar)},
			{Key: "tank_temperature", Label: "Temperature of the tank", Help: "Hand-warm is about 35 °C. Left empty: 10 °C above the air.", Takes: form.Number[unit.Temperature]("°C", "°F"), Optional: true,
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(80))},
			{Key: "machine_pressure", Label: "Pressure at the machine", Help: "Before its trap, while air flows. Left empty: as in the tank.", Takes: form.Number[unit.Pressure]("bar", "psi"), Optional: true, Fine: true,
				Limits: form.Within(0*unit.Bar, 40*unit.Bar)},
			{Key: "machine_temperature", Label: "Temperature of the air at the machine", Help: "Left empty: as the air around.", Takes: form.Number[unit.Temperature]("°C", "°F"), Optional: true, Fine: true,
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(80))},
			{Key: "bowl", Label: "Trap bowl", Help: "What the machine's own trap holds up to its mark.", Takes: form.Number[unit.Volume]("ml", "fl oz"), Default: "30ml", Basis: "from-memory",
				Limits: form.Within(unit.Litre/1000, 5*unit.Litre)},
			{Key: "practice", Label: "Drain at least every", Help: "Minutes of arc, with the machine's own trap alone. The trap's book wins.", Takes: form.Number[unit.Duration]("min", "min"), Default: "20min", Basis: "common-practice",
				Chips: []string{"15min", "20min", "40min"}, Limits: form.Within(unit.Minute, 8*unit.Hour)},
			altitudeField(),
			referenceField(),
		},
		Results: []form.Result{
			{Key: "drain", Label: "Drain the trap every", Gives: form.Number[unit.Duration]("min", "min"), Main: true},
			{Key: "class", Label: "Water class at the machine, before its trap (ISO 8573-1)", Gives: form.Text(), Main: true},
			{Key: "dew_point", Label: "Pressure dew point in the hose", Gives: form.Number[unit.Temperature]("°C", "°F"), Main: true},
			{Key: "tank_water", Label: "Settles in compressor and tank", Gives: form.Number[unit.MassFlow]("g/min", "oz/h")},
			{Key: "machine_water", Label: "Settles in hose and trap", Gives: form.Number[unit.MassFlow]("g/min", "oz/h"), Main: true},
			{Key: "fill", Label: "Fills the bowl in", Gives: form.Number[unit.Duration]("min", "min")},
			{Key: "liquid", Label: "Liquid water in the hose, in free air at 20 °C and 1 bar", Gives: form.Number[unit.Density]("g/m³", "g/m³")},
			{Key: "open_dew_point", Label: "Dew point of that air let out", Gives: form.Number[unit.Temperature]("°C", "°F")},
			{Key: "vapour_in", Label: "Vapour in the air around", Gives: form.Number[unit.Density]("g/m³", "g/m³")},
			{Key: "ratio_in", Label: "Water per dry air, taken in", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "ratio_tank", Label: "Water per dry air, leaving the tank", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "ratio_machine", Label: "Vapour per dry air, behind the trap", Gives: form.Number[unit.Ratio]("%", "%")},
		},
		Sources: []source.ID{"iapws-if97", "ashrae-2017", "iso-8573-1", "iso-2533"},
		Run:     runWater,
	}
}}

func runWater(r *form.Reader, a *form.Answer) error {
	in := WaterInput{
		Inlet:           form.Get[unit.Temperature](r, "inlet"),
		Humidity:        form.Get[unit.Ratio](r, "humidity"),
		Flow:            form.Get[unit.Flow](r, "flow"),
		TankPressure:    form.Get[unit.Pressure](r, "pressure"),
		Tank:            form.Get[unit.Temperature](r, "tank_temperature"),
		MachinePressure: form.Get[unit.Pressure](r, "machine_pressure"),
		Machine:         form.Get[unit.Temperature](r, "machine_temperature"),
		Bowl:            form.Get[unit.Volume](r, "bowl"),
		Practice:        form.Get[unit.Duration](r, "practice"),
		Altitude:        form.Get[unit.Length](r, "altitude"),
		Reference:       getReference(r),
	}
	if err := r.Err(); err != nil {
		return err
	}
	if !r.Has("tank_temperature") {
		in.Tank = in.Inlet + 10*unit.Kelvin
		a.Caution("The tank counts as 10 °C (18 °F) warmer than the air. Enter its temperature if you know it.")
	}
	if !r.Has("machine_temperature") {
		in.Machine = in.Inlet
	}
	if !r.Has("machine_pressure") {
		in.MachinePressure = in.TankPressure
	}
	res, err := ComputeWater(in)
	if err != nil {
		return err
	}
	putWater(a, in, res)
	workWater(a, in, res)
	return nil
}
