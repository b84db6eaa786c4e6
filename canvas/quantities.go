package canvas

import (
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Quantities are what a cover takes besides its pieces of cloth.
type Quantities struct {
	Cloth   units.Area   // of all pieces, without what falls between them
	Thread  units.Length // waste included
	Zip     units.Length // of finished edges in zips, both sides counted once
	Binding units.Length
	Webbing units.Length
	Rope    units.Length // in sleeves
}

// rows is how many rows of stitches an edge needs, where a seam's two edges have
// half each, and how many layers of cloth they go through.
func (f Finish) rows() (rows, layers float64) {
	if f.Strip { // through panel and facing, and along the facing's turned side, through three
		return 2, 2.5
	}
	switch f.Kind {
	case PlainSeam:
		return 0.5, 2
	case SingleHem, Sleeve:
		return 1, 2
	case Webbing: // along both its edges, through the turned cloth and the webbing
		return 2, 3
	case DoubleHem, Bound, Zip:
		return 1, 3
	case FelledOver, FelledIn, French:
		return 1, 4
	case Lapped:
		if f.Turn > 0 {
			return 1, 4
		}
		return 1, 2
	}
	return 0, 0
}

// Quantities adds up a cover: each panel as often as it is cut, rows of
// stitches by the finish of its edges and holes (one for a plain seam or a hem, two for
// felled, French and lapped seams, for a facing and for webbing, one along each side of a zip),
// twice round each patch of a hole and along the inner side of each layer of a
// corner patch. A hole to which a panel is cut open is bound in one run, along one
// lip of the slit, round the hole and back along the other. Lengths are those of the
// finished edges, without what is turned in at the ends; the stitches that hold straps
// and eyelets are not counted.
func (v Cover) Quantities(t Cloth, s Sewing) (Quantities, error) {
	pieces, err := v.Pieces(t)
	if err != nil {
		return Quantities{}, err
	}
	l, err := v.lay()
	if err != nil {
		return Quantities{}, err
	}
	var q Quantities
	for i := range pieces {
		q.Cloth += pieces[i].Area().Scale(float64(pieces[i].Quantity + pieces[i].Mirrored))
	}
	add := func(rows, length, layers float64) error {
		n, err := s.Thread(units.Length(rows*length), t.Thickness.Scale(layers))
		q.Thread += n
		return err
	}
	for i := range v.Panels {
		p := &v.Panels[i]
		times := float64(max(1, p.Quantity) + p.Mirrored)
		for k, e := range l.panels[i] {
			f := p.Edges[k].Finish
			length := e.length * times
			switch f.Kind {
			case Zip:
				q.Zip += units.Length(length / 2)
			case Bound:
				q.Binding += units.Length(length)
			case Webbing:
				q.Webbing += units.Length(length)
			case Sleeve:
				q.Rope += units.Length(length)
			}
			rows, layers := f.rows()
			if err := add(rows, length, layers); err != nil {
				return Quantities{}, err
			}
		}
		for k := range p.Holes {
			h := &p.Holes[k]
			rings, _ := h.patches(p, l.panels[i])
			for _, ring := range rings {
				if err := add(2*times, plane.Around(ring), 2); err != nil {
					return Quantities{}, err
				}
			}
			if h.Finish.Kind != Raw {
				length := plane.Around(h.line(0)) * times
				if h.Finish.Kind == Bound {
					q.Binding += units.Length(length)
				}
				rows, layers := h.Finish.rows()
				if err := add(rows, length, layers); err != nil {
					return Quantities{}, err
				}
			}
			if h.Split {
				length := h.lips(p, l.panels[i]) * times
				q.Binding += units.Length(length)
				if err := add(1, length, 3); err != nil {
					return Quantities{}, err
				}
			}
		}
		for k := range p.Patches {
			for layer, patch := range p.Patches[k].panels(p, l.panels[i]) {
				edges, err := patch.lay()
				if err != nil {
					return Quantities{}, err
				}
				// A layer is sewn through the panel and the layers that reach farther.
				if err := add(2*times, edges[1].length, float64(layer+2)); err != nil {
					return Quantities{}, err
				}
			}
		}
	}
	return q, nil
}
