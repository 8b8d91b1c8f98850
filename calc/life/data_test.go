package life

import (
	"strconv"
	"strings"
)

// lives reads lives as tables of them are printed: F for failed, x3 for three such.
func lives(text string) []Life {
	var list []Life
	for _, word := range strings.Fields(text) {
		word, times, _ := strings.Cut(word, "x")
		n, err := strconv.Atoi(times)
		if err != nil {
			n = 1
		}
		number, failed := strings.CutSuffix(word, "F")
		t, err := strconv.ParseFloat(number, 64)
		if err != nil {
			panic(err)
		}
		for range n {
			list = append(list, Life{T: t, Failed: failed})
		}
	}
	return list
}

// Published lives.
const (
	// NIST/SEMATECH e-Handbook 8.4.1.3, hours.
	nist = "54F 187F 216F 240F 244F 335F 361F 373F 375F 386F 500x10"

	// Shock absorbers, km: O'Connor, Practical Reliability Engineering (1985) p. 85.
	shock = "6700F 6950 7820 8790 9120F 9660 9820 11310 11690 11850 11880 12140 12200F 12870 13150F 13330 13470 14040 14300F 17520F 17540 17890 18450 18960 18980 19410 20100F 20100 20150 20320 20900F 22700F 23490 26510F 27410 27490F 27890 28100"

	// Generator fans, hours: Nelson, Applied Life Data Analysis (1982) p. 318.
	fans = "450F 460 1150F 1150F 1560 1600F 1660 1850x5 2030x3 2070F 2070F 2080F 2200 3000x4 3100F 3200 3450F 3750x2 4150x4 4300x4 4600F 4850x4 5000x3 6100F 6100x3 6300 6450x2 6700 7450 7800x2 8100x2 8200 8500x3 8750F 8750x2 9400 9900 10100x3 11500"

	// The test of the Python package surpyval, which quotes R's survreg.
	surpyval = "17.9F 28.9F 33.0F 41.5F 42.1F 45.6F 48.4F 51.8F 51.9F 54.1F 55.6F 61.2F 67.8F 68.6F 68.9F 70x5"

	// Ovarian cancer, days: Edmunson et al. 1979, as in R's package survival.
	ovarian = "59F 115F 156F 268F 329F 353F 365F 377 421 431F 448 464F 475F 477 563F 638F 744 769 770 803 855 1040 1106 1129 1206 1227"
)
