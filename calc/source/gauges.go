package source

var gauges = []Source{
	{ID: "usc15-206", By: "United States", Title: "United States Code, title 15, section 206: standard gauge for sheet and plate iron and steel", Where: "columns in ounces, pounds and kilograms", Standing: Seen},
	{ID: "nbs-lc24", By: "National Bureau of Standards", Title: "National Bureau of Standards Letter Circular 24 (1922)", Where: "wrought iron of 480 lb/ft³", Standing: Seen},
	{ID: "smacna-galvanised", By: "SMACNA", Title: "SMACNA duct construction standard (1995)", Where: "galvanised sheet, thickness and weight, after ASTM A924 and A653, in copies", Standing: SecondHand},
	{ID: "gnu-units", By: "GNU", Title: "GNU Units 2.22, file definitions.units", Where: "stdgauge (501.84 lb/ft³), plategauge, wiregauge", Standing: Seen},
	{ID: "en1991-density", By: "CEN", Title: "EN 1991-1-1, densities of construction materials", Where: "table A.4, steel", Standing: Memory},
	{ID: "crc-density", By: "CRC", Title: "CRC Handbook of Chemistry and Physics, physical constants of the elements", Where: "in open tables of chemical data", Standing: SecondHand},
	{ID: "niosh-lifting", By: "NIOSH", Title: "Revised NIOSH lifting equation, DHHS (NIOSH) 94-110", Where: "load constant 51 lb, 23 kg", Standing: Memory},
}
