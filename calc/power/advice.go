package power

// What every sum of supply says, in one wording.
const (
	// VoltsLost has two figures with two meanings: the advice of NEC 210.19 and
	// 215.2, and the tolerance of a supply by IEC 60974-1, from memory.
	VoltsLost = "Lose at most 5 %% of the volts in the cord. Past 10 %% under load the machine may stop: its manual says what it bears."
	Protected = "Keep residual-current protection in every supply. After a shock or tingle, reset nothing. A licensed electrician decides what may be plugged in."
)
