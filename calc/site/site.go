// Package site joins all sums for one place: will the planned cut run with this
// rig on this air and this power, what gives out first, and what would help?
package site

import "kerfside/calc/form"

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&SiteCheck}
