// Package money reckons what a cut and a job cost.
package money

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&JobCost,
}
