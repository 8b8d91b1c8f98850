package unit

import "math"

// Angle is a plane angle in radians.
type Angle float64

// Degree is π/180 rad.
const Degree Angle = math.Pi / 180

// Quantity says that an Angle is an angle.
func (Angle) Quantity() *Quantity { return angle }

var angle = &Quantity{
	Name: "angle", SI: "rad",
	Units:  []Unit{{Name: "°", Size: float64(Degree), Also: []string{"deg", "degree", "degrees"}, Grains: []Grain{{0, 1}}}, {Name: "rad", Size: 1}},
	Metric: []Show{{0, "°"}},
	US:     []Show{{0, "°"}},
}

// Ratio is a pure number; it may be written and is printed as a percentage.
type Ratio float64

// Percent is one hundredth.
const Percent Ratio = 0.01

// Quantity says that a Ratio is a ratio.
func (Ratio) Quantity() *Quantity { return ratio }

var ratio = &Quantity{
	Name: "ratio", SI: "1",
	Units:  []Unit{{Name: "%", Size: 0.01, Also: []string{"percent"}, Grains: whole}, {Name: "×", Size: 1, Also: []string{"x", "times"}}},
	Metric: []Show{{0, "%"}},
	US:     []Show{{0, "%"}},
}

// Level is a sound level in decibels, A-weighted where its field says so.
type Level float64

// Decibel is the unit of level.
const Decibel Level = 1

// Quantity says that a Level is a sound level.
func (Level) Quantity() *Quantity { return level }

var level = &Quantity{
	Name: "sound level", SI: "dB",
	Units:  []Unit{{Name: "dB", Size: 1, Also: []string{"dBA", "dB(A)"}, Grains: whole}},
	Metric: []Show{{0, "dB"}},
	US:     []Show{{0, "dB"}},
}

// sums are the steps of money: no cents on a forecast.
var sums = []Grain{{10, 1}, {100, 5}, {1000, 50}, {10000, 500}}

// Money is an amount in whatever currency the crew reckons in; it has no sign.
type Money float64

// Quantity says that a Money is money.
func (Money) Quantity() *Quantity { return money }

var money = &Quantity{
	Name: "money", SI: "money",
	Units:  []Unit{{Name: "money", Size: 1, Also: []string{"$", "€", "£"}, Grains: sums}},
	Metric: []Show{{0, "money"}},
	US:     []Show{{0, "money"}},
}

// MoneyRate is money per time, per second inside.
type MoneyRate float64

// Quantity says that a MoneyRate is a rate of pay.
func (MoneyRate) Quantity() *Quantity { return moneyRate }

var moneyRate = &Quantity{
	Name: "rate of pay", SI: "money/s",
	Units:  []Unit{{Name: "per h", Size: 1.0 / 3600, Also: []string{"/h", "/hr", "per hour"}, Grains: sums}, {Name: "money/s", Size: 1}},
	Metric: []Show{{0, "per h"}},
	US:     []Show{{0, "per h"}},
}

// MoneyPerLength is cost per length of cut, per metre inside.
type MoneyPerLength float64

// Quantity says that a MoneyPerLength is a cost per length.
func (MoneyPerLength) Quantity() *Quantity { return moneyPerLength }

var moneyPerLength = &Quantity{
	Name: "cost per length", SI: "money/m",
	Units:  []Unit{{Name: "per m", Size: 1, Also: []string{"/m"}}, {Name: "per ft", Size: 1 / 0.3048, Also: []string{"/ft"}}},
	Metric: []Show{{0, "per m"}},
	US:     []Show{{0, "per ft"}},
}
