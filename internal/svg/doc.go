// Package svg writes drawings that are true to scale: one user unit is one
// millimetre on paper, coordinates are rounded to 0.01 mm and written with the
// fewest digits.
//
// One file serves three uses: it stands alone, it can be put inline into an HTML
// page (there is no prolog, and every class and id begins with the drawing's
// prefix), and it prints. Colours live in classes; those for a dark screen
// replace the light ones only on a screen, so paper stays white.
//
// A [Drawing] keeps the first error, such as a coordinate that is not finite,
// and Write returns it with nothing written.
package svg
