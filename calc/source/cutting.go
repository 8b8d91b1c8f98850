package source

var cutting = []Source{
	{"ppw-17-2", "Welding: Principles and Practices, typical conditions for plasma arc cutting of stainless steel", "chapter 17, table 17-2", SecondHand},
	{"ppw-17-3", "Welding: Principles and Practices, typical conditions for plasma arc cutting of aluminium alloys", "chapter 17, table 17-3", SecondHand},
	{"mathers-4-1", "Mathers, The Welding of Aluminium and its Alloys (Woodhead, 2002)", "table 4.1, plasma cutting", Seen},
	{"iec-60974-1-load", "IEC 60974-1, conventional load voltage of plasma cutting, U2 = 80 + 0.4·I2", "", Memory},
	{"hse-plasma", "Health and Safety Executive (UK), noise in welding and cutting: plasma cutting by hand up to 100 A and 25 mm", "", Seen},
	{"kerf-balance", "the authors' energy balance of a kerf, checked against handbook rows", "share of power and oxide skin are their choice", Judgement},
	{"gpml-3-9", "Rasmussen and Williams, Gaussian Processes for Machine Learning (2006)", "section 3.9, moments of a probit likelihood with a normal prior", Memory},
	{"iso-9013", "ISO 9013:2017, Thermal cutting, classification of thermal cuts", "ranges of u and Rz5", SecondHand},
	{"iso-9013-sheet", "Printed worksheet of EN ISO 9013 deviations", "u in inches at 1.5 to 25.4 mm", SecondHand},
}
