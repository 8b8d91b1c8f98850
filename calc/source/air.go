package source

var airSources = []Source{
	{"iso-2533", "ISO", "ISO 2533:1975, Standard atmosphere", "tables by geometric altitude", SecondHand},
	{"fluids", "Bell", "fluids, an open-source library of fluid mechanics (MIT licence), its test suite", "friction.py, compressible.py", Seen},
	{"tp410-b15", "Crane", "Crane Technical Paper 410, Flow of fluids", "table B-15, flow of air through schedule 40 steel pipe", SecondHand},
	{"iso-6358", "ISO", "ISO 6358-1, Flow-rate characteristics of components using compressible fluids", "C and b", SecondHand},
	{"din-1343", "DIN", "DIN 1343, Reference conditions, normal conditions, normal volume", "", Seen},
	{"asme-air", "ASME", "ASME normal air: 68 °F, 14.7 psia", "", Seen},
	{"iso-8787", "ISO", "ISO 8787 and ISO 1217, reference air: 1 bar, 20 °C, dry", "also the reference of ISO 8573-1", Memory},
	{"orifice-table", "Moss", "Discharge of air through an orifice, by the formula of S. A. Moss (American Machinist, 20 September 1906)", "table at C = 1, 70 °F and 14.7 psia, in a scanned sheet; its notes on engineersedge.com", SecondHand},
	{"receiver", "Srivastava", "Air receiver sizing, a worksheet", "example, V = t·(q − C)·pa/(p1 − p2)", Seen},
	{"iapws-if97", "IAPWS", "IAPWS Industrial Formulation 1997", "region 4, equation 30 and table 35", SecondHand},
	{"ashrae-2017", "ASHRAE", "ASHRAE Handbook Fundamentals 2017, chapter 1", "tables 1 to 3, in the tests of PsychroLib", SecondHand},
	{"iso-8573-1", "ISO", "ISO 8573-1:2010, Compressed air, contaminants and purity classes", "water classes", SecondHand},
	{"osha-169", "OSHA", "29 CFR 1910.169(b), Air receivers", "drain and safety valves, in a copy", SecondHand},
}
