// Package diagnose finds what is wrong when a cut goes bad, in the order in
// which an old hand searches.
//
// # What is known
//
// Causes, Signs and Checks are tied together by one table, frequencies: how
// often a cause shows a sign or comes out in a check, in the words always,
// often, sometimes, seldom and never. `go run ./cmd/dev faults` prints it for
// people of the trade to argue with. The figures behind the words are the
// authors' judgement. A crew's own confirmed faults re-weight it.
//
// # How likely each cause is
//
// The model is a noisy-OR network of two layers: each cause, when present, shows
// each of its signs with its own chance, independently of the others, and each
// sign shows now and then by itself (its leak). The answer is exact but for one
// bound (see Net.Posterior), and the engine is checked on published networks.
// What is known rules out: no generator on the mains, no ice in the warm, and a
// check that the plan, the journal or the inspection has answered is not asked.
// Causes under 1 in 20 are neither shown nor looked for.
//
// # In which order they are looked for
//
//  1. What can hurt: a sign that means stop is told first, nothing after it
//     switches the machine on, and checks for harm go before all others.
//  2. What leaves the torch shut: a look, a hand on clamp, drain or coupler, the
//     gauge while air flows, a short cut that is faster, slower, closer, upright
//     or from an edge.
//  3. The head. Making the torch dead takes ten to fifteen minutes with the way
//     back, so it is done last, and once: all that is worth a look in the head is
//     looked at in that one opening, in the order in which it comes apart.
//
// Within the second step checks are made by chance of finding the cause over
// minutes, largest first, which finds it soonest (Kadane and Simon 1977).
//
// Nothing is acted on below 0.85, also when there is nothing left to ask. A part
// of the head is never changed unseen: its own check has to bring it out.
//
// References: Pearl 1988 (noisy-OR); Kadane and Simon 1977, Annals of Statistics
// 5 (search by chance over cost); Heckerman, Breese and Rommelse 1995,
// Communications of the ACM 38(3).
package diagnose

import "kerfside/calc/form"

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&FaultRank}
