// Package wiring computes a boat's direct-current wiring from the battery to the
// motor and back: what a conductor carries, how hot it gets, and where the volts go.
//
// A [Conductor] comes from a [Stock]: [Metric] (IEC 60228), [AWG], [SAE] or a list
// of the caller's own. [Ampacity] is what a published table lets it carry,
// [SteadyCurrent] what the heat balance of its surface gives, and [CarriedFor] what it
// carries for a short time.
//
// A [Circuit] is a network of elements between named nodes: batteries, cables,
// contacts, fuses and breakers, loads and motors. [Solve] gives the voltage of every
// node and the current of every element, with cold or hot copper; [Solution.DropTo]
// says which part takes which share of what a load misses. [MetricDrop] and
// [CircularMilDrop] are the short formulas that people know; [CompareDrop] says
// how far below the truth they lie. [Withdraw] follows the batteries through a day's
// use, [CheckDisconnects] says when their electronics switch them off. A [Windlass] builds
// the usual circuit.
//
// [SizeConductor] and [SizeRuns] choose cables; [ChooseRating], [RideThrough], [Selective],
// [CheckPlacements] and [ProposeFuse] the devices that protect them; [StudyFaults] and
// [CheckHull] try every fault. [ExpectReadings] says what a meter should show,
// [FindBadJoint] and [PlanHunt] what to do when it does not, and [ShoppingList] what to buy.
//
// # Accuracy
//
// The network is solved to rounding: currents balance at every node to 1e-10 of the
// largest. What limits the answer is what is put in: crimps, the state of the
// battery, the motor at the pull of the day. Tables are not extrapolated, and
// values that nobody could confirm are marked as such.
//
// # Caution
//
// A battery delivers thousands of amperes into a fault, and wiring that is too thin or
// not protected at its source sets boats on fire. These are calculations for planning.
// Follow the rules in force where the boat is built and used and the makers'
// instructions, and have the work checked by a qualified marine electrician.
package wiring
