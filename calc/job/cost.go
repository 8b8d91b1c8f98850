package job

import (
	"kerfside/calc/money"
	"kerfside/calc/unit"
)

// price adds the job up as job-cost does: the operating factor is what the plan makes
// of it, parts are those that the job uses up on average, and energy is that of each row
// at its own current.
func (in Input) price(res *Result, stints []stint) error {
	var arc, charge, energy float64 // s, A·s, J
	for _, s := range stints {
		t := float64(res.Rows[s.index].Arc.About)
		arc, charge, energy = arc+t, charge+t*float64(s.plan.Arc.Current), energy+t*float64(s.plan.Arc.Power())
		res.Length += s.cut.Length * unit.Length(s.cut.Count)
	}
	in.Prices.Current, in.Prices.Volts = unit.Current(charge/arc), unit.Voltage(energy/charge)
	in.Prices.AirShare = unit.Ratio(float64(res.Plan.Ran) / arc)
	in.Prices.Watch, in.Prices.Length = in.Times.Watch, res.Length
	cost := func(arc, work unit.Duration) (total, price unit.Money, err error) {
		p := in.Prices
		p.ArcTime, p.Factor = arc, unit.Ratio(min(1, arc/max(work, arc)))
		if used := max(res.Need.Tips, res.Need.Electrodes); res.Worn && p.SetPrice > 0 && used > 0 {
			p.SetLife = res.Arc.About / unit.Duration(used)
		}
		res.Cost, err = money.ComputeJob(p)
		return res.Cost.Total, res.Cost.Price, err
	}
	for _, at := range []struct {
		arc, work    unit.Duration
		total, price *unit.Money
	}{
		{arc: res.Arc.Low, work: res.Work.Low, total: &res.Total.Low, price: &res.Price.Low}, {arc: res.Arc.High, work: res.Work.High, total: &res.Total.High, price: &res.Price.High},
		{arc: res.Arc.About, work: res.Work.About, total: &res.Total.About, price: &res.Price.About}, // the last stays in Cost
	} {
		var err error
		if *at.total, *at.price, err = cost(at.arc, at.work); err != nil {
			return err
		}
	}
	res.Fuel = Band[unit.Volume]{Low: burnt(in.Fuel, res.Work.Low), About: burnt(in.Fuel, res.Work.About), High: burnt(in.Fuel, res.Work.High)}
	return nil
}

func burnt(rate unit.Flow, t unit.Duration) unit.Volume {
	return unit.Volume(float64(rate) * float64(t))
}
