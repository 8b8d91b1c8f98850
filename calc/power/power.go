// Package power follows the current from the socket or generator to the work and
// back.
package power

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{&Supply, &Generator, &Duty, &WorkLead}
