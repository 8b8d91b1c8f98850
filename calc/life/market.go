package life

// All lists a stock's figures: tips, electrodes, others.
func (s Stock) All() []int { return append([]int{s.Tips, s.Electrodes}, s.Others...) }

// market is where stocks are compared.
type market struct {
	in   NeedInput
	pair joint
}

// chance is how likely a stock is enough.
func (m market) chance(s Stock) float64 {
	return m.pair.chance(s.Tips, s.Electrodes) * m.others(s.Others)
}

func (m market) others(stock []int) float64 {
	p := 1.0
	for i, o := range m.in.Others {
		p *= o.Counts.Chance(stock[i])
	}
	return p
}

// short is how likely each kind runs short of the stock.
func (m market) short(s Stock) []float64 {
	short := []float64{1 - m.pair.chance(s.Tips, mostParts), 1 - m.pair.chance(mostParts, s.Electrodes)}
	for i, o := range m.in.Others {
		short = append(short, 1-o.Counts.Chance(s.Others[i]))
	}
	return short
}

// off is by how much chance may be off.
func (m market) off(s Stock) float64 {
	return m.pair.off(s.Tips, s.Electrodes) * m.others(s.Others)
}

// reaches reports whether a stock is enough at the level, beyond the simulation's doubt.
func (m market) reaches(s Stock) bool {
	p := m.chance(s)
	return p >= float64(m.in.Level) && p-m.off(s) >= float64(m.in.Level)
}

// price is what a stock costs, or how many parts it holds where a price is not known.
func (m market) price(s Stock) float64 {
	known := m.in.Tip.Price > 0 && m.in.Electrode.Price > 0
	for _, o := range m.in.Others {
		known = known && o.Price > 0
	}
	if !known {
		sum := s.Tips + s.Electrodes
		for _, n := range s.Others {
			sum += n
		}
		return float64(sum)
	}
	sum := float64(s.Tips)*float64(m.in.Tip.Price) + float64(s.Electrodes)*float64(m.in.Electrode.Price)
	for i, n := range s.Others {
		sum += float64(n) * float64(m.in.Others[i].Price)
	}
	return sum
}

// cheapest finds the stock that reaches the level, holds what have does and one of
// each kind at least, and costs the least; see ComputeNeed. It may find none where a
// part may last next to nothing.
func (m market) cheapest(have Stock) (best Stock, chance float64, found bool) {
	try := func(s Stock) {
		less := !found || m.price(s) < m.price(best)-1e-9
		if p := m.chance(s); less || m.price(s) < m.price(best)+1e-9 && p > chance {
			best, chance, found = s, p, true
			best.Others = append([]int(nil), s.Others...)
		}
	}
	tips, electrodes := m.pair.most()
	low, high := Stock{Tips: max(have.Tips, 1), Electrodes: max(have.Electrodes, 1)}, Stock{Tips: max(tips, have.Tips, 1), Electrodes: max(electrodes, have.Electrodes, 1)}
	m.eachOthers(have.Others, func(others []int) {
		// The more tips, the fewer electrodes are enough.
		s := Stock{Tips: low.Tips, Electrodes: high.Electrodes, Others: others}
		for ; s.Tips <= high.Tips; s.Tips++ {
			if !m.reaches(s) {
				continue
			}
			for fewer := s; fewer.Electrodes > low.Electrodes; s = fewer {
				fewer.Electrodes--
				if !m.reaches(fewer) {
					break
				}
			}
			try(s)
			if s.Electrodes == low.Electrodes {
				break
			}
		}
	})
	return best, chance, found
}

// eachOthers goes through the stocks of the other parts that may be the cheapest: from
// one each, or what there is, to where more of a kind hardly help.
func (m market) eachOthers(have []int, visit func([]int)) {
	now := make([]int, len(have))
	var turn func(i int)
	turn = func(i int) {
		if i == len(now) {
			visit(now)
			return
		}
		counts, low := m.in.Others[i].Counts, max(have[i], 1)
		sure := counts.Spares(1 - (1-float64(m.in.Level))/20)
		for now[i] = max(low, counts.Spares(float64(m.in.Level))); now[i] <= max(low, sure); now[i]++ {
			turn(i + 1)
		}
	}
	turn(0)
}
