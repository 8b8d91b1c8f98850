package source

var powerSources = []Source{
	{"nec-ch9-t8", "NFPA", "NEC (NFPA 70), chapter 9, table 8, conductor properties", "uncoated copper, direct current, 75 °C", SecondHand},
	{"iec-60228", "IEC", "IEC 60228, Conductors of insulated cables", "maximum resistance at 20 °C; temperature factors", SecondHand},
	{"nec-630-11", "NFPA", "NEC (NFPA 70), article 630", "table 630.11(A), 630.11(B), 630.12", SecondHand},
	{"nec-210-19", "NFPA", "NEC (NFPA 70), 210.19(A), informational note on voltage drop", "3 % branch, 5 % in all; advice, not law", SecondHand},
	{"iec-60364-5-52", "IEC", "IEC 60364-5-52, annex G, voltage drop", "", Memory},
	{"iec-60974-1", "IEC", "IEC 60974-1, Arc welding equipment, welding power sources", "duty cycle, effective supply current, conventional load voltage", Memory},
	{"tm-9-6115-673", "US Army", "US Army TM 9-6115-673-13&P, 2 kW military tactical generator sets", "table 2-3, derating", Seen},
	{"nec-430-7b", "NFPA", "NEC (NFPA 70), table 430.7(B), locked-rotor indicating code letters", "", SecondHand},
	{"aws-fs39", "AWS", "AWS Safety and Health Fact Sheet 39 (2016), Welding cables", "4 V or less", Seen},
	{"osha-254", "OSHA", "29 CFR 1910.254, arc welding and cutting", "(c)(2), return circuit, in a state's copy", SecondHand},
}
