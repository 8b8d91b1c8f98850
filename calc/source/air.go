package source

var airSources = []Source{
	{ID: "iso-2533", By: "ISO", Title: "ISO 2533:1975, Standard atmosphere", Where: "tables by geometric altitude", Standing: SecondHand},
	{ID: "fluids", By: "Bell", Title: "fluids, an open-source library of fluid mechanics (MIT licence), its test suite", Where: "friction.py, compressible.py", Standing: Seen},
	{ID: "tp410-b15", By: "Crane", Title: "Crane Technical Paper 410, Flow of fluids", Where: "table B-15, flow of air through schedule 40 steel pipe", Standing: SecondHand},
	{ID: "iso-6358", By: "ISO", Title: "ISO 6358-1, Flow-rate characteristics of components using compressible fluids", Where: "C and b", Standing: SecondHand},
	{ID: "din-1343", By: "DIN", Title: "DIN 1343, Reference conditions, normal conditions, normal volume", Standing: Seen},
	{ID: "asme-air", By: "ASME", Title: "ASME normal air: 68 °F, 14.7 psia", Standing: Seen},
	{ID: "iso-8787", By: "ISO", Title: "ISO 8787 and ISO 1217, reference air: 1 bar, 20 °C, dry", Where: "also the reference of ISO 8573-1", Standing: Memory},
	{ID: "orifice-table", By: "Moss", Title: "Discharge of air through an orifice, by the formula of S. A. Moss (American Machinist, 20 September 1906)", Where: "table at C = 1, 70 °F and 14.7 psia, in a scanned sheet; its notes on engineersedge.com", Standing: SecondHand},
	{ID: "receiver", By: "Srivastava", Title: "Air receiver sizing, a worksheet", Where: "example, V = t·(q − C)·pa/(p1 − p2)", Standing: Seen},
	{ID: "iapws-if97", By: "IAPWS", Title: "IAPWS Industrial Formulation 1997", Where: "region 4, equation 30 and table 35", Standing: SecondHand},
	{ID: "ashrae-2017", By: "ASHRAE", Title: "ASHRAE Handbook Fundamentals 2017, chapter 1", Where: "tables 1 to 3, in the tests of PsychroLib", Standing: SecondHand},
	{ID: "iso-8573-1", By: "ISO", Title: "ISO 8573-1:2010, Compressed air, contaminants and purity classes", Where: "water classes", Standing: SecondHand},
	{ID: "osha-169", By: "OSHA", Title: "29 CFR 1910.169(b), Air receivers", Where: "drain and safety valves, in a copy", Standing: SecondHand},
}
