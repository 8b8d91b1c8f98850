package source

var pipes = []Source{
	{ID: "b36-10", By: "ASME", Title: "ASME B36.10M, Welded and seamless wrought steel pipe", Where: "outside diameters and walls in piping.py of the open library fluids", Standing: SecondHand},
	{ID: "en-10220", By: "CEN", Title: "EN 10220, Seamless and welded steel tubes, and EN 10255, tubes for threading", Where: "series 1 by DN, medium and heavy walls, in open tables of pipes; heavy walls from memory", Standing: SecondHand},
	{ID: "navedtra-14251-branch", By: "US Navy", Title: "NAVEDTRA 14251, Steelworker, chapter 3", Where: "branch to header connections, at figure 3-50: angles under 45 degrees", Standing: Seen},
}
