package source

var gauges = []Source{
	{"usc15-206", "United States Code, title 15, section 206: standard gauge for sheet and plate iron and steel", "", Seen},
	{"nbs-lc24", "National Bureau of Standards Letter Circular 24 (1922)", "wrought iron of 480 lb/ft³", Seen},
	{"smacna-galvanised", "Galvanised sheet gauges after ASTM A924 and A653", "SMACNA weights of galvanised sheet", SecondHand},
	{"gnu-units", "GNU Units 2.22, file definitions.units", "stdgauge (501.84 lb/ft³), plategauge, wiregauge", Seen},
	{"en1991-density", "EN 1991-1-1, densities of construction materials", "table A.4, steel", Memory},
	{"crc-density", "CRC Handbook of Chemistry and Physics, physical constants of the elements", "in open tables of chemical data", SecondHand},
	{"steel-489", "Handbook weights of steel at 489.6 lb/ft³", "lb/ft: flat 3.4·w·t, round 2.670·d², hexagon 2.9445·AF², octagon 2.8167·AF²; plate 40.8 lb/ft² per inch", SecondHand},
	{"aisc-sections", "AISC Steel Construction Manual, dimensions and weights of shapes", "part 1", Memory},
	{"asme-b36-10", "ASME B36.10M, welded and seamless wrought steel pipe", "weights of plain-end pipe", Memory},
	{"niosh-lifting", "Revised NIOSH lifting equation, DHHS (NIOSH) 94-110", "load constant 51 lb, 23 kg", Memory},
}
