package source

var photo = []Source{
	{"halir-flusser", "Halíř and Flusser", "Numerically stable direct least squares fitting of ellipses (WSCG 1998)", "after Fitzgibbon, Pilu and Fisher, IEEE Transactions on Pattern Analysis and Machine Intelligence 21(5), 476–480 (1999)", SecondHand},
	{"gum", "JCGM", "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement", "5.1.2", Memory},
	{"us-mint", "United States Mint", "United States Mint, coin specifications", "diameters", Seen},
	{"ec-975-98", "Council of the European Union", "Council Regulation (EC) No 975/98 on denominations and technical specifications of euro coins", "Article 1", Seen},
	{"photo-judgement", "", "the authors' judgement of what marks on a phone's picture can tell", "", Judgement},
}
