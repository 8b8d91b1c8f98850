package source

// guides are the sources that only the guides rest on: no program that is given
// to anybody holds them.
var guides = []Source{
	{ID: "osha-134", By: "OSHA", Title: "29 CFR 1910.134, respiratory protection", Where: "(d)(2)(iii), (e)(1), (f)(2), (g), (h) and appendix B-1, in OSHA's letters and in quotations; (i) and appendix B-2 from memory", Standing: SecondHand},
	{ID: "osha-146", By: "OSHA", Title: "29 CFR 1910.146, permit-required confined spaces", Standing: Memory},
	{ID: "osha-147", By: "OSHA", Title: "29 CFR 1910.147, control of hazardous energy", Where: "(d), the order of steps; (d)(5), stored energy; in copies", Standing: SecondHand},
	{ID: "osha-242", By: "OSHA", Title: "29 CFR 1910.242, hand and portable tools", Where: "(b), cleaning with compressed air: under 30 psi", Standing: Seen},
	{ID: "osha-1926-404", By: "OSHA", Title: "29 CFR 1926.404, wiring design and protection", Where: "(b)(1) ground-fault protection, (f)(3) portable generators, in quotations", Standing: SecondHand},
	{ID: "osha-1926-1126", By: "OSHA", Title: "29 CFR 1926.1126, chromium (VI) in construction", Where: "5 µg/m³", Standing: Memory},
	{ID: "nec-250-34", By: "NFPA", Title: "NFPA 70 (NEC), 250.34, portable and vehicle-mounted generators", Where: "in quotations", Standing: SecondHand},
	{ID: "nec-590-6", By: "NFPA", Title: "NFPA 70 (NEC), 590.6, ground-fault protection of temporary wiring", Where: "in quotations", Standing: SecondHand},
	{ID: "iec-60974-4", By: "IEC", Title: "IEC 60974-4, Arc welding equipment, periodic inspection and testing", Where: "scope, in the publisher's summary of 2010", Standing: SecondHand},
	{ID: "osha-1001-f", By: "OSHA", Title: "29 CFR 1910.1001 appendix F, brake and clutch work", Where: "wet or enclosed, in a copy", Standing: SecondHand},
	{ID: "osha-weld-chemicals", By: "OSHA", Title: "Welding, cutting and brazing, chemicals", Where: "residues of chlorinated degreasers decompose when heated", Standing: Seen},
	{ID: "nhtsa-air-bags", By: "NHTSA", Title: "Emergency rescue guidelines for air bag equipped cars", Where: "undeployed bags, in a copy", Standing: SecondHand},
	{ID: "epa-609", By: "EPA", Title: "US Clean Air Act 609, a fact sheet on motor vehicle air conditioning", Where: "who may service", Standing: Seen},
	{ID: "tmc-rp-237", By: "TMC", Title: "TMC RP 237, Retorquing guidelines for disc wheels", Where: "50 to 100 miles, in the trade press", Standing: SecondHand},
	{ID: "nfpa-52-58", By: "NFPA", Title: "NFPA 52 and NFPA 58, natural gas vehicles and liquefied petroleum gas", Standing: Memory},
	{ID: "nec-215-2", By: "NFPA", Title: "NFPA 70 (NEC), 215.2, informational note on voltage drop", Where: "5 % in all", Standing: Memory},
	{ID: "cfr-42-84", By: "NIOSH", Title: "42 CFR 84, approval of respirators", Where: "P100", Standing: Memory},
	{ID: "en-143", By: "CEN", Title: "EN 143, particle filters", Where: "P3", Standing: Memory},
	{ID: "osha-254-d9", By: "OSHA", Title: "29 CFR 1910.254(d)(9), maintenance of arc welding equipment", Standing: Memory},
	{ID: "atsdr-mmg", By: "ATSDR", Title: "ATSDR Medical Management Guidelines", Where: "phosgene; nitrogen oxides", Standing: SecondHand},
	{ID: "msha-tyres", By: "MSHA", Title: "MSHA accident prevention tip of 2008, tire explosion hazards due to heat", Standing: SecondHand},
	{ID: "aws-c5-2", By: "AWS", Title: "AWS C5.2, Recommended practices for plasma arc cutting", Where: "names of dross", Standing: Memory},
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
