// Package material knows the metals that a torch meets: how heavy they are,
// what it takes to melt them, how they carry heat away, what their smoke holds
// and what their sheet gauges mean.
package material

// Metal is a metal by the word that fields, calls and the journal use for it.
type Metal string

// The metals that Kerfside knows.
const (
	MildSteel  Metal = "mild-steel"
	Stainless  Metal = "stainless"
	Aluminium  Metal = "aluminium"
	Copper     Metal = "copper"
	Brass      Metal = "brass"
	CastIron   Metal = "cast-iron"
	Galvanised Metal = "galvanised" // zinc-coated mild steel
)
