package power

import "kerfside/calc/unit"

// ampacityRows are NEC table 630.11(A) for machines that are no motor
// generator: the factor on the rated supply current by duty cycle. At 20 % and
// less it stays at 0.45.
var ampacityRows = []struct{ duty, factor unit.Ratio }{
	{0.20, 0.45}, {0.30, 0.55}, {0.40, 0.63}, {0.50, 0.71}, {0.60, 0.78}, {0.70, 0.84}, {0.80, 0.89}, {0.90, 0.95}, {1.00, 1.00},
}

// AmpacityFactor returns the factor of NEC table 630.11(A) for a duty cycle up
// to 1: the supply conductors must carry the rated supply current times this.
// Between the rows it lies on a straight line, within 0.01 of the √duty that
// the table follows.
func AmpacityFactor(duty unit.Ratio) unit.Ratio {
	last := ampacityRows[0]
	if duty <= last.duty {
		return last.factor
	}
	for _, row := range ampacityRows[1:] {
		if duty <= row.duty {
			return last.factor + (row.factor-last.factor)*(duty-last.duty)/(row.duty-last.duty)
		}
		last = row
	}
	return last.factor
}
