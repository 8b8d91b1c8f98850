package source

var hazards = []Source{
	{ID: "osha-133", By: "OSHA", Title: "29 CFR 1910.133 (same in 1915.153), filter lenses for protection against radiant energy", Where: "table in (a)(5)", Standing: Seen},
	{ID: "z49-2005", By: "ANSI", Title: "ANSI Z49.1:2005, suggested (comfort) shades", Where: "plasma arc cutting", Standing: SecondHand},
	{ID: "aws-f2-2", By: "AWS", Title: "AWS F2.2 and ANSI Z49.1:2012, lens shade selector", Where: "plasma arc cutting", Standing: Memory},
	{ID: "osha-shipyard-eye", By: "OSHA", Title: "OSHA fact sheet, eye protection against radiant energy during welding and cutting in shipyard employment", Standing: Seen},
	{ID: "en-169", By: "CEN", Title: "EN 169, personal eye protection, filters for welding: definition of the scale number", Where: "N = 1 + 7/3·lg(1/τ)", Standing: Memory},
	{ID: "nfpa-51b-2019", By: "NFPA", Title: "NFPA 51B:2019, standard for fire prevention during welding, cutting and other hot work", Where: "5.6.1.1, watch of 60 min", Standing: SecondHand},
	{ID: "osha-95", By: "OSHA", Title: "29 CFR 1910.95, occupational noise exposure", Where: "table G-16; appendix A, table G-16A", Standing: Seen},
	{ID: "niosh-noise", By: "NIOSH", Title: "NIOSH 98-126, criteria for a recommended standard: occupational noise exposure (1998)", Where: "table 1-1, in a copy", Standing: SecondHand},
	{ID: "hse-noise", By: "Health and Safety Executive (UK)", Title: "Noise in welding, hot work and allied processes", Where: "hand-held plasma cutting 98 to 105 dB(A), air-arc gouging 100 to 115", Standing: Seen},
	{ID: "osha-nrr", By: "OSHA", Title: "OSHA Technical Manual, noise: halving of the NRR in the field", Where: "(NRR − 7)/2 from an A-weighted level", Standing: Memory},
	{ID: "osha-z1", By: "OSHA", Title: "29 CFR 1910.1000 table Z-1 and the substance standards 1910.1025 to 1910.1027", Where: "limits for an 8 h day, in copies", Standing: SecondHand},
	{ID: "osha-z1-memory", By: "OSHA", Title: "29 CFR 1910.1000 table Z-1", Where: "limits for an 8 h day", Standing: Memory},
	{ID: "osha-1024", By: "OSHA", Title: "29 CFR 1910.1024, beryllium", Where: "0.2 µg/m³, 2 µg/m³ for 15 min, in quotations", Standing: SecondHand},
	{ID: "osha-1026", By: "OSHA", Title: "29 CFR 1910.1026, chromium (VI)", Where: "(c), 5 µg/m³, in copies", Standing: SecondHand},
	{ID: "acgih-tlv", By: "ACGIH", Title: "ACGIH threshold limit values (2013), manganese", Where: "in a copy of an OSHA sheet", Standing: SecondHand},
	{ID: "iarc", By: "IARC", Title: "IARC Monographs, volumes 87 (lead), 100C (metals) and 118 (welding)", Where: "groups, in copies and reports", Standing: SecondHand},
	{ID: "hse-rr539", By: "Health and Safety Executive (UK)", Title: "RR539, Products evolved during hot gas welding of fluoropolymers", Where: "its abstract", Standing: Seen},
	{ID: "niosh-rel", By: "NIOSH", Title: "NIOSH Pocket Guide to Chemical Hazards, recommended exposure limits", Standing: Memory},
}
