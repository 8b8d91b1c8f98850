package guides

import (
	"fmt"
	"strings"
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

// The quick cards say what the sums say: their tables are held to them.

func cardStep(t *testing.T, guide, step string) string {
	t.Helper()
	g, err := shipped(t).Guide(guide)
	if err != nil {
		t.Fatal(err)
	}
	if g.Form != "card" {
		t.Errorf("%s is a %s, want a card", guide, g.Form)
	}
	return string(g.Step(step).Do)
}

func TestShadeCard(t *testing.T) {
	do := cardStep(t, "shade-card", "shade")
	for current, row := range map[unit.Current]string{40: "under 300 A", 350: "300 to 400 A", 500: "400 to 800 A"} {
		shade, err := safety.ComputeShade(safety.ShadeInput{Current: current * unit.Ampere})
		if err != nil {
			t.Fatal(err)
		}
		if want := cells(row, fmt.Sprint(shade.Minimum), fmt.Sprint(shade.Start)); !strings.Contains(tight(do), want) {
			t.Errorf("the card lacks %s", want)
		}
	}
}

func TestSheetGaugeCard(t *testing.T) {
	do := tight(cardStep(t, "sheet-gauge-card", "numbers"))
	for _, n := range []int{10, 11, 12, 14, 16, 18, 20, 22, 24} {
		row := []string{fmt.Sprint(n)}
		for _, metal := range []material.Metal{material.MildSteel, material.Galvanised, material.Stainless, material.Aluminium} {
			thickness, err := material.Gauge(metal, fmt.Sprint(n))
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, fmt.Sprintf("%.2f mm", float64(thickness/unit.Millimetre)))
		}
		if want := cells(row...); !strings.Contains(do, want) {
			t.Errorf("the card lacks %s", want)
		}
	}
}

// TestWearLimitsCard: the card and the inspection state the same limits.
func TestWearLimitsCard(t *testing.T) {
	for step, words := range map[string][]string{"tip": {"15 in 100", "10 in 100", "nick", "keyhole"}, "electrode": {"1.5 mm (1/16 in)", "off to one side"}, "diffuser": {"chip", "crack", "melted", "scorched"}} {
		do := cardStep(t, "wear-limits-card", step)
		for _, w := range words {
			if !strings.Contains(do, w) {
				t.Errorf("wear-limits-card#%s does not say %q", step, w)
			}
		}
	}
}

// cells is a row of a table as it is rendered, without white space.
func cells(texts ...string) string {
	var row strings.Builder
	for _, text := range texts {
		row.WriteString("<td>" + text + "</td>")
	}
	return tight(row.String())
}

func tight(html string) string { return strings.Join(strings.Fields(html), "") }
