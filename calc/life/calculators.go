package life

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&PartLife,
	&Spares,
}
