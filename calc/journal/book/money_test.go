package book

import (
	"testing"

	"pgregory.net/rapid"
)

// TestMoney: signs stand before an amount, letters behind it.
func TestMoney(t *testing.T) {
	for want, c := range map[string]struct {
		currency   string
		hundredths int64
	}{
		"480.00":          {"", 48_000},
		"€480.00":         {"€", 48_000},
		"480.05\u00a0EUR": {"EUR", 48_005},
		"−$0.07":          {"$", -7},
		"0.00\u00a0Kč":    {"Kč", 0},
	} {
		if got := inCurrency(c.currency, c.hundredths); got != want {
			t.Errorf("%d of %q is %q, want %q", c.hundredths, c.currency, got, want)
		}
	}
}

// TestAmounts: an amount is read as people type it; half a hundredth goes up.
func TestAmounts(t *testing.T) {
	for text, want := range map[string]int64{"480": 48_000, "480,5": 48_050, "€ 480.25": 48_025, "480 EUR": 48_000, "1.005": 101, "1.0049": 100, "0.125": 13, "0": 0} {
		if got, err := hundredthsOf("price", text); err != nil || got != want {
			t.Errorf("%q is %d, %v; want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", "-3", "a lot", "1e30", "99999999999999"} {
		if got, err := hundredthsOf("price", text); err == nil {
			t.Errorf("%q is taken for %d", text, got)
		}
	}
}

// TestTax: worked by hand. 20 % of 480.00 is 96.00. 19 % of 0.50 is 0.095, half of a cent
// goes up: 0.10. 8.875 % of 123.45 is 10.9561875: 10.96. 20 % of 0.02 is 0.004: nothing.
func TestTax(t *testing.T) {
	for _, c := range []struct {
		price int64
		rate  string
		want  int64
		says  string
	}{
		{price: 48_000, rate: "20%", want: 9_600, says: "20\u00a0%"},
		{price: 50, rate: "19", want: 10, says: "19\u00a0%"},
		{price: 12_345, rate: "8.875 %", want: 1_096, says: "8.875\u00a0%"},
		{price: 2, rate: "20%", want: 0, says: "20\u00a0%"},
		{price: 48_000, rate: "", want: 0, says: "0\u00a0%"},
	} {
		rate, err := rateOf("tax", c.rate)
		if got := taxOn(c.price, rate); err != nil || got != c.want || sayRate(rate) != c.says {
			t.Errorf("%s of %d is %d (%s), %v; want %d (%s)", c.rate, c.price, got, sayRate(rate), err, c.want, c.says)
		}
	}
	for _, text := range []string{"-1%", "101%", "much"} {
		if got, err := rateOf("tax", text); err == nil {
			t.Errorf("%q is taken for %d", text, got)
		}
	}
}

// TestTaxLaws: tax is whole hundredths, within half of one of what it would be exactly,
// and never less for a higher price or rate.
func TestTaxLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		price, rate := rapid.Int64Range(0, mostMoney).Draw(t, "price"), rapid.Int64Range(0, million).Draw(t, "rate")
		tax := taxOn(price, rate)
		if off := 2 * (tax*million - price*rate); off <= -million || off > million {
			t.Fatalf("%d ppm of %d is told as %d", rate, price, tax)
		}
		if taxOn(price+1, rate) < tax || rate < million && taxOn(price, rate+1) < tax {
			t.Fatalf("more than %d ppm of %d is less than %d", rate, price, tax)
		}
	})
}
