// Package site joins all sums for one place: do this air and this power hold for
// the planned cut with this rig, what gives out first, what would help, and what
// can be cut here?
package site

import "kerfside/calc/form"

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&SiteCheck}
