package source

var gauges = []Source{
	{"usc15-206", "United States Code, title 15, section 206: standard gauge for sheet and plate iron and steel", "", Seen},
	{"nbs-lc24", "National Bureau of Standards Letter Circular 24 (1922)", "wrought iron of 480 lb/ft³", Seen},
	{"smacna-galvanised", "Galvanised sheet gauges after ASTM A924 and A653", "SMACNA weights of galvanised sheet", SecondHand},
	{"gnu-units", "GNU Units 2.22, file definitions.units", "stdgauge (501.84 lb/ft³), plategauge, wiregauge", Seen},
	{"en1991-density", "EN 1991-1-1, densities of construction materials", "table A.4, steel", Memory},
	{"crc-density", "CRC Handbook of Chemistry and Physics, physical constants of the elements", "in open tables of chemical data", SecondHand},
}
