package source

var gate = []Source{
	{ID: "osha-252a3", By: "OSHA", Title: "29 CFR 1910.252(a)(3), welding or cutting containers; venting and purging", Where: "in a state's copy", Standing: SecondHand},
	{ID: "osha-252a2", By: "OSHA", Title: "29 CFR 1910.252(a)(2), special precautions against fire", Where: "35 ft, fire watch, far side of walls", Standing: Seen},
	{ID: "osha-252c", By: "OSHA", Title: "29 CFR 1910.252(c), health protection and ventilation", Where: "10,000 ft³, 16 ft, confined spaces", Standing: Seen},
	{ID: "osha-solvent", By: "OSHA", Title: "29 CFR 1910.252(c)(11) and 1926.353(d), chlorinated solvents", Standing: Memory},
	{ID: "osha-177", By: "OSHA", Title: "29 CFR 1910.177, servicing rim wheels", Where: "no heat on a wheel, in states' copies", Standing: SecondHand},
	{ID: "osha-1926-353", By: "OSHA", Title: "29 CFR 1926.353, ventilation and protection in welding, cutting and heating", Where: "(c) coatings and metals, enclosed and in the open, in states' copies", Standing: SecondHand},
	{ID: "osha-1926-354", By: "OSHA", Title: "29 CFR 1926.354, preservative coatings", Where: "(c)(1), 4 in stripped back, in OSHA instruction STD 3-8.1", Standing: SecondHand},
}
