package life

import "math"

// elicited holds, for ln w = −3, −2.75 … 4.75, what the two statements of a prior make
// of w = shape·ln(Scale/Low): ln a, and −ln(G⁻¹(0.5; a)/a)/w. Solved beforehand, for
// a grid asks for some forty shapes and each would take a millisecond on a phone.
var elicited = [][2]float64{
	{6.978897729, 0.006236039},
	{6.474310127, 0.008044580},
	{5.968468092, 0.010391099},
	{5.461049013, 0.013444232},
	{4.951662930, 0.017430806},
	{4.439851832, 0.022658995},
	{3.925103634, 0.029552124},
	{3.406897565, 0.038698236},
	{2.884813126, 0.050922139},
	{2.358761605, 0.067386244},
	{1.829439035, 0.089717286},
	{1.299129841, 0.120117497},
	{0.772895202, 0.161306945},
	{0.259650660, 0.215935160},
	{-0.228449135, 0.285087268},
	{-0.679841643, 0.366504897},
	{-1.088582422, 0.454518167},
	{-1.456068852, 0.542327515},
	{-1.788773907, 0.624499418},
	{-2.094912401, 0.697935455},
	{-2.382095927, 0.761555367},
	{-2.656299081, 0.815564125},
	{-2.921772729, 0.860819340},
	{-3.181412177, 0.898430349},
	{-3.437185760, 0.929544020},
	{-3.690451269, 0.955240686},
	{-3.942154164, 0.976485736},
	{-4.192947115, 0.994107323},
	{-4.443263083, 1.008787038},
	{-4.693365046, 1.021061721},
	{-4.943389911, 1.031340491},
	{-5.193394120, 1.039936598},
}

// quickRate is rate by that table, to a few parts in ten thousand.
func (p Prior) quickRate(shape float64) gamma {
	w := min(shape*math.Log(p.Scale/p.Low), 100)
	at := (math.Log(w) + 3) * 4
	i := min(max(int(math.Floor(at)), 1), len(elicited)-3)
	t := at - float64(i)
	cubic := func(col int) float64 { // Lagrange's, through the two rows on either side
		before, low, high, after := elicited[i-1][col], elicited[i][col], elicited[i+1][col], elicited[i+2][col]
		return -before*t*(t-1)*(t-2)/6 + low*(t+1)*(t-1)*(t-2)/2 - high*(t+1)*t*(t-2)/2 + after*(t+1)*t*(t-1)/6
	}
	a := math.Exp(cubic(0))
	return gamma{a: a, mid: p.Scale * math.Exp(-cubic(1)*w/shape)}
}
