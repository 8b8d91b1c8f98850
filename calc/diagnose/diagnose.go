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
//     switches the machine on, and nothing is asked that does not concern it.
//     Checks for harm go before all others, and a yes to one ends the search:
//     the rig goes to a qualified person. After a shock, smoke, an arc that goes
//     on, a device that tripped or a dark machine only a cause that was found
//     leads back to work.
//  2. What a sign asks first: the vents at a heat light, the manual at a fault
//     lamp, the seat of the cup after a change of parts (Check.First).
//  3. What leaves the torch shut: a look, a hand on clamp, drain or coupler, the
//     gauge while air flows, a short cut that is faster, slower, closer, upright
//     or from an edge. Where melt came back, or a breaker has its one reset, all
//     that can be told without an arc is told before one is struck. A long wait
//     comes after what can be done meanwhile.
//  4. The head. Making the torch dead takes ten to fifteen minutes with the way
//     back, so it is done last, and once: all that is worth a look in the head is
//     looked at in that one opening, in the order in which it comes apart. Copper
//     that burned, or an arc out of the side, wants all of it looked at.
//
// No check is asked that cannot be made: no cut without an arc, no flow without
// air, no lamp on a dark machine.
//
// Within the third step checks are made by chance of finding the cause over
// minutes, largest first, which finds it soonest (Kadane and Simon 1977).
//
// Nothing is acted on below 0.85, also when there is nothing left to ask. Nothing is
// mended unseen: a check has to bring it out. What was found is mended before the
// search goes on, and goes on after a cure that helped in part.
//
// References: Pearl 1988 (noisy-OR); Kadane and Simon 1977, Annals of Statistics
// 5 (search by chance over cost).
package diagnose

import "kerfside/calc/form"

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&FaultRank}
