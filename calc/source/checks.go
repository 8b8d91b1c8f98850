package source

// checks are the sources that only check values rest on: no program that is
// given to anybody holds them.
var checks = []Source{
	{ID: "oconnor-1985", By: "O'Connor", Title: "Practical Reliability Engineering (1985), failures of shock absorbers", Where: "p. 85, in a homework sheet of 2004; the estimates in the README of the R package SMRD", Standing: SecondHand},
	{ID: "tp410-7-16", By: "Crane", Title: "Crane Technical Paper 410, Flow of fluids", Where: "example 7-16, reduced to a worked notebook", Standing: SecondHand},
	{ID: "measur", By: "Oak Ridge National Laboratory", Title: "AMO-Tools-Suite (MEASUR), calculators of compressed air", Where: "CompressedAir.unit.cpp, its tests", Standing: Seen},
	{ID: "cagi-moisture", By: "CAGI", Title: "Compressed Air and Gas Handbook", Where: "tables 3.3 and 3.4, moisture in air", Standing: SecondHand},
	{ID: "ppw-17-2", By: "Bohnart", Title: "Welding: Principles and Practices (McGraw-Hill), typical conditions for plasma arc cutting of stainless steel", Where: "chapter 17, table 17-2", Standing: SecondHand},
	{ID: "ppw-17-3", By: "Bohnart", Title: "Welding: Principles and Practices (McGraw-Hill), typical conditions for plasma arc cutting of aluminium alloys", Where: "chapter 17, table 17-3", Standing: SecondHand},
	{ID: "mathers-4-1", By: "Mathers", Title: "The Welding of Aluminium and its Alloys (Woodhead, 2002)", Where: "table 4.1, plasma cutting", Standing: Seen},
	{ID: "hse-plasma", By: "Health and Safety Executive (UK)", Title: "Noise in welding and cutting: plasma cutting by hand up to 100 A and 25 mm", Standing: Seen},
	{ID: "cribsheet-106", By: "Production Machining", Title: "Craftsman Cribsheet No. 106, Weights of Bars", Where: "steel at 489.6 lb/ft³", Standing: Seen},
	{ID: "aisc-shapes", By: "AISC", Title: "AISC Steel Construction Manual, 15th edition, and its shapes database v15.0", Where: "part 1, dimensions and properties, in an open copy", Standing: SecondHand},
	{ID: "floyd-wire", By: "Floyd", Title: "Electric Circuit Fundamentals, 2nd edition", Where: "American wire gauge, ohms at 20 °C, reprinted by HyperPhysics (Georgia State University)", Standing: SecondHand},
	{ID: "aws-glossary", By: "American Welding Society", Title: "Welding glossary of the American Welding Society (awo.aws.org)", Where: "duty cycle", Standing: Seen},
	{ID: "itabc-orifices", By: "Industry Training Authority BC", Title: "Block E: Fuel Gas Systems (BCcampus, 2023)", Where: "appendix 2, imperial orifice capacity table", Standing: Seen},
	{ID: "wood-bushings", By: "Wood magazine", Title: "Understanding guide bushings", Where: "figuring template offset, quoted in two forums", Standing: SecondHand},
	{ID: "scipy", By: "SciPy", Title: "SciPy 1.10.1, scipy.special and scipy.integrate", Where: "by testdata/outside/statistics.py", Standing: Seen},
	{ID: "scipy-nnls", By: "SciPy", Title: "SciPy 1.10 documentation, scipy.optimize.nnls", Where: "examples", Standing: Seen},
	{ID: "octave-nnls", By: "GNU", Title: "GNU Octave, lsqnonneg.m", Where: "its tests", Standing: Seen},
	{ID: "psychrolib", By: "Thevenard and Meyer", Title: "PsychroLib, an open-source library of psychrometrics (MIT licence)", Where: "version 1.1.1 and its tests", Standing: Seen},
	{ID: "scikit-image", By: "scikit-image", Title: "scikit-image 0.19.3, skimage.measure.EllipseModel", Where: "example, and its results on sets of points", Standing: Seen},
	{ID: "fitter-equal-tee", By: "fitterkipurijankari.com", Title: "Equal tee branch formula (16 September 2023)", Where: "worked example of a 10 in branch", Standing: Seen},
	{ID: "fitter-lateral", By: "fitterkipurijankari.com", Title: "Equal lateral tee branch (23 September 2023)", Where: "worked example of a 4 in branch on 4 in at 45 degrees", Standing: Seen},
	{ID: "fitter-lateral-unequal", By: "fitterkipurijankari.com", Title: "Unequal lateral tee branch formula (24 September 2023)", Where: "worked example of a 3 in branch on 4 in at 45 degrees", Standing: Seen},
	{ID: "lendines-boca", By: "Fernández Lendines", Title: "Fórmula fácil para boca de pescado a 90 grados (March 2021)", Where: "caldereriasoldadura.blogspot.com, 2 in on 4 in in eight parts", Standing: Seen},
	{ID: "piping-ndt-branch", By: "piping-ndt.blogsky.com", Title: "notes on marking out branches, in Persian (spring 2021)", Where: "depths and distances for half diameters of 161.9 and 101.37 mm", Standing: Seen},
	{ID: "fabricator-lateral", By: "fabricatorguide.com", Title: "Equal pipe lateral branch formula (April 2019)", Where: "long and short cut at 45 degrees", Standing: Seen},
	{ID: "pitch-constants", By: "documentine.com", Title: "Pitch circle chordal distance calculation", Where: "a leaflet's table of the constant C for 3 to 30 holes", Standing: SecondHand},
	{ID: "toolbox-chords", By: "The Engineering ToolBox", Title: "Chord Lengths when Dividing a Circle in to Equal Segments", Where: "table for radius 1, and its example", Standing: Seen},
	{ID: "mh-guide-chords", By: "Industrial Press", Title: "Guide to the Use of Tables and Formulas in Machinery's Handbook", Where: "section 2, examples 1 and 2", Standing: Seen},
	{ID: "mh31-hole-circle", By: "Oberg, Jones, Horton and Ryffel", Title: "Machinery's Handbook, 31st edition", Where: "p. 711, coordinates of holes round a circle", Standing: Seen},
	{ID: "faa-setback", By: "FAA", Title: "Advisory Circular 43.13-1B, Acceptable Methods, Techniques and Practices: Aircraft Inspection and Repair", Where: "table 4-7, setback K", Standing: SecondHand},
	{ID: "mh31-segments", By: "Oberg, Jones, Horton and Ryffel", Title: "Machinery's Handbook, 31st edition", Where: "p. 50, 78 and 79, sectors and segments of circles", Standing: Seen},
	{ID: "matheass-circle", By: "matheass.eu", Title: "MatheAss help, Circular sections", Where: "its example and application", Standing: Seen},
	{ID: "vose-curves", By: "George L. Vose", Title: "Handbook of Railroad Construction", Where: "table of angles of deflection and radii; 6½° is misprinted there", Standing: SecondHand},
	{ID: "lyons-ellipse", By: "Lyons and Plisga", Title: "Standard Handbook of Petroleum and Natural Gas Engineering, 2nd edition", Where: "p. 11, length of an ellipse's perimeter", Standing: Seen},
}

// ForCheck returns the source of that id, be it one that the sums rest on or
// one that only check values do.
func ForCheck(id ID) (Source, bool) {
	for _, s := range checks {
		if s.ID == id {
			return s, true
		}
	}
	return Get(id)
}
