package source

var powerSources = []Source{
	{ID: "nec-ch9-t8", By: "NFPA", Title: "NEC (NFPA 70), chapter 9, table 8, conductor properties", Where: "uncoated copper, direct current, 75 °C", Standing: SecondHand},
	{ID: "iec-60228", By: "IEC", Title: "IEC 60228, Conductors of insulated cables", Where: "maximum resistance at 20 °C; temperature factors", Standing: SecondHand},
	{ID: "nec-630-11", By: "NFPA", Title: "NEC (NFPA 70), article 630", Where: "table 630.11(A), 630.11(B), 630.12", Standing: SecondHand},
	{ID: "nec-210-19", By: "NFPA", Title: "NEC (NFPA 70), 210.19(A), informational note on voltage drop", Where: "3 % branch, 5 % in all; advice, not law", Standing: SecondHand},
	{ID: "iec-60364-5-52", By: "IEC", Title: "IEC 60364-5-52, annex G, voltage drop", Standing: Memory},
	{ID: "iec-60974-1", By: "IEC", Title: "IEC 60974-1, Arc welding equipment, welding power sources", Where: "duty cycle, effective supply current, conventional load voltage", Standing: Memory},
	{ID: "tm-9-6115-673", By: "US Army", Title: "US Army TM 9-6115-673-13&P, 2 kW military tactical generator sets", Where: "table 2-3, derating", Standing: Seen},
	{ID: "nec-430-7b", By: "NFPA", Title: "NEC (NFPA 70), table 430.7(B), locked-rotor indicating code letters", Standing: SecondHand},
	{ID: "aws-fs39", By: "AWS", Title: "AWS Safety and Health Fact Sheet 39 (2016), Welding cables", Where: "4 V or less", Standing: Seen},
	{ID: "osha-254", By: "OSHA", Title: "29 CFR 1910.254, arc welding and cutting", Where: "(c)(2), return circuit, in a state's copy", Standing: SecondHand},
}
