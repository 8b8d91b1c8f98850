package source

var diagnoseSources = []Source{
	{ID: "pearl-1988", By: "Pearl", Title: "Probabilistic Reasoning in Intelligent Systems (1988)", Where: "noisy-OR, p. 184", Standing: SecondHand},
	{ID: "kadane-1977", By: "Kadane and Simon", Title: "Optimal strategies for a class of constrained sequential problems", Where: "Annals of Statistics 5, 1977, p. 237, from memory", Standing: Memory},
	{ID: "kerfside-judgement", Title: "the authors' judgement, not measured", Where: "how often each cause shows each sign, and what each check costs", Standing: Judgement},
}
