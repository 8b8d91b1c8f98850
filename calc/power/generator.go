package power

import (
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Derating of an engine set with the site: 1.3 % for each 100 m above 1219 m
// (4000 ft) and 3 % for each 10 °C above 35 °C. Source: US Army TM
// 9-6115-673-13&P, table 2-3, a 2 kW diesel set; a set's own book wins.
const (
	derateFrom    = 4000 * unit.Foot
	deratePer100m = 0.013
	derateHeat    = 35.0 // °C
	deratePerDeg  = 0.003
)

// usualSetFactor is the power factor at which sets are rated when the plate
// gives kVA alone (common practice).
const usualSetFactor = 0.8

// GeneratorInput is a machine, perhaps a compressor, and a generator for both.
type GeneratorInput struct {
	Machine     Machine
	Volts       unit.Voltage // of the arc at Current; 0 for the load line
	Current     unit.Current
	Stretch     unit.Ratio         // power of a stretched arc over the rated one
	Rated       unit.ApparentPower // of the set, continuous
	PowerAlone  bool               // Rated is the kW of a plate that gives no kVA
	RatedPower  unit.Power         // of the set; 0 for 0.8 × Rated
	Surge       unit.ApparentPower // for a motor's start; 0 for Rated
	Headroom    unit.Ratio         // of the set's rating left unused, ≥ 0
	Running     unit.ApparentPower // of a compressor on the same set; 0 for none
	Starting    unit.ApparentPower // of that compressor
	Altitude    unit.Length
	Temperature unit.Temperature
}

// GeneratorResult is what is needed against what there is.
type GeneratorResult struct {
	Power, Capacity     unit.Power         // needed by all that runs; left of the set here
	Apparent, CapacityS unit.ApparentPower // the same in VA
	Left                unit.Ratio         // of the set's rating on this site
	Margin              unit.Ratio         // the smaller of W and VA
	Verdict             margin.Verdict
	Largest             unit.Current       // that the set gives, compressor running
	Surge               unit.ApparentPower // of the set here, for a motor's start
	// Starting the compressor while the arc burns, and before the cut. Zero
	// without a compressor.
	StartArc, StartFirst             unit.ApparentPower
	StartArcMargin, StartFirstMargin unit.Ratio
}

// ComputeGenerator tells whether an engine set carries the machine.
//
//	P = stretch·U2·I2/η    S = P/λ    needed = S + compressor    there = rated·left·(1 − headroom)
//	left = (1 − 1.3 %·(h − 1219 m)/100 m)·(1 − 0.3 %·(θ − 35 °C)), each factor at most 1
//
// Apparent powers are added as numbers, which is never too little. A motor
// starts with its locked-rotor power, once while the arc burns and once with
// the arc still out. Refused where derating leaves nothing. Source: IEC 60974-1
// (input power), TM 9-6115-673-13&P (derating), NEC table 430.7(B) (start).
func ComputeGenerator(in GeneratorInput) (GeneratorResult, error) {
	left := siteShare(in.Altitude, in.Temperature)
	if left <= 0 {
		return GeneratorResult{}, problem.New(problem.Refused, "altitude", "so high and hot, the derating leaves nothing of an engine set",
			"The rule holds for common sets at common sites; ask the set's maker.")
	}
	res := GeneratorResult{Left: left}
	share := float64(left) * (1 - float64(in.Headroom))
	ratedPower := in.RatedPower
	if ratedPower == 0 {
		ratedPower = unit.Power(usualSetFactor * float64(in.Rated))
	}
	res.CapacityS = unit.ApparentPower(float64(in.Rated) * share)
	res.Capacity = unit.Power(float64(ratedPower) * share)
	p, s := in.arc(in.Current)
	res.Power = p + unit.Power(usualSetFactor*float64(in.Running))
	res.Apparent = s + in.Running
	res.Margin = min(margin.Of(res.Capacity, res.Power), margin.Of(res.CapacityS, res.Apparent))
	res.Verdict = margin.Judge(res.Margin)
	res.Largest = in.largest(res.Capacity, res.CapacityS)
	if in.Starting > 0 {
		surge := max(in.Surge, in.Rated) // 0 where the plate gives none
		res.Surge = unit.ApparentPower(float64(surge) * float64(left))
		res.StartArc, res.StartFirst = s+in.Starting, max(in.Starting, s+in.Running)
		res.StartArcMargin, res.StartFirstMargin = margin.Of(res.Surge, res.StartArc), margin.Of(res.Surge, res.StartFirst)
	}
	return res, nil
}

// arc is what the machine draws at that current, arc stretched.
func (in GeneratorInput) arc(i unit.Current) (unit.Power, unit.ApparentPower) {
	volts := in.Volts
	if volts == 0 {
		volts = LoadVolts(i)
	}
	p, s := in.Machine.Draw(volts, i)
	return unit.Power(float64(p) * float64(in.Stretch)), unit.ApparentPower(float64(s) * float64(in.Stretch))
}

// largest inverts arc within both ratings, the compressor running.
func (in GeneratorInput) largest(p unit.Power, s unit.ApparentPower) unit.Current {
	byPower := float64(p) - usualSetFactor*float64(in.Running)
	byApparent := (float64(s) - float64(in.Running)) * float64(in.Machine.PowerFactor)
	return arcCurrent(unit.Power(min(byPower, byApparent)*float64(in.Machine.Efficiency)/float64(in.Stretch)), in.Volts)
}

// siteShare is what is left of a set's rating at an altitude and temperature.
func siteShare(altitude unit.Length, t unit.Temperature) unit.Ratio {
	thin := 1 - deratePer100m*max(0, float64(altitude-derateFrom))/100
	hot := 1 - deratePerDeg*max(0, t.Celsius()-derateHeat)
	return unit.Ratio(max(0, thin) * max(0, hot))
}
