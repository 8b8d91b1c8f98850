package air

import (
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// TankInput is a compressor with its tank, and what the torch takes from it.
type TankInput struct {
	Free        unit.Flow // free air delivered by the plate, at sea level; 0 for a tank alone
	Reference   Reference // what Free and Demand are counted in
	Duty        unit.Ratio
	Volume      unit.Volume
	CutIn       unit.Pressure // gauge
	CutOut      unit.Pressure // gauge
	Demand      unit.Flow     // while the valve is open
	Share       unit.Ratio    // of the time that the valve is open
	Needed      unit.Pressure // gauge, least in the tank that serves the torch
	Running     bool          // the compressor runs when the cut begins
	Spell       unit.Duration // longest spell of open valve that is wanted; 0 if not asked
	Altitude    unit.Length
	Temperature unit.Temperature // of the air around, and in the tank
}

// TankResult tells whether the compressor keeps up, and if not, how to live
// with it.
type TankResult struct {
	Derating   unit.Ratio // of the plate's figure on this site
	Delivery   unit.Flow  // free air while it runs, on this site
	Sustained  unit.Flow  // Delivery × Duty
	Average    unit.Flow  // Demand × Share
	Margin     unit.Ratio // Sustained/Average − 1
	Verdict    margin.Verdict
	PumpUp     unit.Duration // from cut-in to cut-out, nothing drawn; 0 without compressor
	Fill       unit.Duration // from empty to cut-out; 0 without compressor
	Holds      bool          // the pressure never falls under Needed
	RunTime    unit.Duration // until it does, from cut-out with the valve open; 0 if it holds
	Forever    bool          // the valve may stay open for good
	Rhythm     Rhythm        // otherwise; zero without compressor
	MostShare  unit.Ratio    // largest share of open valve that can be kept up
	FreeNeeded unit.Flow     // plate figure that would keep up, at Share and Duty
	TankNeeded unit.Volume   // that serves Spell; 0 if not asked or not needed
}

// ComputeTank tells whether a compressor and its tank keep up with a torch.
//
//	delivery = plate × p/p0 × 293.15/T       p of ISO 2533 at the altitude, p0 = 101.325 kPa
//	kept up     delivery × duty ≥ demand × share
//	run time    V·(cut-out − cut-in)/(p_ref·q)·T_ref/T while the compressor rests, then
//	            V·(cut-in − needed)/(p_ref·(q − delivery))·T_ref/T
//
// with q the demand as free air in the reference state. A piston fills its
// cylinder with the air that is there, so that the mass delivered falls with
// the pressure outside; that it also loses a little by compressing further is
// not counted. Constant temperature; flow constant while the valve is open.
// Source: ISO 2533, receiver sizing in compressed-air handbooks.
func ComputeTank(in TankInput) (TankResult, error) {
	if err := in.check(); err != nil {
		return TankResult{}, err
	}
	site := in.Compressor()
	draw := in.Reference.Mass(in.Demand)
	tank := Receiver{in.Volume, in.Temperature}
	sustained := site.Delivery * unit.MassFlow(in.Duty)
	res := TankResult{
		Derating:  derating(in.Altitude, in.Temperature),
		Delivery:  in.Reference.Volume(site.Delivery),
		Sustained: in.Reference.Volume(sustained),
		Average:   in.Demand * unit.Flow(in.Share),
		MostShare: min(unit.Ratio(sustained/draw), 1),
	}
	res.Margin = margin.Of(res.Sustained, res.Average)
	res.Verdict = margin.Judge(res.Margin)
	res.FreeNeeded = res.Average / unit.Flow(in.Duty*res.Derating)
	if site.Delivery > 0 {
		res.PumpUp = tank.Time(in.CutOut-in.CutIn, site.Delivery)
		res.Fill = tank.Time(in.CutOut, site.Delivery)
		res.Rhythm, res.Forever = site.Rhythm(tank, draw, in.Needed)
	}
	var ends bool
	res.RunTime, ends = site.RunTime(tank, draw, in.Needed, in.Running)
	res.Holds = !ends
	if ends && in.Spell > 0 {
		res.TankNeeded = in.Volume * unit.Volume(in.Spell/res.RunTime) // the run time grows as the volume
	}
	return res, nil
}

// Compressor returns the compressor as it works on the site.
func (in TankInput) Compressor() Compressor {
	return Compressor{
		Delivery: in.Reference.Mass(in.Free) * unit.MassFlow(derating(in.Altitude, in.Temperature)),
		Duty:     in.Duty, CutIn: in.CutIn, CutOut: in.CutOut,
	}
}

// derating is what is left of a piston compressor's mass flow on a site.
func derating(altitude unit.Length, around unit.Temperature) unit.Ratio {
	return unit.Ratio(AirPressure(altitude)/unit.Atmosphere) * unit.Ratio(unit.Celsius(20)/around)
}

func (in TankInput) check() error {
	switch {
	case in.CutIn >= in.CutOut:
		return problem.New(problem.Conflict, "cut_in", "the compressor would start at or above the pressure at which it stops",
			"Cut-in is the lower of the two pressures on the switch.")
	case in.Needed >= in.CutOut:
		return problem.New(problem.Conflict, "needed", "the torch needs as much as the full tank holds, or more",
			"Lose less in the hose, or use a compressor with a higher cut-out.")
	}
	return nil
}
