package source

var airSources = []Source{
	{"iso-2533", "ISO 2533:1975, Standard atmosphere", "tables by geometric altitude", SecondHand},
	{"fluids", "fluids, an open-source library of fluid mechanics (MIT licence), its test suite", "friction.py, compressible.py", Seen},
	{"tp410-b15", "Crane Technical Paper 410, Flow of fluids", "table B-15, flow of air through schedule 40 steel pipe", SecondHand},
	{"tp410-7-16", "Crane Technical Paper 410, Flow of fluids", "example 7-16, reduced to a worked notebook", SecondHand},
	{"half-inch-chart", "Handbook chart, pressure loss of air in 1/2 in schedule 40 clean steel pipe", "80 psig", Seen},
	{"iso-6358", "ISO 6358-1, Flow-rate characteristics of components using compressible fluids", "C and b", SecondHand},
	{"din-1343", "DIN 1343, Reference conditions, normal conditions, normal volume", "", Seen},
	{"asme-air", "ASME normal air: 68 °F, 14.7 psia", "", Seen},
	{"iso-8787", "ISO 8787 and ISO 1217, reference air: 1 bar, 20 °C, dry", "also the reference of ISO 8573-1", Memory},
	{"orifice-table", "Compressed-air handbook table, discharge of air through an orifice, after Moss", "C = 1", Seen},
	{"receiver", "Compressed-air handbook, receiver sizing by t = V·(p1 − p2)/(pa·C)", "", Seen},
	{"iapws-if97", "IAPWS Industrial Formulation 1997", "region 4, equation 30 and table 35", SecondHand},
	{"ashrae-2017", "ASHRAE Handbook Fundamentals 2017, chapter 1", "tables 1 and 3", SecondHand},
	{"cagi-moisture", "Compressed Air and Gas Handbook", "tables 3.3 and 3.4, moisture in air", SecondHand},
	{"iso-8573-1", "ISO 8573-1:2010, Compressed air, contaminants and purity classes", "water classes", SecondHand},
	{"psychrolib", "PsychroLib 1.1.1, an open-source library of psychrometrics (MIT licence)", "run", Seen},
	{"osha-169", "29 CFR 1910.169(b), Air receivers", "drain valve", Memory},
}
