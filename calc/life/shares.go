package life

// shares picks laws by their weights.
type shares struct {
	upTo  []float64 // the weight of each and of all before it
	first []int32   // the law where each of as many even parts of the whole begins
}

func newShares(laws Laws) shares {
	s := shares{upTo: make([]float64, len(laws)), first: make([]int32, len(laws))}
	sum := 0.0
	for i, l := range laws {
		sum += l.Weight
		s.upTo[i] = sum
	}
	at := 0
	for k := range s.first {
		for at < len(laws)-1 && float64(k) >= s.upTo[at]*float64(len(laws)) {
			at++
		}
		s.first[k] = int32(at)
	}
	return s
}

// pick returns the law at the share u of the weights, 0 to 1.
func (s shares) pick(u float64) int {
	at := int(s.first[min(int(u*float64(len(s.first))), len(s.first)-1)])
	for at < len(s.upTo)-1 && u >= s.upTo[at] {
		at++
	}
	return at
}
