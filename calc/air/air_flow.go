package air

import (
	"kerfside/calc/problem"
	"kerfside/calc/unit"
	"kerfside/calc/wear"
)

// FlowInput is what the torch is said to need, how it is used, and its tip.
type FlowInput struct {
	Plate     unit.Flow // free air while the valve is open; 0 if not known
	Reference Reference
	Arc       unit.Duration // arc time of one cut; 0 if not asked
	Pause     unit.Duration // from arc out to the next arc; goes with Arc
	AfterFlow unit.Duration // that the valve stays open after the arc

	Orifice     unit.Length // of a new tip; 0 if not asked
	Measured    unit.Length // of the tip in the torch; 0 if not measured
	TipPressure unit.Pressure
	Discharge   unit.Ratio // coefficient of discharge
	Temperature unit.Temperature
	Altitude    unit.Length
}

// FlowResult is the need for air.
type FlowResult struct {
	Open      unit.Duration // valve open in one cycle
	Share     unit.Ratio    // of the time that the valve is open
	Average   unit.Flow     // Plate × Share
	PerCut    unit.Volume   // free air for one cut
	TipFlow   unit.Flow     // through a new tip, cold
	TipShare  unit.Ratio    // of Plate
	WornFlow  unit.Flow     // through the measured tip, cold
	Growth    unit.Ratio    // WornFlow/TipFlow − 1
	WornPlate unit.Flow     // Plate + WornFlow − TipFlow
}

// RoundedEntrance is the coefficient of discharge of a hole that the air enters
// over a rounded edge, as a tip's. Source: orifice-table.
const RoundedEntrance unit.Ratio = 0.97

// ComputeFlow returns how much free air a torch takes.
//
//	open = arc + min(after-flow, pause)     share = open / (arc + pause)     average = plate × share
//	tip flow by OrificeFlow                 growth = (measured/new)² − 1
//
// The plate's figure is the demand: most of the air cools the torch through the
// holes of the shield cup and never sees the orifice. The tip's flow is that of
// cold air, as when the valve opens before the arc; the arc's heat chokes it to
// a small part of that. Without arc and pause the valve counts as always open.
// Source: definitions; OrificeFlow.
func ComputeFlow(in FlowInput) (FlowResult, error) {
	if in.Plate <= 0 && in.Orifice <= 0 {
		return FlowResult{}, problem.New(problem.Missing, "plate", "there is nothing to reckon with yet",
			"Enter the air need from the machine's plate, or the tip's orifice with its pressure.")
	}
	if (in.Arc > 0) != (in.Pause > 0) {
		field, msg := "pause", "there is an arc time but no pause"
		if in.Pause > 0 {
			field, msg = "arc", "there is a pause but no arc time"
		}
		return FlowResult{}, problem.New(problem.Missing, field, msg, "Enter both, or neither for a valve that is always open.")
	}
	if in.Orifice > 0 && in.TipPressure <= 0 {
		return FlowResult{}, problem.New(problem.Missing, "tip_pressure", "the orifice has no pressure before it", "Enter the torch's pressure while air flows.")
	}
	if in.Measured > 0 && in.Orifice <= 0 {
		return FlowResult{}, problem.New(problem.Missing, "orifice", "a worn tip was measured, but not the new one", "Enter the orifice of a new tip of that rating.")
	}
	if in.Measured > 0 {
		if err := wear.CheckReading(in.Orifice, in.Measured); err != nil {
			return FlowResult{}, problem.From(err).WithField("measured")
		}
	}
	res := FlowResult{Share: 1}
	if in.Arc > 0 {
		res.Open = in.Arc + min(in.AfterFlow, in.Pause)
		res.Share = unit.Ratio(res.Open / (in.Arc + in.Pause))
		res.PerCut = unit.Volume(float64(in.Plate) * float64(res.Open))
	}
	res.Average = in.Plate * unit.Flow(res.Share)
	if in.Orifice > 0 {
		in.tip(&res)
	}
	return res, nil
}

// tip fills in the flows through the orifice.
func (in FlowInput) tip(res *FlowResult) {
	res.TipFlow = in.through(in.Orifice)
	if in.Plate > 0 {
		res.TipShare = unit.Ratio(res.TipFlow / in.Plate)
	}
	if in.Measured > 0 {
		res.WornFlow = in.through(in.Measured)
		res.Growth = unit.Ratio(res.WornFlow/res.TipFlow - 1)
		res.WornPlate = in.WornNeed()
	}
}

// through is the free air that passes a hole of that width, cold.
func (in FlowInput) through(hole unit.Length) unit.Flow {
	pa := AirPressure(in.Altitude)
	return in.Reference.Volume(OrificeFlow(hole, in.Discharge, in.TipPressure+pa, pa, in.Temperature))
}

// WornNeed returns the free air that the torch takes while the valve is open
// with the tip as it was measured:
//
//	plate + flow(measured) − flow(new)
//
// The plate's figure holds for a new tip, and only what passes the orifice
// grows with it, as the square of the bore; what cools the torch through the
// cup's holes stays. It wants Plate, Orifice, Measured, TipPressure, Discharge,
// Temperature and Reference; without one of the first four it is Plate.
// Source: OrificeFlow.
func (in FlowInput) WornNeed() unit.Flow {
	if in.Plate <= 0 || in.Orifice <= 0 || in.Measured <= 0 || in.TipPressure <= 0 {
		return in.Plate
	}
	return in.Plate + in.through(in.Measured) - in.through(in.Orifice)
}
