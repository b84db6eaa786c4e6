package draw

import (
	"errors"
	"io"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Profile is a drawing of rodes from the side, one picture for each view.
type Profile struct {
	Title string // none if empty
	Views []View // at least one
	Boat  Boat
	// Imperial has lengths and the scale in feet and forces in pounds-force.
	Imperial bool `json:",omitempty"`
	// Prefix begins the classes and ids of the file: a lower-case letter, then
	// lower-case letters, digits and hyphens; empty counts as "rode". Drawings
	// inline in one page need different ones.
	Prefix string
}

// View is a rode as it hangs: a state and the rode and site it was solved for.
type View struct {
	Label string // such as a wind or a depth; none if empty
	State rode.State
	Rode  rode.Rode
	Site  rode.Site
}

// Boat is what is known of the boat. Its hull is a sketch; what is given here
// and the height of the roller are to scale. A zero Boat is a bow cut off by a
// break line.
type Boat struct {
	Length   units.Length // over all; 0 leaves the stern away
	Overhang units.Length // of the bow beyond the waterline; 0 counts as half the bow's height, of two hulls as an eighth
	Hulls    int          // 1 or 2; 0 counts as 1
}

// WriteSVG writes the drawing. The page is 180 mm to 260 mm wide, and the scale
// is the largest round one, from 1:1 to 1:1000000, at which every picture fits; in feet
// an inch is a round number of them, from one on.
func (p Profile) WriteSVG(w io.Writer) error {
	if err := p.check(); err != nil {
		return err
	}
	if p.Prefix == "" {
		p.Prefix = "rode"
	}
	s, err := p.sheet()
	if err != nil {
		return err
	}
	s.lines("title", huge, svg.Wrap(p.Title, bold*huge, s.inner()))
	for i := range p.Views {
		s.strip(&p.Views[i])
	}
	s.scaleBar()
	s.legend(p.Views)
	s.note(p.Boat)
	err = s.Drawing.Write(w, svg.Page{
		Width: s.width, Height: s.y + margin,
		Title: p.title(), Desc: p.describe(),
		Classes: classes,
	})
	if errors.Is(err, svg.ErrCoordinate) {
		return refuse(rode.ErrInput, "Views", err, "states whose curves are finite and can be drawn")
	}
	return err
}
