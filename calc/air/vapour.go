package air

import (
	"math"

	"kerfside/calc/unit"
)

// Temperatures between which saturation is reckoned: the coldest winter that
// anybody cuts in, with room for dry air's dew point, and the hot head of a
// compressor.
const (
	coldest = 173.15 // K, −100 °C
	hottest = 473.15 // K, 200 °C
)

// triple is the triple point of water in kelvins: over ice below it, over
// water above.
const triple = 273.16

// Saturation returns the vapour pressure of saturated air, over water from
// 0.01 °C up and over ice below. It grows with temperature throughout. The
// caller keeps t within −100 … 200 °C.
//
// Source over water: IAPWS-IF97 region 4, equation 30, good to 0.03 %; over
// ice: IAPWS R14-08, equation 6, down to −100 °C in its good range. That
// pressed air holds a little more than pure vapour (0.4 % at 1 bar, about 3 %
// at 8 bar) is left out, as handbook tables do.
func Saturation(t unit.Temperature) unit.Pressure {
	if t < triple {
		return unit.Pressure(overIce(float64(t)))
	}
	return unit.Pressure(overWater(float64(t)))
}

// overWater is IF97's backward-quadratic form, in Pa.
func overWater(t float64) float64 {
	theta := t - 0.23855557567849/(t-0.65017534844798e3)
	a := theta*theta + 0.11670521452767e4*theta - 0.72421316703206e6
	b := -0.17073846940092e2*theta*theta + 0.12020824702470e5*theta - 0.32325550322333e7
	c := 0.14915108613530e2*theta*theta - 0.48232657361591e4*theta + 0.40511340542057e6
	x := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return 1e6 * x * x * x * x
}

// overIce is the sublimation pressure, in Pa.
func overIce(t float64) float64 {
	theta := t / triple
	sum := -0.212144006e2*math.Pow(theta, 0.333333333e-2) + 0.273203819e2*math.Pow(theta, 0.120666667e1) - 0.610598130e1*math.Pow(theta, 0.170333333e1)
	return 611.657 * math.Exp(sum/theta)
}

// DewPoint returns the temperature at which air with that vapour pressure is
// saturated; the frost point below 0 °C. It is the inverse of Saturation,
// within −100 … 200 °C, whose ends stand for anything drier or wetter.
func DewPoint(vapour unit.Pressure) unit.Temperature {
	return unit.Temperature(bisect(coldest, hottest, func(t float64) bool { return Saturation(unit.Temperature(t)) <= vapour }))
}

// molecules is the ratio of the molar masses of water and dry air.
const molecules = 0.621945

// HumidityRatio returns the mass of vapour per mass of dry air.
//
//	W = 0.621945·e/(p − e)     ASHRAE Handbook 2017, chapter 1
//
// p is the absolute pressure of the moist air, e < p its vapour's.
func HumidityRatio(vapour, p unit.Pressure) unit.Ratio {
	return molecules * unit.Ratio(vapour/(p-vapour))
}

// VapourPressure is the inverse of HumidityRatio.
func VapourPressure(w unit.Ratio, p unit.Pressure) unit.Pressure {
	return p * unit.Pressure(w/(molecules+w))
}
