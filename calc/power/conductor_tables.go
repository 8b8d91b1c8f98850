package power

// awgRows are NEC chapter 9, table 8: circular mils, and Ω per 1000 ft of
// uncoated copper at 75 °C, from two copies that agree. Solid conductors end
// at 8 AWG. One copy in circulation prints the solid values as stranded.
var awgRows = []struct {
	name            string
	mils            float64
	solid, stranded float64
}{
	{"18", 1620, 7.77, 7.95},
	{"16", 2580, 4.89, 4.99},
	{"14", 4110, 3.07, 3.14},
	{"12", 6530, 1.93, 1.98},
	{"10", 10380, 1.21, 1.24},
	{"8", 16510, 0.764, 0.778},
	{"6", 26240, 0, 0.491},
	{"4", 41740, 0, 0.308},
	{"3", 52620, 0, 0.245},
	{"2", 66360, 0, 0.194},
	{"1", 83690, 0, 0.154},
	{"1/0", 105600, 0, 0.122},
	{"2/0", 133100, 0, 0.0967},
	{"3/0", 167800, 0, 0.0766},
	{"4/0", 211600, 0, 0.0608},
}

// metricRows are IEC 60228: maximum Ω per km at 20 °C of plain copper of class
// 1 and 2 (solid), of class 5 and 6 (flexible), and of tinned class 5 and 6,
// from three copies that agree.
var metricRows = []struct {
	name                    string
	area                    float64
	solid, flexible, tinned float64
}{
	{"0.5", 0.5, 36.0, 39.0, 40.1},
	{"0.75", 0.75, 24.5, 26.0, 26.7},
	{"1", 1, 18.1, 19.5, 20.0},
	{"1.5", 1.5, 12.1, 13.3, 13.7},
	{"2.5", 2.5, 7.41, 7.98, 8.21},
	{"4", 4, 4.61, 4.95, 5.09},
	{"6", 6, 3.08, 3.30, 3.39},
	{"10", 10, 1.83, 1.91, 1.95},
	{"16", 16, 1.15, 1.21, 1.24},
	{"25", 25, 0.727, 0.780, 0.795},
	{"35", 35, 0.524, 0.554, 0.565},
	{"50", 50, 0.387, 0.386, 0.393},
	{"70", 70, 0.268, 0.272, 0.277},
	{"95", 95, 0.193, 0.206, 0.210},
	{"120", 120, 0.153, 0.161, 0.164},
	{"150", 150, 0.124, 0.129, 0.132},
}
