// Package canvas takes work in cloth from the tape measure to pieces that can
// be cut out: covers, dodgers, awnings and cushions.
//
//   - [Survey] places the corners of a frame or an opening from more tape
//     distances than are needed, says how sure each corner is, and whether a
//     tape was misread.
//   - [Panel] is a piece of cloth as it is when finished: straight and curved
//     edges, what is done to each, holes, and the grain. [Cover] is what is sewn
//     of panels, with its seams; it refuses a seam whose two sides differ.
//   - [RoundedBox], [Cylinder], [BottleCover], [Dome], [Sphere], [Frustum], [ObliqueCone]
//     and [Transition] make covers of measured solids.
//   - [Mesh] is any other surface, measured point by point: [Mesh.Flatten] cuts it
//     along its seams and lays each part flat with the least strain, which it reports.
//   - [Cover.Pieces] adds allowances and shrinkage: the lines to be cut and sewn.
//   - Thread, needles, binding and eyelets: [Cover.Quantities], [Sewing], [Needle],
//     [BiasBinding.Cloth], [Spacing], [Panel.Fasteners]; [PriceList.Bill] prices them.
//   - [Awning] is a flat sunshade: the pull of cloth and wind in its edges and at
//     its corners, whether rain runs off, and the wind in which it has to be
//     struck; [ArcEdge], [Membrane], [Wind] and [Canopy] are its parts.
//   - [Lay.Plan] lays pieces on rolls and offcuts so that the cloth costs little, with
//     a certificate that none overlaps another and a bound that tells how little it could be;
//     [LayPlan.Check] proves a plan from the pieces and rolls as they were given.
//     [Lay.PlanCovers] splits the panels that no roll takes, and keeps to nap and stripes.
//
// Package canvas/pattern draws the pieces at true scale.
//
// Words with sizes in them, such as the width of a hem beside its edge, are in
// millimetres, or in inches to a sixteenth for covers that are Imperial.
//
// Lengths are measured on the cloth without thickness. X points to the right and
// Y up on the right side of the cloth; outlines run anticlockwise, so that the
// outside of an edge is to the right of its direction. Curves are followed to
// within 0.004 mm. What is exact and what is an approximation is said where it is made.
//
// Formulas of geometry are exact; allowances, needle sizes and the like are
// custom of the trade and say so. The loads of an awning are estimates; nothing
// here computes whether a seam holds one: where cloth carries a person or the wind, seams and fixings need someone
// who is trained to judge them.
package canvas
