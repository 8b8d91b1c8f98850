package source

var shop = []Source{
	{ID: "navedtra-14251a", By: "US Navy", Title: "NAVEDTRA 14251A, Steelworker training manual, chapter 5", Where: "labour and overhead about 85 % of the cost of a weld, power under 1 %", Standing: Seen},
	{ID: "jwst-concavity", By: "Japan Welding Society", Title: "Quarterly Journal of the Japan Welding Society 28(3), 311–318 (2010)", Where: "concavity of hafnium electrodes by starts and by steady arc", Standing: SecondHand},
	{ID: "nemchinsky-2014", By: "Nemchinsky", Title: "IEEE Transactions on Plasma Science 42(1), 199–215 (2014)", Where: "cyclic and steady erosion of hafnium cathodes", Standing: SecondHand},
	{ID: "lawson-hanson", By: "Lawson and Hanson", Title: "Solving Least Squares Problems (1974)", Where: "non-negative least squares", Standing: Memory},
}
