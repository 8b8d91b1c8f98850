package source

var hazards = []Source{
	{"osha-133", "OSHA", "29 CFR 1910.133 (same in 1915.153), filter lenses for protection against radiant energy", "table in (a)(5)", Seen},
	{"z49-2005", "ANSI", "ANSI Z49.1:2005, suggested (comfort) shades", "plasma arc cutting", SecondHand},
	{"aws-f2-2", "AWS", "AWS F2.2 and ANSI Z49.1:2012, lens shade selector", "plasma arc cutting", Memory},
	{"osha-shipyard-eye", "OSHA", "OSHA fact sheet, eye protection against radiant energy during welding and cutting in shipyard employment", "", Seen},
	{"en-169", "CEN", "EN 169, personal eye protection, filters for welding: definition of the scale number", "N = 1 + 7/3·lg(1/τ)", Memory},
	{"nfpa-51b-2019", "NFPA", "NFPA 51B:2019, standard for fire prevention during welding, cutting and other hot work", "5.6.1.1, watch of 60 min", SecondHand},
	{"osha-95", "OSHA", "29 CFR 1910.95, occupational noise exposure", "table G-16; appendix A, table G-16A", Seen},
	{"niosh-noise", "NIOSH", "NIOSH 98-126, criteria for a recommended standard: occupational noise exposure (1998)", "table 1-1, in a copy", SecondHand},
	{"hse-noise", "Health and Safety Executive (UK)", "Noise in welding, hot work and allied processes", "hand-held plasma cutting 98 to 105 dB(A)", Seen},
	{"osha-nrr", "OSHA", "OSHA Technical Manual, noise: halving of the NRR in the field", "(NRR − 7)/2 from an A-weighted level", Memory},
	{"osha-z1", "OSHA", "29 CFR 1910.1000 table Z-1 and the substance standards 1910.1025 to 1910.1027", "limits for an 8 h day, in copies", SecondHand},
	{"osha-z1-memory", "OSHA", "29 CFR 1910.1000 table Z-1", "limits for an 8 h day", Memory},
	{"osha-1024", "OSHA", "29 CFR 1910.1024, beryllium", "0.2 µg/m³, 2 µg/m³ for 15 min, in quotations", SecondHand},
	{"osha-1026", "OSHA", "29 CFR 1910.1026, chromium (VI)", "(c), 5 µg/m³, in copies", SecondHand},
	{"acgih-tlv", "ACGIH", "ACGIH threshold limit values (2013), manganese", "in a copy of an OSHA sheet", SecondHand},
	{"iarc", "IARC", "IARC Monographs, volumes 87 (lead), 100C (metals) and 118 (welding)", "groups, in copies and reports", SecondHand},
	{"hse-rr539", "Health and Safety Executive (UK)", "RR539, Products evolved during hot gas welding of fluoropolymers", "its abstract", Seen},
	{"niosh-rel", "NIOSH", "NIOSH Pocket Guide to Chemical Hazards, recommended exposure limits", "", Memory},
}
