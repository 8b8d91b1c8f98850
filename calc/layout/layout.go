// Package layout draws the line to cut: saddles and mitres of pipe, holes and arcs,
// bevels, bends, parts out of stock, gouged grooves, and in which order a piece is let
// go. It is geometry and statics; each calculator is a file of its own.
package layout

import "kerfside/calc/form"

// Calculators lists this package's calculators in the order in which the phone
// shows them.
var Calculators = []*form.Declaration{
	&PipeSaddle,
	&PipeMitre,
	&PipeWrap,
	&CircleHole,
	&ArcOffsets,
	&SquareUp,
	&Divide,
	&BevelCut,
	&BracketDevelop,
	&FrameLengths,
	&NestStrip,
	&Gouge,
	&ReleasePlan,
}
