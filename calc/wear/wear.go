// Package wear judges the parts in the torch head from their readings.
package wear

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&TipWear,
	&ElectrodeWear,
	&PhotoGauge,
}
