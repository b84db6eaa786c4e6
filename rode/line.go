package rode

// line is a rode and its site unwrapped to SI numbers, checked once, ready to
// be solved many times.
type line struct {
	pieces []span      // from the anchor to the bow
	points []pointLoad // points[i] sits between pieces[i] and pieces[i+1]

	roller float64 // height of the bow roller above the water, m
	rise   float64 // height of the bow roller above the anchor, m
	length float64 // unstretched, m
	weight float64 // of the pieces in air, N

	friction float64 // between the line and the bed
	sin, cos float64 // of the bed's slope, positive where it rises toward the boat
	tan, sec float64
	buoyant  bool // some part is lighter than water
}

// span is one piece: l metres that weigh wet newtons a metre below the water
// and dry above it.
type span struct {
	l, wet, dry float64
	law         law
}

// pointLoad is a weight (or, negative, a float) at a joint. Size is the height
// over which its buoyancy comes and goes as it passes the surface.
type pointLoad struct{ wet, dry, size float64 }

// at is the load at a depth below the surface and its change with depth.
func (p pointLoad) at(depth float64) (load, slope float64) {
	switch {
	case depth >= p.size:
		return p.wet, 0
	case depth <= 0:
		return p.dry, 0
	}
	slope = (p.wet - p.dry) / p.size
	return p.dry + slope*depth, slope
}

// spot is a place on the line: below is the unstretched length of piece i
// between its lower end and the spot.
type spot struct {
	i     int
	below float64
}
