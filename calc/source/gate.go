package source

var gate = []Source{
	{"osha-252a3", "OSHA", "29 CFR 1910.252(a)(3), welding or cutting containers; venting and purging", "in a state's copy", SecondHand},
	{"osha-252a2", "OSHA", "29 CFR 1910.252(a)(2), special precautions against fire", "35 ft, fire watch, far side of walls", Seen},
	{"osha-252c", "OSHA", "29 CFR 1910.252(c), health protection and ventilation", "10,000 ft³, 16 ft, confined spaces", Seen},
	{"osha-solvent", "OSHA", "29 CFR 1910.252(c)(11) and 1926.353(d), chlorinated solvents", "", Memory},
	{"osha-177", "OSHA", "29 CFR 1910.177, servicing rim wheels", "no heat on a wheel, in states' copies", SecondHand},
	{"osha-1926-353", "OSHA", "29 CFR 1926.353, ventilation and protection in welding, cutting and heating", "(c) coatings and metals, enclosed and in the open, in states' copies", SecondHand},
	{"osha-1926-354", "OSHA", "29 CFR 1926.354, preservative coatings", "(c)(1), 4 in stripped back, in OSHA instruction STD 3-8.1", SecondHand},
}
