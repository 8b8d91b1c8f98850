package source

var pipes = []Source{
	{ID: "b36-10", By: "ASME", Title: "ASME B36.10M, Welded and seamless wrought steel pipe", Where: "outside diameters and walls in piping.py of the open library fluids", Standing: SecondHand},
	{ID: "en-10220", By: "CEN", Title: "EN 10220, Seamless and welded steel tubes, and EN 10255, tubes for threading", Where: "series 1 by DN, medium and heavy walls, in open tables of pipes; heavy walls from memory", Standing: SecondHand},
}
