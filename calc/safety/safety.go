// Package safety states the figures that protect eyes, ears, lungs and premises. It
// never replaces local code, a permit or a competent person.
package safety

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&EyeShade,
	&FireWatch,
	&Fume,
	&NoiseDose,
}
