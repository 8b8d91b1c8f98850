// Package air follows the air from the compressor to the torch: need, hose, tank
// and water.
package air

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{&AirFlow, &AirHose, &AirTank, &AirWater}
