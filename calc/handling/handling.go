// Package handling reckons gauges, units and the weight of what is cut off.
package handling

import (
	"kerfside/calc/form"
	"kerfside/calc/material"
)

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Calculator{
	&PieceWeight,
	&Gauge,
	&Convert,
}

// metalChoice offers every metal.
var metalChoice = form.OneOf(
	string(material.MildSteel), "mild steel",
	string(material.Galvanised), "galvanised steel",
	string(material.Stainless), "stainless steel",
	string(material.Aluminium), "aluminium",
	string(material.Copper), "copper",
	string(material.Brass), "brass",
	string(material.CastIron), "cast iron",
)
