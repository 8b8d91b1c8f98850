package air

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// WaterInput is the air that a compressor takes in, and where it goes.
type WaterInput struct {
	Inlet           unit.Temperature // of the air around
	Humidity        unit.Ratio       // relative, of that air
	Altitude        unit.Length
	TankPressure    unit.Pressure // gauge
	Tank            unit.Temperature
	MachinePressure unit.Pressure // gauge, before the machine's trap
	Machine         unit.Temperature
	Flow            unit.Flow // free air
	Reference       Reference
	Bowl            unit.Volume   // of the machine's trap, to its mark
	Practice        unit.Duration // drain interval that is common practice
}

// WaterResult is where the water of that air goes.
type WaterResult struct {
	In, AtTank, AtMachine unit.Ratio       // vapour per dry air: taken in, leaving the tank, behind the machine's trap
	VapourIn              unit.Density     // vapour in a cubic metre of the air taken in
	Dry                   unit.MassFlow    // of dry air
	TankWater             unit.MassFlow    // condensing in the compressor and its tank
	MachineWater          unit.MassFlow    // condensing in the hose and at the machine
	Liquid                unit.Density     // that water per free air at 20 °C, 1 bar
	DewPoint              unit.Temperature // pressure dew point of the air in the hose
	OpenDewPoint          unit.Temperature // the same air let out
	Class                 string           // ISO 8573-1 water class at the machine, before its trap
	Fill                  unit.Duration    // until the trap bowl is full; 0 if it never fills
	Drain                 unit.Duration    // the shorter of Fill and Practice
}

// ComputeWater follows the water in compressed air.
//
//	e = RH·e_s(t)     W = 0.621945·e/(p − e)     W_s = 0.621945·e_s(T)/(p − e_s(T))
//	condensing at the tank = ṁ·max(0, W_in − W_s(tank))
//	condensing at the machine = ṁ·max(0, W_tank − W_s(machine))
//	pressure dew point: e_s(T) = p·W/(0.621945 + W)
//
// with p absolute at each place and ṁ the dry air (Flow counts dry air). It
// takes the tank to drop all that condenses in it; a tank that is not drained,
// or air that rushes through warmer than the tank's wall, sends more on. Below
// 0 °C vapour settles as frost and can plug the line.
// Range: air and tank −40 … 80 °C, e below the pressure around.
// Source: Saturation, HumidityRatio, ISO 2533, ISO 8573-1.
func ComputeWater(in WaterInput) (WaterResult, error) {
	pa := AirPressure(in.Altitude)
	if in.MachinePressure > in.TankPressure {
		return WaterResult{}, problem.New(problem.Conflict, "machine_pressure", "there is more pressure at the machine than in the tank", "Leave it out if both are the same.")
	}
	vapour := unit.Pressure(in.Humidity) * Saturation(in.Inlet)
	res := WaterResult{
		In:       HumidityRatio(vapour, pa),
		VapourIn: unit.Density(float64(vapour) / (gasConstant / molecules * float64(in.Inlet))),
		Dry:      in.Reference.Mass(in.Flow),
	}
	tank, machine := in.TankPressure+pa, in.MachinePressure+pa
	res.AtTank = min(res.In, holds(in.Tank, tank))
	res.AtMachine = min(res.AtTank, holds(in.Machine, machine))
	res.TankWater = res.Dry * unit.MassFlow(res.In-res.AtTank)
	res.MachineWater = res.Dry * unit.MassFlow(res.AtTank-res.AtMachine)
	res.Liquid = references[0].Density() * unit.Density(res.AtTank-res.AtMachine)
	res.DewPoint = DewPoint(VapourPressure(res.AtTank, tank))
	res.OpenDewPoint = DewPoint(VapourPressure(res.AtMachine, pa))
	res.Class = WaterClass(DewPoint(VapourPressure(res.AtMachine, machine)), res.Liquid)
	res.Drain = in.Practice
	if full := float64(in.Bowl) * waterDensity / float64(res.MachineWater); res.MachineWater > 0 && full < float64(longestFill) {
		res.Fill = unit.Duration(full)
		res.Drain = min(res.Fill, in.Practice)
	}
	return res, nil
}

// holds is the vapour per dry air that saturated air holds. Air under a
// pressure that its vapour alone would exceed holds any amount.
func holds(t unit.Temperature, p unit.Pressure) unit.Ratio {
	e := Saturation(t)
	if e >= p {
		return unit.Ratio(math.Inf(1))
	}
	return HumidityRatio(e, p)
}

// waterDensity in kg/m³; within 1 % from 0 to 45 °C.
const waterDensity = 998

// longestFill is the time beyond which a bowl counts as never filling.
const longestFill = 1000 * unit.Hour
