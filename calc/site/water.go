package site

import (
	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/unit"
)

// usualWarm is how much warmer than the air around a compressor's tank is
// taken, as the calculator air-water takes it (common practice).
const usualWarm = 10 * unit.Kelvin

// Of a trap nothing is known here, so its bowl and the drain interval are those
// that air-water starts from: 30 ml from memory, 20 min common practice.
const (
	usualBowl  = 30e-3 * unit.Litre
	usualDrain = 20 * unit.Minute
)

// Drain is after how much arc of a cut the trap is full on a day that damp; 0 where
// nothing is known of the damp.
func (in Input) Drain(plan cutting.PlanResult) unit.Duration {
	return in.worn(plan).water().Drain
}

// water follows the water of the day's air to the machine, the tank filled to
// cut-out and the hose as warm as the air around.
func (in Input) water() air.WaterResult {
	if !in.Damp || in.AirNeed == 0 || in.Compressor.Free == 0 {
		return air.WaterResult{}
	}
	res, err := air.ComputeWater(air.WaterInput{
		Inlet: in.Temperature, Humidity: in.Humidity, Altitude: in.Altitude,
		TankPressure: in.Compressor.CutOut, Tank: in.Temperature + usualWarm,
		MachinePressure: min(in.inlet(), in.Compressor.CutOut), Machine: in.Temperature,
		Flow: in.AirNeed, Reference: in.Reference, Bowl: usualBowl, Practice: usualDrain,
	})
	if err != nil {
		return air.WaterResult{}
	}
	return res
}
