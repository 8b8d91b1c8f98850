package source

// guides are the sources that only the guides rest on: no program that is given
// to anybody holds them.
var guides = []Source{
	{"osha-134", "OSHA", "29 CFR 1910.134, respiratory protection", "(d)(2)(iii), (e)(1), (f)(2), (g), (h) and appendix B-1, in OSHA's letters and in quotations; (i) and appendix B-2 from memory", SecondHand},
	{"osha-146", "OSHA", "29 CFR 1910.146, permit-required confined spaces", "", Memory},
	{"osha-147", "OSHA", "29 CFR 1910.147, control of hazardous energy", "(d), the order of steps; (d)(5), stored energy; in copies", SecondHand},
	{"osha-242", "OSHA", "29 CFR 1910.242, hand and portable tools", "(b), cleaning with compressed air: under 30 psi", Seen},
	{"osha-1926-404", "OSHA", "29 CFR 1926.404, wiring design and protection", "(b)(1) ground-fault protection, (f)(3) portable generators, in quotations", SecondHand},
	{"osha-1926-1126", "OSHA", "29 CFR 1926.1126, chromium (VI) in construction", "5 µg/m³", Memory},
	{"nec-250-34", "NFPA", "NFPA 70 (NEC), 250.34, portable and vehicle-mounted generators", "in quotations", SecondHand},
	{"nec-590-6", "NFPA", "NFPA 70 (NEC), 590.6, ground-fault protection of temporary wiring", "in quotations", SecondHand},
	{"iec-60974-4", "IEC", "IEC 60974-4, Arc welding equipment, periodic inspection and testing", "scope, in the publisher's summary of 2010", SecondHand},
	{"osha-1001-f", "OSHA", "29 CFR 1910.1001 appendix F, brake and clutch work", "wet or enclosed, in a copy", SecondHand},
	{"osha-weld-chemicals", "OSHA", "Welding, cutting and brazing, chemicals", "residues of chlorinated degreasers decompose when heated", Seen},
	{"nhtsa-air-bags", "NHTSA", "Emergency rescue guidelines for air bag equipped cars", "undeployed bags, in a copy", SecondHand},
	{"epa-609", "EPA", "US Clean Air Act 609, a fact sheet on motor vehicle air conditioning", "who may service", Seen},
	{"tmc-rp-237", "TMC", "TMC RP 237, Retorquing guidelines for disc wheels", "50 to 100 miles, in the trade press", SecondHand},
	{"nfpa-52-58", "NFPA", "NFPA 52 and NFPA 58, natural gas vehicles and liquefied petroleum gas", "", Memory},
	{"nec-215-2", "NFPA", "NFPA 70 (NEC), 215.2, informational note on voltage drop", "5 % in all", Memory},
	{"cfr-42-84", "NIOSH", "42 CFR 84, approval of respirators", "P100", Memory},
	{"en-143", "CEN", "EN 143, particle filters", "P3", Memory},
	{"osha-254-d9", "OSHA", "29 CFR 1910.254(d)(9), maintenance of arc welding equipment", "", Memory},
	{"atsdr-mmg", "ATSDR", "ATSDR Medical Management Guidelines", "phosgene; nitrogen oxides", SecondHand},
	{"msha-tyres", "MSHA", "MSHA accident prevention tip of 2008, tire explosion hazards due to heat", "", SecondHand},
	{"aws-c5-2", "AWS", "AWS C5.2, Recommended practices for plasma arc cutting", "names of dross", Memory},
}

// Listed returns every source there is, those of check values and guides too.
func Listed() []Source {
	list := append(append([]Source(nil), guides...), checks...)
	for _, s := range all() {
		list = append(list, s)
	}
	return list
}

// ForGuides returns the sources that only guides rest on.
func ForGuides() []Source { return guides }
