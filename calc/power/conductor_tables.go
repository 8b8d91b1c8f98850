package power

// awgRows are NEC chapter 9, table 8: circular mils, and Ω per 1000 ft of
// uncoated copper at 75 °C, from two copies that agree. Solid conductors end
// at 8 AWG. One copy in circulation prints the solid values as stranded.
var awgRows = []struct {
	name            string
	mils            float64
	solid, stranded float64
}{
	{name: "18", mils: 1620, solid: 7.77, stranded: 7.95},
	{name: "16", mils: 2580, solid: 4.89, stranded: 4.99},
	{name: "14", mils: 4110, solid: 3.07, stranded: 3.14},
	{name: "12", mils: 6530, solid: 1.93, stranded: 1.98},
	{name: "10", mils: 10380, solid: 1.21, stranded: 1.24},
	{name: "8", mils: 16510, solid: 0.764, stranded: 0.778},
	{name: "6", mils: 26240, solid: 0, stranded: 0.491},
	{name: "4", mils: 41740, solid: 0, stranded: 0.308},
	{name: "3", mils: 52620, solid: 0, stranded: 0.245},
	{name: "2", mils: 66360, solid: 0, stranded: 0.194},
	{name: "1", mils: 83690, solid: 0, stranded: 0.154},
	{name: "1/0", mils: 105600, solid: 0, stranded: 0.122},
	{name: "2/0", mils: 133100, solid: 0, stranded: 0.0967},
	{name: "3/0", mils: 167800, solid: 0, stranded: 0.0766},
	{name: "4/0", mils: 211600, solid: 0, stranded: 0.0608},
}

// metricRows are IEC 60228: maximum Ω per km at 20 °C of plain copper of class
// 1 and 2 (solid), of class 5 and 6 (flexible), and of tinned class 5 and 6,
// from three copies that agree.
var metricRows = []struct {
	name                    string
	area                    float64
	solid, flexible, tinned float64
}{
	{name: "0.5", area: 0.5, solid: 36.0, flexible: 39.0, tinned: 40.1},
	{name: "0.75", area: 0.75, solid: 24.5, flexible: 26.0, tinned: 26.7},
	{name: "1", area: 1, solid: 18.1, flexible: 19.5, tinned: 20.0},
	{name: "1.5", area: 1.5, solid: 12.1, flexible: 13.3, tinned: 13.7},
	{name: "2.5", area: 2.5, solid: 7.41, flexible: 7.98, tinned: 8.21},
	{name: "4", area: 4, solid: 4.61, flexible: 4.95, tinned: 5.09},
	{name: "6", area: 6, solid: 3.08, flexible: 3.30, tinned: 3.39},
	{name: "10", area: 10, solid: 1.83, flexible: 1.91, tinned: 1.95},
	{name: "16", area: 16, solid: 1.15, flexible: 1.21, tinned: 1.24},
	{name: "25", area: 25, solid: 0.727, flexible: 0.780, tinned: 0.795},
	{name: "35", area: 35, solid: 0.524, flexible: 0.554, tinned: 0.565},
	{name: "50", area: 50, solid: 0.387, flexible: 0.386, tinned: 0.393},
	{name: "70", area: 70, solid: 0.268, flexible: 0.272, tinned: 0.277},
	{name: "95", area: 95, solid: 0.193, flexible: 0.206, tinned: 0.210},
	{name: "120", area: 120, solid: 0.153, flexible: 0.161, tinned: 0.164},
	{name: "150", area: 150, solid: 0.124, flexible: 0.129, tinned: 0.132},
}
