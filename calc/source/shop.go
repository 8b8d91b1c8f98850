package source

var shop = []Source{
	{"navedtra-14251a", "US Navy", "NAVEDTRA 14251A, Steelworker training manual, chapter 5", "labour and overhead about 85 % of the cost of a weld, power under 1 %", Seen},
	{"jwst-concavity", "Japan Welding Society", "Quarterly Journal of the Japan Welding Society 28(3), 311–318 (2010)", "concavity of hafnium electrodes by starts and by steady arc", SecondHand},
	{"nemchinsky-2014", "Nemchinsky", "IEEE Transactions on Plasma Science 42(1), 199–215 (2014)", "cyclic and steady erosion of hafnium cathodes", SecondHand},
	{"lawson-hanson", "Lawson and Hanson", "Solving Least Squares Problems (1974)", "non-negative least squares", Memory},
}
