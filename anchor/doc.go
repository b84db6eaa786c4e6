// Package anchor computes what pulls a boat that lies to an anchor, what holds it,
// and what it takes to get the anchor back.
//
// Loads: a [Windage] is the sum of a boat's parts, each with its area, drag and
// height; [Windage.Load] gives the force and the yawing moment of a [Wind] from any
// side, [GustFactor] and [Exposure] what its gusts are, [Underwater.Load] those of a
// current, [Waves.Drift] and [Waves.Surge] what a seaway adds, and [Lie] how the
// boat lies between a wind and a current that disagree. [Estimate] makes a Windage
// from a boat's main dimensions when its areas are not known.
//
// Holding: [Holding] gives the range within which an anchor of a mass may hold in a
// soil, [BackDown] what backing down on it has shown.
//
// Windlass: [Windlass.Retrieve] follows a whole retrieval from the first link to the
// anchor at the roller: pull, speed, current, time and energy.
//
// Tide and swing: [Tide] and [Sounding] give the depth over a night, [SwingCircle]
// where boat and antenna may come, [PlanNight] the rode for the worst moment of the
// night, [AlarmRadius] and [Watch] what tells a dragging anchor.
//
// In time: [Ride] follows a boat that surges, sways and yaws to her rode in gusts
// and waves, once or many times, and fits the greatest loads; snubbers, rodes and
// riding sails can be compared with it.
//
// Rules: [HorizontalLoads], [EquipmentNumber] and [SmallVesselGear] are published
// rules to set beside the calculation. Each says where it ends.
//
// # Accuracy
//
// The mechanics is solved to rounding. Drag coefficients are good to a fifth, an
// estimate from main dimensions to a third, and the holding of one anchor in two
// places on the same chart differs by more than anything else here: results carry
// their range, and the range is the result.
//
// # Caution
//
// These figures are for comparing and planning. They do not know the seabed under
// the boat. Keep the safety factors of makers and of local rules, set the anchor and
// check that it holds, and keep an anchor watch when it blows.
package anchor
