package book

import "testing"

// TestWordsFollowTheirFigures: what is concluded agrees with the figures as they are told.
func TestWordsFollowTheirFigures(t *testing.T) {
	for says, r := range map[string]Ranged{
		"The arc burned about as long as planned, from 5 pieces.":                                                                 {Value: 1.01, Known: true, Low: 0.98, High: 1.04},
		"The arc burned about 1.1 times as long as planned, from 5 pieces. It may be 1.0 to 1.3 times, so the plan may be right.": {Value: 1.14, Known: true, Low: 1.02, High: 1.26},
		"The arc burned about 0.7 times as long as planned, from 5 pieces. It may be 0.6 to 0.9 times: faster than planned.":      {Value: 0.74, Known: true, Low: 0.6, High: 0.88},
		"The arc burned less than a third as long as planned, from 5 pieces. Look whether all of it was timed.":                   {Value: 0.02, Known: true, Low: 0, High: 0.1},
		"The arc burned about 12 times as long as planned, from 5 pieces. It may be 8.0 to 16 times: slower than planned.":        {Value: 12.2, Known: true, Low: 8, High: 16.4},
		"The arc burned about 1.2 times as long as planned, from 5 pieces.":                                                       {Value: 1.2, Known: true, Low: 1.19, High: 1.21},
		"The arc burned about as long as planned, from 5 pieces. That is too little to tell how much it varies.":                  {Value: 1},
		"The arc burned about as long as planned, from 5 pieces. It may be 0.7 to 1.3 times, so the plan may be right.":           {Value: 1, Known: true, Low: 0.7, High: 1.3},
	} {
		if got := saysOf(r, 5); got != says {
			t.Errorf("%+v:\n%s\nwant\n%s", r, got, says)
		}
	}
}
