// Package rode computes what lies between an anchor and a boat: how a rode of
// chains, ropes, weights and floats hangs, and what each part of it feels.
//
// A [Rode] is a list of pieces from the anchor to the bow. A [Site] is the
// water, the bed and the height of the bow roller. [Solve], [SolveDistance] and
// [SolveTension] give the [State] in which it hangs; a [Solver] does the same
// many times without allocating. [LengthFor], [PullFor] and [ScopeTable] turn
// the question round: how much to let out, and what it holds to.
//
// A [ChainWheel] pays it out, and a [Counter] says how much: [Calibrate] finds its
// setting from test lays, [LayToTell] and [ProposeLays] say which lays are worth
// the trouble. [MarkRode] marks the rode for the day the counter fails, and a
// [Locker] takes what is not out.
//
// [Rode.Snub] adds a snubber, [SolveSurge] tells the peak as the boat falls back,
// from the energy that [Solver.Energy] gives and the curve that [Rope.Cyclic] has for it,
// and [CompareSnubbers] and [SnubberLength] size the rope. [SolveBridle] and [HangBridle] give the legs of a
// bridle, [Craft] the rule for strong points. [EyeSplice], [ChooseSleeve],
// [ChooseShackle] and [CutList] are for making it, [SecureAnchor] and
// [BitterEndLashing] for what has to hold when nobody looks.
//
// # Accuracy
//
// The equations are those of a perfectly flexible line in still water, without
// bending stiffness or drag, with a load-extension curve for each piece; they
// are solved to rounding: heights and distances within 1e-12 of the rode's
// length. What limits the answer is what is put in: the pull of wind, waves and
// current, the friction of the bed, the stretch of a used rope.
//
// # Caution
//
// A static pull is the mean of what a boat feels. Gusts, sheering and waves
// load an anchor rode to a multiple of it, and seabeds differ more than
// anchors do. Use the figures to compare and to plan, keep the safety factors
// of the maker and of local rules, and keep an anchor watch when it blows. A
// loaded rope that parts snaps back and can kill: keep out of its line and out
// of the bight of a bridle.
package rode
