package source

var diagnoseSources = []Source{
	{"pearl-1988", "Pearl", "Probabilistic Reasoning in Intelligent Systems (1988)", "noisy-OR, p. 184", SecondHand},
	{"kadane-1977", "Kadane and Simon", "Optimal strategies for a class of constrained sequential problems", "Annals of Statistics 5, 1977, p. 237, from memory", Memory},
	{"kerfside-judgement", "", "the authors' judgement, not measured", "how often each cause shows each sign, and what each check costs", Judgement},
}
