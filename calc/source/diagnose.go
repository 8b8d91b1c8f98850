package source

var diagnoseSources = []Source{
	{"pearl-1988", "Pearl", "Probabilistic Reasoning in Intelligent Systems (1988)", "noisy-OR, p. 184", SecondHand},
	{"heckerman-1995", "Heckerman, Breese and Rommelse", "Decision-theoretic troubleshooting", "Communications of the ACM 38(3), 1995", SecondHand},
	{"kerfside-judgement", "", "the authors' judgement, not measured", "how often each cause shows each sign, and what each check costs", Judgement},
}
