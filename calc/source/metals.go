package source

var metals = []Source{
	{ID: "nasa-tm4513", By: "NASA", Title: "NASA TM-4513 (1993), coefficients for calculating thermodynamic properties", Where: "iron and aluminium, as in an open table of condensed species", Standing: Seen},
	{ID: "en1993-1-2", By: "CEN", Title: "EN 1993-1-2, thermal properties of carbon and stainless steel", Where: "3.4 and Annex C", Standing: SecondHand},
	{ID: "anl-75-55", By: "Kim", Title: "Thermophysical properties of stainless steels, ANL-75-55 (1975)", Where: "lines for 316", Standing: SecondHand},
}
