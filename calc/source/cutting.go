package source

var cutting = []Source{
	{"iec-60974-1-load", "IEC", "IEC 60974-1, conventional load voltage of plasma cutting, U2 = 80 + 0.4·I2", "", Memory},
	{"kerf-balance", "", "the authors' energy balance of a kerf, checked against handbook rows", "share of power and oxide skin are their choice", Judgement},
	{"gpml-3-9", "Rasmussen and Williams", "Gaussian Processes for Machine Learning (2006)", "section 3.9, moments of a probit likelihood with a normal prior", Memory},
	{"iso-9013", "ISO", "ISO 9013:2017, Thermal cutting, classification of thermal cuts", "ranges of u and Rz5", SecondHand},
}
