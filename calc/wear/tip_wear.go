package wear

import (
	"math"

	"kerfside/calc/cutting"
	"kerfside/calc/life"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// TipInput is a tip's bore, new and as it reads now.
type TipInput struct {
	New               unit.Length
	Largest, Smallest unit.Length // 0 for the one that was not read; a pin reads the smallest
	Error             unit.Length // give or take, where the gauge told it; 0 for a pin or a magnifier
	Nick              bool        // nick or keyhole in the edge

	GrowthLimit, OvalLimit unit.Ratio
	Current                unit.Current
	Volts                  unit.Voltage   // 0 for the rating line
	Metal                  material.Metal // to weigh what the tip still cuts
	Thickness              unit.Length    // 0 if none is planned
	Speed                  unit.Speed     // severing speed at which capacity is compared

	Minutes   unit.Duration // arc time on the tip; 0 if not known
	Starts    float64       // on it; 0 if not counted
	Readings  []Reading     // of this rig's tips, this one aside: what each had grown by
	Job       life.Use      // what is asked of it still; nothing if not known
	Sure      unit.Ratio    // how surely the range of a forecast holds
	Electrode unit.Ratio    // how much of the electrode's pit is used; 0 if not known
}

// TipResult is the verdict on a tip.
type TipResult struct {
	Judged
	Growth                 unit.Ratio // largest reading / new − 1
	Oval                   unit.Ratio // (largest − smallest) / new; only with both
	Both                   bool       // both were read
	Density, DensityNew    unit.CurrentDensity
	Air                    unit.Ratio // tip flow / new − 1
	Kerf, KerfNew          unit.Length
	Capacity               unit.Ratio  // thickness it severs at Speed / a new tip's
	Severs, SeversNew      unit.Length // at Speed
	SpeedLeft              unit.Ratio  // severing speed through Thickness / a new tip's
	SpeedNow, SpeedWithNew unit.Speed  // 0 past what the bore severs, as cut-plan has it
	LimitsNew              cutting.LimitBand
	ChangeBoth             bool
	Wear                   *WearFit // of the growth; nil without readings
	Outlook
}

// ComputeTip judges the bore.
//
//	growth = d_largest/d_new − 1          ovality = (d_largest − d_smallest)/d_new
//	j = 4·I/(π·d²)                        air = (d/d_new)² − 1, the tip's choked flow
//
// with d² = d_largest·d_smallest, an oval's, for current density and air. What
// the tip still cuts comes from the energy balance of the kerf (package
// cutting, Balance): the source holds the current, so a wider bore spreads the
// same power over a wider kerf; the largest reading counts. Change at the
// growth limit, past the ovality limit, or with any nick (common practice);
// where the reading's doubt reaches over a limit, nobody can tell.
//
// Growth has two parts as a pit has (see ComputeElectrode), learnt from what the
// crew's tips had grown by after so many starts and minutes; nobody has published
// a law for it. With this tip's reading alone the bore goes on growing as it did,
// between what the reading's doubt allows. While nothing tells, the range is a guess
// from what is taken for granted of tips.
//
// A reading more than 3 % under new is refused (CheckReading), and so is a
// smallest above the largest.
func ComputeTip(in TipInput) (TipResult, error) {
	res, err := in.judgeBore()
	if err != nil {
		return TipResult{}, err
	}
	largest, smallest := in.ends()
	in.compare(&res, largest, smallest)
	if !in.Nick {
		in.forecast(&res)
	}
	tipPast, electrodePast := res.Verdict == tipChange, in.Electrode >= 1
	res.ChangeBoth = tipPast && in.Electrode > 0.5 || electrodePast && (tipPast || res.Used > 0.5)
	return res, nil
}

// usualGrowth is the growth at which the lives end that are taken for granted. Common practice.
const usualGrowth = 0.15

// forecast tells how the bore goes on growing.
func (in TipInput) forecast(res *TipResult) {
	so := life.Use{Minutes: float64(in.Minutes / unit.Minute), Starts: in.Starts}
	growth := in.between(res.Growth)
	a := ahead{limit: float64(in.GrowthLimit), now: float64(res.Growth), read: true, so: so, job: in.Job, confidence: in.Sure, slot: "tip", usual: usualGrowth}
	if so.Starts == 0 && so.Minutes > 0 && len(in.Readings) == 0 {
		a.job.Starts = 0 // how many of the minutes so far were starts nobody counted
	}
	readings := in.Readings
	if so != (life.Use{}) && (len(readings) > 0 || growth.low > 0) {
		a.own = true
		readings = append(readings[:len(readings):len(readings)], Reading{Starts: so.Starts, Minutes: so.Minutes, Depth: a.now})
	}
	if len(readings) > 0 {
		res.Wear = learn(readings)
	}
	res.Outlook = a.outlook(res.Wear)
	if len(in.Readings) > 0 || !res.Forecast || res.Guessed {
		return
	}
	left := func(growth unit.Ratio) float64 { return max(so.Minutes*float64(in.GrowthLimit/growth-1), 0) }
	res.ByReading, res.MinutesLow, res.MinutesHigh = true, left(growth.high), left(growth.low)
	if in.Job.Minutes > 0 {
		switch {
		case in.Job.Minutes > res.MinutesHigh:
			res.JobVerdict = jobFails
		case in.Job.Minutes > res.MinutesLow:
			res.JobVerdict = jobDoubtful
		}
	}
}

// judgeBore holds the readings against the tip when new, and its limits.
func (in TipInput) judgeBore() (TipResult, error) {
	largest, smallest := in.Largest, in.Smallest
	if largest == 0 && smallest == 0 && !in.Nick {
		return TipResult{}, problem.New(problem.Missing, "smallest", "there is nothing to judge yet", "Read the bore: a gauge pin gives the smallest diameter, a magnifier or the photo gauge both.")
	}
	res := TipResult{Both: largest > 0 && smallest > 0}
	for _, reading := range []struct {
		field string
		d     unit.Length
	}{{"largest", largest}, {"smallest", smallest}} {
		if reading.d == 0 {
			continue
		}
		if err := CheckReading(in.New, reading.d); err != nil {
			return TipResult{}, problem.From(err).WithField(reading.field)
		}
	}
	if res.Both && smallest > largest {
		return TipResult{}, problem.New(problem.Conflict, "smallest", "the smallest diameter is above the largest", "Swap them, or read them again.")
	}
	largest, smallest = in.ends()
	res.Growth = unit.Ratio(largest/in.New - 1)
	if res.Both {
		res.Oval = unit.Ratio((largest - smallest) / in.New)
	}
	res.Judged = in.judge(res, in.between(res.Growth))
	return res, nil
}

// ends are the widest and the narrowest way across; what was not read is as the
// other, and with only a nick as new.
func (in TipInput) ends() (largest, smallest unit.Length) {
	largest, smallest = in.Largest, in.Smallest
	if largest == 0 {
		largest = smallest
	}
	if smallest == 0 {
		smallest = largest
	}
	if largest == 0 {
		largest, smallest = in.New, in.New
	}
	return largest, smallest
}

// between is where a share of the new bore lies that was read. A pin that goes
// in proves the bore to be as wide as that, and may leave it short of the next
// by a gauge's error; the photo gauge tells its own.
func (in TipInput) between(read unit.Ratio) interval {
	off := unit.Ratio(in.Error / in.New)
	if off == 0 {
		return interval{is: read, low: read, high: read + underNew}
	}
	return interval{is: read, low: read - off, high: read + off}
}

// judge is TipLimits.judge, and a nick before all.
func (in TipInput) judge(res TipResult, growth interval) Judged {
	oval := interval{}
	if res.Both {
		oval = in.between(res.Oval)
	}
	j := TipLimits{in.GrowthLimit, in.OvalLimit}.judge(growth, oval)
	switch {
	case in.Nick:
		j.Verdict, j.Why = tipChange, "the edge is nicked"
	case !res.Both && j.Verdict != tipChange && j.Verdict != tipUnknown:
		j.Why += ", as far as one diameter tells"
	}
	return j
}

// compare sets the worn tip against a new one at the same current.
func (in TipInput) compare(res *TipResult, largest, smallest unit.Length) {
	volts := in.Volts
	if volts == 0 {
		volts = cutting.RatedVolts(in.Current)
	}
	square := float64(largest) * float64(smallest)
	density := func(d2 float64) unit.CurrentDensity {
		return unit.CurrentDensity(4 * float64(in.Current) / (math.Pi * d2))
	}
	res.Density, res.DensityNew = density(square), density(float64(in.New)*float64(in.New))
	res.Air = unit.Ratio(square/(float64(in.New)*float64(in.New)) - 1)
	res.Kerf, res.KerfNew = cutting.KerfWidth(largest), cutting.KerfWidth(in.New)
	balance := cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1}
	worn, fresh := cutting.Arc{Current: in.Current, Volts: volts, Orifice: largest}, cutting.Arc{Current: in.Current, Volts: volts, Orifice: in.New}
	res.Severs, res.SeversNew = balance.Depth(in.Metal, "", worn, in.Speed), balance.Depth(in.Metal, "", fresh, in.Speed)
	res.Capacity = unit.Ratio(res.Severs / res.SeversNew)
	if in.Thickness > 0 {
		res.LimitsNew = cutting.TipLimits(in.Metal, cutting.Tip{Rated: in.Current, Orifice: in.New}, in.Volts)
		res.SpeedNow, res.SpeedWithNew = balance.Sever(in.Metal, "", worn, in.Thickness), balance.Sever(in.Metal, "", fresh, in.Thickness)
		if in.Thickness > cutting.TipLimits(in.Metal, cutting.Tip{Rated: in.Current, Orifice: largest}, in.Volts).About.Sever {
			res.SpeedNow = 0 // cut-plan refuses it
		}
		if in.Thickness > res.LimitsNew.About.Sever {
			res.SpeedWithNew = 0
		}
		if res.SpeedWithNew > 0 {
			res.SpeedLeft = unit.Ratio(res.SpeedNow / res.SpeedWithNew)
		}
	}
}
