package source

var cutting = []Source{
	{ID: "iec-60974-1-load", By: "IEC", Title: "IEC 60974-1, conventional load voltage of plasma cutting, U2 = 80 + 0.4·I2", Standing: Memory},
	{ID: "kerf-balance", Title: "the authors' energy balance of a kerf, checked against handbook rows", Where: "share of power and oxide skin are their choice", Standing: Judgement},
	{ID: "gpml-3-9", By: "Rasmussen and Williams", Title: "Gaussian Processes for Machine Learning (2006)", Where: "section 3.9, moments of a probit likelihood with a normal prior", Standing: Memory},
	{ID: "iso-9013", By: "ISO", Title: "ISO 9013:2017, Thermal cutting, classification of thermal cuts", Where: "ranges of u and Rz5", Standing: SecondHand},
}
