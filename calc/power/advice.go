package power

// What every sum of supply says, in one wording.
const (
	// VoltsLost has two figures with two meanings: the advice of NEC 210.19 and
	// 215.2, and the tolerance of a supply by IEC 60974-1, from memory.
	VoltsLost = "Choose cord and current so that at most 5 %% of the volts are lost. At more than 10 %% under load the machine may stop; what it bears is in its manual."
	Protected = "Keep residual-current protection in every supply; after a shock or tingle reset nothing. A licensed electrician decides what may be plugged in."
)
