// Package scene computes what the page shows: it knows rodes, and nothing of browsers.
package scene

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// The invented boat and her rode.
const (
	chainLength = 30 * units.Metre
	ropeLength  = 40 * units.Metre
	Roller      = 1.2 * units.Metre
)

var boat = anchor.Dimensions{Length: 10.4 * units.Metre, Beam: 3.3 * units.Metre, Freeboard: 1.1 * units.Metre, Rig: anchor.Cutter}

// Fans are the winds whose curves are shown faintly beside the one asked for.
var Fans = [...]units.Speed{10 * units.Knot, 20 * units.Knot, 30 * units.Knot, 40 * units.Knot}

// Scene is a picture in metres, x from the anchor, y down from the water, and what it says.
type Scene struct {
	Chain, Rope string   // paths of SVG
	Fan         []string // the whole rode in each of Fans
	Off         float64  // of the roller from the anchor
	Lying       float64  // of the rode, on the bed
	ChainOut    float64
	Says        string
	Solved      int // states computed
}

// Refusal is an error about one of the three controls.
type Refusal struct {
	Control string // depth, wind or out
	Err     error
}

func (r *Refusal) Error() string { return r.Err.Error() }
func (r *Refusal) Unwrap() error { return r.Err }

// At computes the scene for texts with units, as a form gives them.
func At(depth, wind, out string) (Scene, error) {
	d, err := units.ParseLength(depth)
	if err != nil {
		return Scene{}, &Refusal{"depth", err}
	}
	v, err := units.ParseSpeed(wind)
	if err != nil {
		return Scene{}, &Refusal{"wind", err}
	}
	l, err := units.ParseLength(out)
	if err != nil {
		return Scene{}, &Refusal{"out", err}
	}
	line, err := veered(l)
	if err != nil {
		return Scene{}, &Refusal{"out", err}
	}
	solver, err := rode.NewSolver(line, rode.Site{Depth: d, Roller: Roller})
	if err != nil {
		if errors.Is(err, rode.ErrShort) {
			return Scene{}, &Refusal{"out", fmt.Errorf("%v of rode do not reach from the roller to the bed in %v of water", l, d)}
		}
		return Scene{}, &Refusal{"depth", err}
	}
	windage, err := anchor.Estimate(boat)
	if err != nil {
		return Scene{}, err
	}
	s := Scene{ChainOut: math.Min(l.Metres(), chainLength.Metres())}
	var st rode.State
	for _, w := range append([]units.Speed{v}, Fans[:]...) {
		load, err := windage.Load(anchor.Wind{Speed: w}, 0)
		if err != nil {
			return Scene{}, &Refusal{"wind", err}
		}
		if err := solver.Solve(&st, load.Force()); err != nil {
			return Scene{}, &Refusal{"wind", err}
		}
		s.Solved++
		if s.Solved > 1 {
			s.Fan = append(s.Fan, path(&st, d, -1))
			continue
		}
		s.Chain, s.Rope = path(&st, d, 0), path(&st, d, 1)
		s.Off, s.Lying = st.Distance.Metres(), st.OnBed.Metres()
		s.Says = says(v, load.Force(), &st)
	}
	return s, nil
}

func veered(out units.Length) (rode.Rode, error) {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		return rode.Rode{}, err
	}
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		return rode.Rode{}, err
	}
	all := rode.Rode{Pieces: []rode.Piece{chain.Piece(chainLength), rope.Wet().Piece(ropeLength)}}
	return all.Veer(out)
}

// path is the curve of a piece, or with -1 of all of them, as a path of SVG.
func path(st *rode.State, depth units.Length, piece int) string {
	var b []byte
	write := func(x, y float64) {
		step := " L"
		if len(b) == 0 {
			step = "M"
		}
		b = append(b, step...)
		b = strconv.AppendFloat(b, x, 'f', 2, 64)
		b = append(b, ' ')
		b = strconv.AppendFloat(b, y, 'f', 2, 64)
	}
	var last rode.CurvePoint
	for q := range st.Points(0.3 * units.Metre) {
		if piece < 0 || q.Piece == piece {
			if len(b) == 0 && piece > 0 { // the joint belongs to the piece below
				write(last.X.Metres(), (depth - last.Z).Metres())
			}
			write(q.X.Metres(), (depth - q.Z).Metres())
		}
		last = q
	}
	return string(b)
}

// says is the picture in words.
func says(wind units.Speed, pull units.Force, st *rode.State) string {
	low, high := pull.Scale(1/anchor.EstimateSpread), pull.Scale(anchor.EstimateSpread)
	text := fmt.Sprintf("In %.0f kn the boat pulls with %.2f to %.2f kN. At the middle of that, ", wind.Knots(), low.Kilonewtons(), high.Kilonewtons())
	switch {
	case st.OnBed > 0:
		text += fmt.Sprintf("%.0f m of rode lie on the bed, and the anchor is pulled level.", st.OnBed.Metres())
	default:
		text += fmt.Sprintf("nothing lies on the bed: the anchor is pulled %.0f° upward, which most anchors hold less against.", st.Anchor.FromBed.Degrees())
	}
	return text
}
