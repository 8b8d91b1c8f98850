package source

var photo = []Source{
	{ID: "halir-flusser", By: "Halíř and Flusser", Title: "Numerically stable direct least squares fitting of ellipses (WSCG 1998)", Where: "after Fitzgibbon, Pilu and Fisher, IEEE Transactions on Pattern Analysis and Machine Intelligence 21(5), 476–480 (1999)", Standing: SecondHand},
	{ID: "gum", By: "JCGM", Title: "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement", Where: "5.1.2", Standing: Memory},
	{ID: "us-mint", By: "United States Mint", Title: "United States Mint, coin specifications", Where: "diameters", Standing: Seen},
	{ID: "ec-975-98", By: "Council of the European Union", Title: "Council Regulation (EC) No 975/98 on denominations and technical specifications of euro coins", Where: "Article 1", Standing: Seen},
	{ID: "photo-judgement", Title: "the authors' judgement of what marks on a phone's picture can tell", Standing: Judgement},
}
