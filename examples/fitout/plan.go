package main

import (
	"errors"
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// plan is everything that is worked out from a boat file.
type plan struct {
	boat   *boatFile
	source []byte // of the boat file, to work out again with one thing changed
	rode   rode.Rode
	cells  [][]cell // by depth, then by wind
	here   []cell   // the row of cells for place.anchorIn
	// kellet compares the rode of the second strongest wind with a kellet on it.
	kellet     []rode.KelletOption
	kelletWind wind

	chainwork *chainwork // nil for a rode that begins with rope
	pulls     *pulls
	hold      *hold
	overnight *night     // nil where the file has none
	snubber   *snubber   // nil where the file has none, or rope is out anyway
	electrics *electrics // nil where the file has none
	canvas    *sailcloth // nil where the file has none
}

// cell is one depth in one wind.
type cell struct {
	low     units.Length
	wind    wind
	out     units.Length // rode to let out, in whole metres
	scope   float64      // at high water
	enough  bool         // the pull on the anchor stays within the limit
	high    rode.State   // how it hangs at high water
	lowest  rode.State   // and at low water
	rode    rode.Rode    // what is out
	swing   units.Length // from the anchor to the stern, at low water
	keel    units.Length // clearance at low water
	overdue string       // why the plan must not be used
}

func (f *boatFile) makePlan() (*plan, error) {
	p := &plan{boat: f}
	var err error
	if p.rode, err = f.makeRode(); err != nil {
		return nil, err
	}
	if p.pulls, err = f.makePulls(); err != nil {
		return nil, err
	}
	if p.hold, err = f.makeHold(p.pulls); err != nil {
		return nil, err
	}
	for i := range f.Winds {
		f.Winds[i].Pull = p.pulls.rows[i].plan
	}
	for _, low := range f.Place.LowWater {
		row := make([]cell, len(f.Winds))
		for i, w := range f.Winds {
			if row[i], err = p.cell(low, w); err != nil {
				return nil, err
			}
		}
		p.cells = append(p.cells, row)
		if low == f.Place.AnchorIn && p.here == nil {
			p.here = row
		}
	}
	if err = p.compareKellet(); err != nil {
		return nil, fmt.Errorf("rode.kellet: %w", err)
	}
	if p.chainwork, err = f.makeChainwork(); err != nil {
		return nil, err
	}
	if p.snubber, err = p.makeSnubber(); err != nil {
		return nil, err
	}
	if p.overnight, err = p.makeNight(); err != nil {
		return nil, err
	}
	if p.canvas, err = f.makeCanvas(); err != nil {
		return nil, err
	}
	p.electrics, err = f.makeElectrics()
	return p, err
}

// makeRode takes the pieces from the catalogue and cuts their strength to what
// wear, water, age and splices leave of it.
func (f *boatFile) makeRode() (rode.Rode, error) {
	var r rode.Rode
	for _, c := range f.Rode.Connectors {
		r.AtAnchor = append(r.AtAnchor, rode.Fitting{Name: c.Name, Working: c.Working, Breaking: c.Breaking, SideLoad: c.SideLoad})
	}
	for i, s := range f.Rode.Pieces {
		at := fmt.Sprintf("rode.pieces[%d].", i)
		var p rode.Piece
		if s.Chain != "" {
			c, err := rode.ChainByName(s.Chain)
			if err != nil {
				return r, &fileError{at + "chain", fmt.Sprintf("%q", s.Chain), wanted(err)}
			}
			if s.Worn != 0 {
				wire := c.Wire
				if c, err = c.Worn(s.Worn); err != nil {
					return r, &fileError{at + "worn", fmt.Sprintf("%.3v", s.Worn), fmt.Sprintf("more than 0 mm, up to the %.3v of new chain", wire)}
				}
			}
			if c.Mass == 0 {
				return r, &fileError{at + "chain", fmt.Sprintf("%q, whose mass no source gives", s.Chain), "a chain of ISO 4565, DIN 766, EN 818-3 or BBB"}
			}
			p = c.Piece(s.Length)
		} else {
			c, err := rode.RopeByName(s.Rope)
			if err != nil {
				return r, &fileError{at + "rope", fmt.Sprintf("%q", s.Rope), wanted(err)}
			}
			c = c.Wet()
			if s.StrengthLeft != 0 {
				if c, err = c.Used(s.StrengthLeft); err != nil {
					return r, &fileError{at + "strengthLeft", fmt.Sprint(s.StrengthLeft), wanted(err)}
				}
			}
			p = c.Piece(s.Length)
		}
		if s.Splice != 0 && i > 0 {
			below := &r.Pieces[i-1]
			below.Top = append(below.Top, rode.Fitting{Name: "splice to the " + below.Kind.String(), Breaking: p.Breaking.Scale(s.Splice)})
		}
		r.Pieces = append(r.Pieces, p)
	}
	return r, nil
}

// wanted is what a package's error says would be accepted.
func wanted(err error) string {
	var e *rode.Error
	if errors.As(err, &e) {
		return e.Want
	}
	return err.Error()
}
