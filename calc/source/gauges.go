package source

var gauges = []Source{
	{"usc15-206", "United States Code, title 15, section 206: standard gauge for sheet and plate iron and steel", "", Seen},
	{"nbs-lc24", "National Bureau of Standards Letter Circular 24 (1922), Standard gauges for sheet metal", "with 41.82 lb/ft² per inch of steel", Seen},
	{"smacna-galvanised", "Galvanised sheet gauges after ASTM A924 and A653", "SMACNA weights of galvanised sheet", SecondHand},
	{"gnu-units", "GNU Units 2.22, file definitions.units", "stdgauge, plategauge, wiregauge", Seen},
}
