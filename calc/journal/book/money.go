package book

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// prices is the thing that the crew's prices are about: they are no phone's own.
const prices = "prices"

// mostMoney bounds an amount, in hundredths, so that a slip cannot make sums overflow.
const mostMoney = 1_000_000_000_000

// setting is a text that the crew set about its prices, "" if there is none.
func (b *book) setting(key string) string {
	return textOf(b.fold.Settings().Devices[prices].Fields[key])
}

// money prints hundredths of the crew's currency.
func (b *book) money(hundredths int64) string {
	return inCurrency(b.setting("currency"), hundredths)
}

// inCurrency prints an amount: a sign such as € stands before it, letters behind it.
func inCurrency(currency string, hundredths int64) string {
	sign := ""
	if hundredths < 0 {
		sign, hundredths = "−", -hundredths
	}
	amount := fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
	switch letters := []rune(currency); {
	case len(letters) == 0:
		return sign + amount
	case unicode.IsLetter(letters[0]):
		return sign + amount + "\u00a0" + currency
	}
	return sign + currency + amount
}

// hundredthsOf reads an amount as a person types it, in whatever currency; what is finer
// than a hundredth goes half up.
func hundredthsOf(field, text string) (int64, error) {
	number := strings.TrimFunc(text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsSpace(r) || unicode.Is(unicode.Sc, r) })
	v, err := unit.ReadNumber(number)
	if err != nil {
		p := problem.From(err)
		p.Field = field
		return 0, p
	}
	if v < 0 || v*100 > mostMoney {
		return 0, problem.Newf(problem.Range, field, "%s is no price", text).WithHint("Enter an amount of 0 or more.")
	}
	return halfUp(v * 100), nil
}

// halfUp rounds to whole hundredths, half of one up. What a float is short of that half by
// no more than its own error counts as half: 1.005 is 1.01.
func halfUp(hundredths float64) int64 {
	return int64(math.Floor(hundredths + 0.5 + 1e-7))
}

// million is a whole as parts per million, in which rates of tax are kept.
const million = 1_000_000

// taxOn is the tax on a price at so many parts per million, in whole hundredths, half of
// one up: in whole numbers, so that price and tax add up to the sum that is asked.
func taxOn(price, rate int64) int64 {
	return (price*rate + million/2) / million
}

// rateOf reads a rate of tax: 20% or 20. The empty text is none.
func rateOf(field, text string) (int64, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	rate, err := unit.Parse[unit.Ratio](text, "%")
	if err != nil {
		p := problem.From(err)
		p.Field = field
		return 0, p
	}
	if rate < 0 || rate > 1 {
		return 0, problem.Newf(problem.Range, field, "%s is no rate of tax", text).WithHint("Enter 0 to 100 %%.")
	}
	return int64(math.Round(float64(rate) * million)), nil
}

// sayRate prints a rate of tax: 20 %, 8.875 %.
func sayRate(rate int64) string {
	text := fmt.Sprintf("%d.%04d", rate/10_000, rate%10_000)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".") + "\u00a0%"
}
