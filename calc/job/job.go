// Package job computes a job before it begins: how long it takes, what it needs and
// what it costs, from the job played through in order.
//
// # Method
//
// The job is a list of cuts, each of so many pieces, each piece of so many runs from
// arc on to arc off. One pair of hands does one thing at a time: gate, inspection,
// marking out, moving, cutting, draining the trap, changing parts, waiting. While it
// does, the tank fills, the compressor and the machine cool. There is no fixed step:
// between two events every state moves on a straight line, and the next event (arc
// off, after-flow over, cut-in, cut-out, compressor too warm, compressor rested) is
// found by division. So the result is exact for its laws, and costs a few divisions an
// event.
//
// State, with its law and its standing:
//
//   - Air in the tank, as calculator air-tank has it: constant temperature, mass
//     balance dm/dt = delivery (while the compressor runs) − draw (while the valve is
//     open: arc and after-flow). The compressor starts at cut-in and stops at cut-out.
//     The arc goes out while the tank still serves its after-flow. A hand that waits for
//     air lets out a little, so that the compressor runs: judgement.
//   - Coolness of the machine, 1 when cool and 0 when it must rest: an arc at a current
//     with duty cycle X takes 1/(10 min·X) away, nothing where X is 1; without arc it
//     comes back by 1/(10 min·(1 − X0)), X0 the least X of the job. For one current that
//     is the plate's rhythm exactly: 10 min·X of arc, 10 min·(1 − X) of rest. With
//     several it is careful with the lighter. The law is a judgement: heat of real machines
//     comes back slower and more of it fits in.
//   - Coolness of the compressor, by the same law with its own duty. At 0 it stops,
//     arc or not, until it is back at 1.
//   - Minutes of arc since the trap was drained, and what is used of tip and electrode.
//
// A run goes on as long as a full tank and a cool machine allow; one that is longer is
// made in several, and each further one costs a start. Before each, the hand waits until
// both serve it. Cuts in a job whose air or duty cycle is not known wait for neither, and
// the answer says that first.
//
// Doubt: the job is played many times with other speeds, times of the hand, air needs
// and lives of parts, drawn from a fixed sequence that covers all of them evenly
// (chance.Sobol). A range is where 9 in 10 of them lie.
package job
