// Package cutting plans a cut: what to set, how fast to move, where to put the
// guide and what the metal will say about it.
package cutting

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&MayICut,
	&CutPlan,
	&RigTable,
	&TrialStrips,
	&Calibration,
	&TravelPace,
	&GuideOffset,
	&FaceGrade,
}
