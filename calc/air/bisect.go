package air

// bisect returns the largest x from low to high for which holds is true, for a
// condition that holds up to some point and not beyond, to a relative 1e-15.
// If it does not even hold at low, it returns low.
func bisect(low, high float64, holds func(float64) bool) float64 {
	low, _ = narrow(low, high, holds)
	return low
}

// bisectUp returns the smallest x from low to high for which fails is false,
// for a condition that fails up to some point. It holds at high.
func bisectUp(low, high float64, fails func(float64) bool) float64 {
	if !fails(low) {
		return low
	}
	_, high = narrow(low, high, fails)
	return high
}

// narrow closes in on the point up to which test is true.
func narrow(low, high float64, test func(float64) bool) (float64, float64) {
	for i := 0; i < 200 && high-low > 1e-15*high; i++ {
		x := low + (high-low)/2
		if test(x) {
			low = x
		} else {
			high = x
		}
	}
	return low, high
}
