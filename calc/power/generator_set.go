package power

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// SetKeys are the keys under which a calculator asks for a generator's kVA and
// for the motor of a compressor on it. The other keys are the same everywhere.
type SetKeys struct{ Rating, Motor string }

// SetFields ask for a generator, MotorFields for the compressor on it. The
// calculators that judge a generator share them, so that none knows less than
// another.
func SetFields(k SetKeys) []form.Field {
	return []form.Field{
		{Key: k.Rating, Label: "Generator, continuous", Help: "kVA on its plate that it gives for hours, not the peak. Only kW there? Use the next field.", Takes: form.Number[unit.ApparentPower]("kVA", "kVA"), Optional: true,
			Chips: []string{"3kVA", "5kVA", "6.5kVA", "8kVA", "10kVA"}, Limits: form.Within(200*unit.ApparentPower(1), 500*unit.Kilovoltampere)},
		{Key: "rated_power", Label: "Generator, real power", Help: "Its plate: kW. Left empty: 0.8 of the kVA, common practice.", Takes: form.Number[unit.Power]("kW", "kW"), Optional: true, Fine: true,
			Limits: form.Within(200*unit.Watt, 500*unit.Kilowatt)},
		{Key: "surge", Label: "Generator, surge", Help: "Its plate: kVA for a few seconds. Left empty: the continuous figure.", Takes: form.Number[unit.ApparentPower]("kVA", "kVA"), Optional: true, Fine: true,
			Limits: form.Within(200*unit.ApparentPower(1), 1000*unit.Kilovoltampere)},
		{Key: "headroom", Label: "Part of the generator to leave unused", Help: "No published figure was found; engine sets are seldom run full.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "20%", Basis: "common-practice", Fine: true,
			Limits: form.Within(0*unit.Percent, 80*unit.Percent)},
		{Key: "stretch", Label: "Power of a stretched arc over the rated", Takes: form.Factor(), Default: "1.4", Basis: "from-memory", Fine: true, Limits: form.Limits{Min: 1, Max: 2, Set: true}},
	}
}

// MotorFields ask for the motor of a compressor on the generator; see SetFields.
func MotorFields(k SetKeys) []form.Field {
	return []form.Field{
		{Key: k.Motor, Label: "Compressor's motor, on the same generator", Help: "Shaft power on its plate. Left empty: it has a supply of its own.", Takes: form.Number[unit.Power]("kW", "hp"), Optional: true,
			Chips: []string{"1.1kW", "1.5kW", "2.2kW"}, ChipsUS: []string{"1.5hp", "2hp", "3hp"}, Limits: form.Within(50*unit.Watt, 100*unit.Kilowatt)},
		{Key: "code_letter", Label: "Code letter of that motor", Help: "On its plate. Left empty: it starts with six times what it runs on.", Takes: form.Text(), Optional: true, Fine: true, Chips: []string{"G", "H", "J", "K"}},
		{Key: "start_factor", Label: "Start of that motor over its running", Help: "Used without a code letter.", Takes: form.Factor(), Default: "6", Basis: "common-practice", Fine: true, Limits: form.Limits{Min: 1, Max: 12, Set: true}},
	}
}

// ReadSet reads the fields of SetFields and MotorFields. Rated is 0 if no generator was given.
func ReadSet(r *form.Reader, k SetKeys) GeneratorInput {
	if text := form.GetText(r, k.Rating); text != "" {
		if _, err := unit.Parse[unit.Power](text, ""); err == nil {
			r.Fail(k.Rating, problem.Newf(problem.Unit, k.Rating, "%s is real power; kVA are asked for here", text).
				WithHint("Enter it as the generator's real power (rated_power). If its plate gives no kVA, leave this one empty."))
		}
	}
	in := GeneratorInput{
		Rated: form.Get[unit.ApparentPower](r, k.Rating), RatedPower: form.Get[unit.Power](r, "rated_power"), Surge: form.Get[unit.ApparentPower](r, "surge"),
		Headroom: form.Get[unit.Ratio](r, "headroom"), Stretch: unit.Ratio(form.GetFactor(r, "stretch")),
	}
	in.Running, in.Starting = readMotor(r, k.Motor)
	switch {
	case in.Rated == 0 && in.RatedPower > 0:
		in.Rated, in.PowerAlone = unit.ApparentPower(in.RatedPower), true
	case in.Rated > 0 && in.RatedPower > unit.Power(in.Rated):
		r.Fail("rated_power", problem.Newf(problem.Conflict, "rated_power", "%s of real power are more than the %s that the set gives in all", unit.In(in.RatedPower, "kW"), unit.In(in.Rated, "kVA")).
			WithHint("kW are at most the kVA. Look at the plate again; the peak goes under surge."))
	}
	if in.Surge > 0 && in.Surge < in.Rated {
		r.Fail("surge", problem.Newf(problem.Conflict, "surge", "a surge of %s is less than the %s that the set gives for hours", unit.In(in.Surge, "kVA"), unit.In(in.Rated, "kVA")).
			WithHint("Surge is the larger of the two figures. Leave it empty if the plate has none."))
	}
	return in
}

// PowerAloneCaution stands beside a set whose plate gives kW and no kVA.
const PowerAloneCaution = "The plate gives kW alone, so as many kVA are counted. Many sets give a quarter more: look for the kVA in its book."

// usualMotor turns shaft power into apparent power where the plate says no
// more: efficiency × power factor of a small single-phase motor (common
// practice).
const usualMotor = 0.65

// readMotor reads the compressor's motor: what it runs on, and what it starts
// with by its code letter or, without one, by the factor.
func readMotor(r *form.Reader, key string) (running, starting unit.ApparentPower) {
	shaft := form.Get[unit.Power](r, key)
	letter, factor := form.GetText(r, "code_letter"), form.GetFactor(r, "start_factor")
	if shaft == 0 {
		return 0, 0
	}
	running = unit.ApparentPower(float64(shaft) / usualMotor)
	if letter == "" {
		return running, unit.ApparentPower(factor * float64(running))
	}
	starting, err := LockedRotor(letter, shaft)
	if err != nil {
		r.Fail("code_letter", err)
	}
	return running, starting
}
