package power

import (
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// codeLetters give the apparent power that a motor draws with its rotor locked,
// in kVA per horsepower, up to and not including the printed bound of the next
// letter. Source: NEC table 430.7(B), in
// two copies that agree but for the upper figure of B (3.54 or 3.55).
var codeLetters = []struct {
	Letter string
	Upper  float64
}{
	{"A", 3.15}, {"B", 3.55}, {"C", 4.0}, {"D", 4.5}, {"E", 5.0}, {"F", 5.6}, {"G", 6.3}, {"H", 7.1}, {"J", 8.0}, {"K", 9.0},
	{"L", 10.0}, {"M", 11.2}, {"N", 12.5}, {"P", 14.0}, {"R", 16.0}, {"S", 18.0}, {"T", 20.0}, {"U", 22.4},
}

// LockedRotor returns the apparent power with which a motor of that shaft power
// starts straight on the line, the upper bound of its code letter.
func LockedRotor(letter string, shaft unit.Power) (unit.ApparentPower, error) {
	var known []string
	for _, c := range codeLetters {
		if strings.EqualFold(c.Letter, letter) {
			return unit.ApparentPower(c.Upper * 1000 * float64(shaft/unit.Horsepower)), nil
		}
		known = append(known, c.Letter)
	}
	return 0, problem.Newf(problem.Unknown, "code_letter", "%q is not a code letter that can be reckoned with", letter).
		WithHint("A letter from %s to %s, on the motor's plate. Leave it empty if the plate has none.", known[0], known[len(known)-1])
}
