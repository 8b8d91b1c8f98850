package money

import (
	"kerfside/calc/cutting"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// JobInput is a job: the cut, the people, the parts and the power.
type JobInput struct {
	Length  unit.Length   // of all cuts; 0 if only ArcTime is known
	Speed   unit.Speed    // travel speed; 0 if ArcTime is given
	ArcTime unit.Duration // 0 to take Length / Speed

	Labour   unit.MoneyRate // of one person
	Overhead unit.MoneyRate // van, insurance, office; 0 for none
	Factor   unit.Ratio     // operating factor: arc time / paid time at the cut, > 0
	Other    unit.Duration  // paid time beside: driving, setting up, quoting

	Watch     unit.Duration  // fire watch
	WatchRate unit.MoneyRate // of who watches
	SetPrice  unit.Money     // of a tip with an electrode
	SetLife   unit.Duration  // arc time that a set lasts; 0 for no parts
	Material  unit.Money     // anything else bought for the job

	Current    unit.Current // 0 for no power
	Volts      unit.Voltage // of the arc; 0 for the rating line
	Efficiency unit.Ratio   // of the machine, > 0
	Compressor unit.Power   // taken from the same supply; 0 if none
	AirShare   unit.Ratio   // compressor run over arc time
	Energy     unit.Money   // price of one kWh
	Margin     unit.Ratio   // on top of cost
}

// JobResult is what the job costs.
type JobResult struct {
	Arc, AtCut, Paid                                   unit.Duration // paid is at the cut and beside it
	Labour, Overhead, Watch, Parts, Power, Air, Bought unit.Money
	Total, Price                                       unit.Money
	CutPerLength                                       unit.MoneyPerLength // without driving, watch and material; 0 without a length
	PerLength                                          unit.MoneyPerLength // all of it; 0 without a length
	Sets                                               unit.Ratio          // parts used, in sets
	Energy, AirEnergy                                  unit.Energy
	Volts                                              unit.Voltage
}

// ComputeJob adds a job up.
//
//	arc = length / speed                      at the cut = arc / factor
//	labour = rate · (at the cut + beside)     overhead likewise
//	watch = watch time · watch rate
//	parts = price of a set · arc / life of a set
//	power = U·I·arc/η · price                 air = compressor · share · arc · price
//	cost per length = [(labour + overhead at the cut) + parts + power + air] / length
//	price = total · (1 + margin)
//
// The form of the cost per length is that of NAVEDTRA 14251A chapter 5, labour
// and overhead over speed × operating factor. The operating factor of a hand
// torch stands in no source: 30 % is stick welding's; the default of 10 % is
// from memory.
func ComputeJob(in JobInput) (JobResult, error) {
	if in.ArcTime == 0 && (in.Length == 0 || in.Speed == 0) {
		field, msg := "length", "there is nothing to reckon with yet"
		if in.Length > 0 {
			field, msg = "speed", "the cut has a length but no speed"
		}
		return JobResult{}, problem.New(problem.Missing, field, msg, "Enter the length of all cuts and the travel speed, or the arc time.")
	}
	if in.ArcTime > 0 && in.Speed > 0 {
		return JobResult{}, problem.New(problem.Conflict, "arc_time", "an arc time and a speed are two ways to say the same", "Enter one of them and leave the other empty.")
	}
	if in.Factor <= 0 || in.Factor > 1 || in.Efficiency <= 0 || in.Efficiency > 1 {
		return JobResult{}, problem.New(problem.Range, "factor", "an operating factor or efficiency lies above 0 and at most at 100 %", "30 % is stick welding's operating factor.")
	}
	res := JobResult{Arc: in.ArcTime, Volts: in.Volts}
	if res.Arc == 0 {
		res.Arc = unit.Duration(float64(in.Length) / float64(in.Speed))
	}
	res.AtCut = res.Arc / unit.Duration(in.Factor)
	res.Paid = res.AtCut + in.Other
	res.Labour, res.Overhead = paid(in.Labour, res.Paid), paid(in.Overhead, res.Paid)
	res.Watch = paid(in.WatchRate, in.Watch)
	if in.SetLife > 0 {
		res.Sets = unit.Ratio(res.Arc / in.SetLife)
		res.Parts = in.SetPrice * unit.Money(res.Sets)
	}
	if in.Current > 0 {
		if res.Volts == 0 {
			res.Volts = cutting.RatedVolts(in.Current)
		}
		res.Energy = unit.Energy(float64(res.Volts) * float64(in.Current) * float64(res.Arc) / float64(in.Efficiency))
	}
	res.AirEnergy = unit.Energy(float64(in.Compressor) * float64(in.AirShare) * float64(res.Arc))
	res.Power = in.Energy * unit.Money(res.Energy/unit.KilowattHour)
	res.Air = in.Energy * unit.Money(res.AirEnergy/unit.KilowattHour)
	res.Bought = in.Material
	res.Total = res.Labour + res.Overhead + res.Watch + res.Parts + res.Power + res.Air + res.Bought
	res.Price = res.Total * unit.Money(1+in.Margin)
	if in.Length > 0 {
		cut := paid(in.Labour+in.Overhead, res.AtCut) + res.Parts + res.Power + res.Air
		res.CutPerLength = unit.MoneyPerLength(float64(cut) / float64(in.Length))
		res.PerLength = unit.MoneyPerLength(float64(res.Total) / float64(in.Length))
	}
	return res, nil
}

func paid(rate unit.MoneyRate, time unit.Duration) unit.Money {
	return unit.Money(float64(rate) * float64(time))
}
