// Package draw draws a night at anchor as SVG: [NightPlot] is depth, scope and
// load in the course of the tide, [SwingPlan] the swing circle seen from above,
// with shoals and neighbours, [WindPolar] the force of the wind from all sides.
//
// One millimetre of a file is one millimetre on paper. A file stands alone or
// inline in an HTML page, follows the reader's dark screen and prints on white. In
// a page give it the style
//
//	svg { max-width: 100%; height: auto }
//
// to have it shrink on a small screen. Nothing depends on colour alone. Lengths are in
// metres and forces in newtons, or in feet and pounds-force where a drawing is Imperial.
//
// Every error about the data is an [*anchor.Error] that names the field; nothing
// has been written then. Errors of the writer come as they are.
//
// # Caution
//
// The pictures show a plan: static loads, a predicted tide and charted shoals.
// They do not replace the chart, the lead or the anchor watch.
package draw
