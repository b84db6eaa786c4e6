package main

import (
	"errors"
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// plan is everything that is worked out from a boat file.
type plan struct {
	boat  *boatFile
	in    family
	rode  rode.Rode
	chain rode.Chain   // that the rode begins with
	links units.Length // of it; 0 for a rode that begins with rope
	cells [][]cell     // by depth, then by wind
	here  []cell       // the row of cells for place.anchorIn
	// kellet compares the rode of one cell with a kellet on it.
	kellet     []rode.KelletOption
	kelletCell cell

	chainwork *chainwork // nil for a rode that begins with rope
	pulls     *pulls
	hold      *hold
	surging   []surging  // one a wind of the file, from the section on pulls on
	overnight *night     // nil where the file has none
	snubber   *snubber   // nil where the file has none, or no depth and wind leave chain for it
	electrics *electrics // nil where the file has none
	lift      *lift      // nil without a windlass
	canvas    *sailcloth // nil where the file has none
}

// cell is one depth in one wind.
type cell struct {
	low     units.Length
	wind    wind
	pull    units.Force  // horizontal, at the bow
	out     units.Length // rode to let out, in whole metres
	scope   float64      // at high water
	enough  bool         // within the limits of the pull on the anchor and of the scope
	high    rode.State   // how it hangs at high water
	lowest  rode.State   // and at low water
	rode    rode.Rode    // what is out
	swing   units.Length // from the anchor to the stern, at the tide where it is greater
	keel    units.Length // clearance at low water
	overdue string       // why the plan must not be used
}

func (f *boatFile) makePlan(in family) (*plan, error) {
	p := &plan{boat: f, in: in}
	var err error
	if p.rode, err = f.makeRode(); err != nil {
		return nil, err
	}
	if p.chain, p.links, err = f.chainAtAnchor(); err != nil {
		return nil, err
	}
	if p.pulls, err = f.makePulls(); err != nil {
		return nil, err
	}
	if p.hold, err = f.makeHold(p.pulls); err != nil {
		return nil, err
	}
	for _, low := range f.Place.LowWater {
		row := make([]cell, len(f.Winds))
		for i, w := range f.Winds {
			if row[i], err = p.cell(low, w, p.pulls.rows[i].plan); err != nil {
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
	if p.chainwork, err = p.makeChainwork(); err != nil {
		return nil, err
	}
	if p.snubber, err = p.makeSnubber(); err != nil {
		return nil, err
	}
	if p.overnight, err = p.makeNight(); err != nil {
		return nil, err
	}
	if p.electrics, err = f.makeElectrics(in); err != nil {
		return nil, err
	}
	if p.lift, err = p.makeLift(); err != nil {
		return nil, err
	}
	p.canvas, err = f.makeCanvas(in)
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

// chainAtAnchor is the chain that the rode begins with, and how much of it there
// is before something else follows.
func (f *boatFile) chainAtAnchor() (rode.Chain, units.Length, error) {
	name, length := f.Rode.Pieces[0].Chain, units.Length(0)
	if name == "" {
		return rode.Chain{}, 0, nil
	}
	for _, s := range f.Rode.Pieces {
		if s.Chain != name {
			break
		}
		length += s.Length
	}
	c, err := rode.ChainByName(name)
	return c, length, err
}

// wanted is what a package's error says would be accepted.
func wanted(err error) string {
	var e *rode.Error
	if errors.As(err, &e) {
		return e.Want
	}
	return err.Error()
}
