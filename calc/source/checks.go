package source

// checks are the sources that only check values rest on: no program that is
// given to anybody holds them.
var checks = []Source{
	{"tp410-7-16", "Crane", "Crane Technical Paper 410, Flow of fluids", "example 7-16, reduced to a worked notebook", SecondHand},
	{"measur", "Oak Ridge National Laboratory", "AMO-Tools-Suite (MEASUR), calculators of compressed air", "CompressedAir.unit.cpp, its tests", Seen},
	{"cagi-moisture", "CAGI", "Compressed Air and Gas Handbook", "tables 3.3 and 3.4, moisture in air", SecondHand},
	{"ppw-17-2", "Bohnart", "Welding: Principles and Practices (McGraw-Hill), typical conditions for plasma arc cutting of stainless steel", "chapter 17, table 17-2", SecondHand},
	{"ppw-17-3", "Bohnart", "Welding: Principles and Practices (McGraw-Hill), typical conditions for plasma arc cutting of aluminium alloys", "chapter 17, table 17-3", SecondHand},
	{"mathers-4-1", "Mathers", "The Welding of Aluminium and its Alloys (Woodhead, 2002)", "table 4.1, plasma cutting", Seen},
	{"hse-plasma", "Health and Safety Executive (UK)", "Noise in welding and cutting: plasma cutting by hand up to 100 A and 25 mm", "", Seen},
	{"cribsheet-106", "Production Machining", "Craftsman Cribsheet No. 106, Weights of Bars", "steel at 489.6 lb/ft³", Seen},
	{"aisc-shapes", "AISC", "AISC Steel Construction Manual, 15th edition, and its shapes database v15.0", "part 1, dimensions and properties, in an open copy", SecondHand},
	{"floyd-wire", "Floyd", "Electric Circuit Fundamentals, 2nd edition", "American wire gauge, ohms at 20 °C, reprinted by HyperPhysics (Georgia State University)", SecondHand},
	{"aws-glossary", "American Welding Society", "Welding glossary of the American Welding Society (awo.aws.org)", "duty cycle", Seen},
	{"itabc-orifices", "Industry Training Authority BC", "Block E: Fuel Gas Systems (BCcampus, 2023)", "appendix 2, imperial orifice capacity table", Seen},
	{"wood-bushings", "Wood magazine", "Understanding guide bushings", "figuring template offset, quoted in two forums", SecondHand},
	{"scipy", "SciPy", "SciPy 1.10.1, scipy.special and scipy.integrate", "by testdata/outside/statistics.py", Seen},
	{"scipy-nnls", "SciPy", "SciPy 1.10 documentation, scipy.optimize.nnls", "examples", Seen},
	{"octave-nnls", "GNU", "GNU Octave, lsqnonneg.m", "its tests", Seen},
	{"psychrolib", "Thevenard and Meyer", "PsychroLib, an open-source library of psychrometrics (MIT licence)", "version 1.1.1 and its tests", Seen},
	{"scikit-image", "scikit-image", "scikit-image 0.19.3, skimage.measure.EllipseModel", "example, and its results on sets of points", Seen},
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
