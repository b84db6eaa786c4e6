package draw_test

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

func TestErrors(t *testing.T) {
	nan := units.Length(math.NaN())
	// A part belongs to the caller's state: it may be changed only in a copy.
	parts := func(v *draw.View) []rode.Part {
		v.State.Parts = append([]rode.Part(nil), v.State.Parts...)
		return v.State.Parts
	}
	for _, c := range []struct {
		field  string
		err    error
		change func(p *draw.Profile, v *draw.View)
	}{
		{"Views", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Views = nil }},
		{"Prefix", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Prefix = "a b" }},
		{"Prefix", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Prefix = "9" }},
		{"Boat.Length", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat.Length = -1 }},
		{"Boat.Length", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat.Length = nan }},
		{"Boat.Overhang", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat.Overhang = 11 }},
		{"Boat.Hulls", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat.Hulls = 3 }},
		{"Boat.Hulls", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat.Hulls = -1 }},
		{"Boat.Overhang", rode.ErrInput, func(p *draw.Profile, v *draw.View) { p.Boat = draw.Boat{Length: 10, Overhang: 5} }},
		{"Views[1].Depth", rode.ErrInput, func(p *draw.Profile, v *draw.View) { v.Site.Depth = nan }},
		{"Views[1].Pieces[0].Length", rode.ErrInput, func(p *draw.Profile, v *draw.View) { v.Rode = of(chain(-1)) }},
		{"Views[1].Length", rode.ErrShort, func(p *draw.Profile, v *draw.View) { v.Rode = of(chain(3)) }},
		{"Views[1].State.Parts", rode.ErrInput, func(p *draw.Profile, v *draw.View) { v.State = rode.State{} }},
		{"Views[1].State.Pull", rode.ErrInput, func(p *draw.Profile, v *draw.View) { v.State.Pull = units.Force(nan) }},
		{"Views[1].State.Scope", rode.ErrInput, func(p *draw.Profile, v *draw.View) { v.State.Scope = math.Inf(1) }},
		{"Views[1].State.Joints", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.State.Joints = nil }},
		{"Views[1].State.Joints[0]", rode.ErrInput, func(p *draw.Profile, v *draw.View) {
			v.State.Joints = []rode.JointState{{Position: rode.Position{X: nan}}}
		}},
		{"Views[1].State.Joints", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Rode = of(chain(50)) }},
		{"Views[1].State.Depth", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Site.Depth = 7 }},
		{"Views[1].State.Depth", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Site.Depth++; v.Site.Roller-- }},
		{"Views[1].State.Depth", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.State.Depth = units.Length(nan) }},
		{"Views[1].State.Parts: upper end", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Site.Roller++ }},
		{"Views[1].State.Parts[0].Upper.Z", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Site.Slope = 0.01 }},
		{"Views[1].State.Parts[0].Piece", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { parts(v)[0].Piece = -1 }},
		{"Views[1].State.Parts[1].Piece", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { parts(v)[0].Piece = 1; parts(v)[1].Piece = 0 }},
		{"Views[1].State.Parts[2].Lower", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { parts(v)[2].Lower.X += 1 }},
		{"Views[1].State.Parts[0].Upper", rode.ErrInput, func(p *draw.Profile, v *draw.View) { parts(v)[0].Upper.X = nan }},
		{"Views[1].Rode.Pieces[1].Length", draw.ErrMismatch, func(p *draw.Profile, v *draw.View) { v.Rode = of(chain(30), rope(21)) }},
	} {
		p := pictures[0].profile(t)
		c.change(&p, &p.Views[1])
		var b bytes.Buffer
		err := p.WriteSVG(&b)
		var e *rode.Error
		if !errors.As(err, &e) || e.Field != c.field || !errors.Is(err, c.err) || e.Want == "" {
			t.Errorf("%s: got %v", c.field, err)
		}
		if b.Len() > 0 {
			t.Errorf("%s: %d bytes written with error %v", c.field, b.Len(), err)
		}
	}
}

// A force that is not finite bends the curve between ends that are, and ends far
// away fit no page.
func TestBadCurve(t *testing.T) {
	for name, change := range map[string]func(p []rode.Part){
		"force":    func(p []rode.Part) { p[2].Horizontal = units.Force(math.NaN()) },
		"distance": func(p []rode.Part) { p[3].Upper.X = 1e300 },
	} {
		p := pictures[0].profile(t)
		change(p.Views[2].State.Parts)
		var b bytes.Buffer
		err := p.WriteSVG(&b)
		var e *rode.Error
		if !errors.Is(err, rode.ErrInput) || !errors.As(err, &e) || b.Len() > 0 {
			t.Errorf("%s: error %v with %d bytes written", name, err, b.Len())
		}
	}
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriterError(t *testing.T) {
	if err := pictures[0].profile(t).WriteSVG(full{}); err != errFull {
		t.Errorf("got %v, want the writer's error", err)
	}
}
