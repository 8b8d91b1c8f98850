// Package diagnose finds what is wrong when a cut goes bad. Its model is a
// noisy-OR network of two layers: each cause, when present, shows each of its
// signs with some chance, independently of the others, and each sign shows now
// and then by itself (its leak). Given signs seen and not seen and checks
// answered, it returns how likely each cause is, exactly but for one bound (see
// Net.Posterior), and the next check that is worth its minutes.
//
// The engine is checked on published networks; the knowledge (Causes, Signs,
// Checks) is the authors' judgement, in five steps of frequency, and says so. A
// crew's own confirmed faults re-weight it.
//
// References: Pearl 1988 (noisy-OR); Heckerman, Breese and Rommelse 1995,
// Communications of the ACM 38(3) (repairs and checks by expected cost).
package diagnose

import "kerfside/calc/form"

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&FaultRank}
