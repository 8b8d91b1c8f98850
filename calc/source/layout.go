package source

var layout = []Source{
	{ID: "hatfield-88", By: "R. G. Hatfield", Title: "The American House-Carpenter", Where: "8th edition, article 88", Standing: SecondHand},
	{ID: "faa-weighing", By: "FAA", Title: "Advisory Circular 43.13-1B, Acceptable Methods, Techniques and Practices: Aircraft Inspection and Repair", Where: "chapter 10, figures 10-10 and 10-11", Standing: SecondHand},
	{ID: "crane-safety", By: "BC Association for Crane Safety", Title: "Practice questions for riggers", Where: "a bridle of two legs", Standing: SecondHand},
	{ID: "enotes-scaffold", By: "eNotes", Title: "Answers of teachers, physics", Where: "question 148965, a painter's scaffold", Standing: SecondHand},
	{ID: "schoolngr-plank", By: "SchoolNGR", Title: "Physics past questions", Where: "question 49530, a boy on a plank", Standing: SecondHand},
	{ID: "wyzant-table", By: "Wyzant", Title: "Answers of tutors, physics", Where: "question 177111, a table and who stands on it", Standing: SecondHand},
	{ID: "web2-ropes", By: "web2.0calc", Title: "Forum of questions", Where: "450 pounds on two ropes", Standing: SecondHand},
	{ID: "mitre-sheet", By: "unnamed designer", Title: "Mitre bend, design and development, a public design sheet", Where: "Scribd document 510677269, both examples", Standing: SecondHand},
	{ID: "edu-plank", By: "edu.com", Title: "Questions and answers, physics", Where: "question 1163913, a boy on a plank; where the boy stands is inferred", Standing: SecondHand},
	{ID: "edexcel-bins", By: "Edexcel", Title: "Decision mathematics, past papers with mark schemes", Where: "bin packing questions, as collected at a.simonm.io", Standing: SecondHand},
	{ID: "stem-bins", By: "STEM Learning", Title: "Bin packing, a resource for decision mathematics", Where: "pieces of 2 8 4 5 2 5 4 out of 10", Standing: SecondHand},
	{ID: "or-library-bins", By: "J. E. Beasley", Title: "OR-Library, one-dimensional bin packing", Where: "binpack5, t60_00: optimum 20", Standing: SecondHand},
	{ID: "mh31-bends", By: "Oberg, Jones, Horton and Ryffel", Title: "Machinery's Handbook, 31st edition", Where: "p. 1421, lengths of bends and figure 13", Standing: Seen},
	{ID: "din-6935", By: "DIN", Title: "DIN 6935, Cold bending of flat steel", Where: "allowance and a worked bend of 60 degrees, in pages of a table book", Standing: SecondHand},
	{ID: "iec-60974-1-gouge", By: "IEC", Title: "IEC 60974-1, conventional load voltage of plasma gouging, U2 = 100 + 0.4·I2", Standing: Memory},
}
