package source

var gauges = []Source{
	{"usc15-206", "United States", "United States Code, title 15, section 206: standard gauge for sheet and plate iron and steel", "columns in ounces, pounds and kilograms", Seen},
	{"nbs-lc24", "National Bureau of Standards", "National Bureau of Standards Letter Circular 24 (1922)", "wrought iron of 480 lb/ft³", Seen},
	{"smacna-galvanised", "SMACNA", "SMACNA duct construction standard (1995)", "galvanised sheet, thickness and weight, after ASTM A924 and A653, in copies", SecondHand},
	{"gnu-units", "GNU", "GNU Units 2.22, file definitions.units", "stdgauge (501.84 lb/ft³), plategauge, wiregauge", Seen},
	{"en1991-density", "CEN", "EN 1991-1-1, densities of construction materials", "table A.4, steel", Memory},
	{"crc-density", "CRC", "CRC Handbook of Chemistry and Physics, physical constants of the elements", "in open tables of chemical data", SecondHand},
	{"niosh-lifting", "NIOSH", "Revised NIOSH lifting equation, DHHS (NIOSH) 94-110", "load constant 51 lb, 23 kg", Memory},
}
