package source

var hazards = []Source{
	{"osha-133", "29 CFR 1910.133 (same in 1915.153), filter lenses for protection against radiant energy", "table in (a)(5)", Seen},
	{"z49-2005", "ANSI Z49.1:2005, suggested (comfort) shades", "plasma arc cutting", SecondHand},
	{"aws-f2-2", "AWS F2.2 and ANSI Z49.1:2012, lens shade selector", "plasma arc cutting", Memory},
	{"osha-shipyard-eye", "OSHA fact sheet, eye protection against radiant energy during welding and cutting in shipyard employment", "", Seen},
	{"en-169", "EN 169, personal eye protection, filters for welding: definition of the scale number", "N = 1 + 7/3·lg(1/τ)", Memory},
}
