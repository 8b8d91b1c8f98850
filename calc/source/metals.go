package source

var metals = []Source{
	{"nasa-tm4513", "NASA", "NASA TM-4513 (1993), coefficients for calculating thermodynamic properties", "iron and aluminium, as in an open table of condensed species", Seen},
	{"en1993-1-2", "CEN", "EN 1993-1-2, thermal properties of carbon and stainless steel", "3.4 and Annex C", SecondHand},
	{"anl-75-55", "Kim", "Thermophysical properties of stainless steels, ANL-75-55 (1975)", "lines for 316", SecondHand},
}
