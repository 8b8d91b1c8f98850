// Package handling reckons gauges, units and the weight of what is cut off.
package handling

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&PieceWeight,
	&Gauge,
	&Convert,
}
