package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

// sailcloth is what the report says of covers and awning.
type sailcloth struct {
	jobs   []sewingJob
	awning canvas.AwningPlan
	calm   canvas.Wind // the lightest of the winds planned for
	needle units.Length
}

// sewingJob is a cover with its pieces.
type sewingJob struct {
	file   string // without its ending
	cover  canvas.Cover
	pieces []canvas.Piece
	sheet  *pattern.Sheet
	needs  canvas.Quantities
}

// checks refuses what would not be taken for cloth; the shapes are checked by
// the covers themselves.
func (s *canvasSpec) checks() []error {
	checks := []error{
		text("canvas.cloth", s.Cloth),
		within("canvas.thickness", s.Thickness, 0.05*units.Millimetre, 3*units.Millimetre),
		number("canvas.warp", s.Warp, -0.1, 0.1),
		number("canvas.weft", s.Weft, -0.1, 0.1),
		within("canvas.stitch", s.Stitch, 1*units.Millimetre, 10*units.Millimetre),
		within("canvas.seam", s.Seam, 5*units.Millimetre, 40*units.Millimetre),
		within("canvas.hem", s.Hem, 5*units.Millimetre, 60*units.Millimetre),
		within("canvas.deckBox.length", s.DeckBox.Length, 0.1*units.Metre, 3*units.Metre),
		within("canvas.deckBox.width", s.DeckBox.Width, 0.1*units.Metre, 3*units.Metre),
		within("canvas.deckBox.height", s.DeckBox.Height, 0.05*units.Metre, 2*units.Metre),
		within("canvas.gasBottle.girth", s.GasBottle.Girth, 0.3*units.Metre, 2*units.Metre),
		within("canvas.gasBottle.height", s.GasBottle.Height, 0.1*units.Metre, 2*units.Metre),
		within("canvas.awning.tapeWidth", s.Awning.TapeWidth, 10*units.Millimetre, 100*units.Millimetre),
	}
	for i, c := range s.Awning.Corners {
		checks = append(checks, text(fmt.Sprintf("canvas.awning.corners[%d].edge", i), c.Edge))
	}
	return checks
}

func (f *boatFile) makeCanvas() (*sailcloth, error) {
	s := f.Canvas
	if s == nil {
		return nil, nil
	}
	c := &sailcloth{calm: canvas.Wind{Mean: f.Winds[0].Wind, Height: 10 * units.Metre}}
	var err error
	if c.needle, err = canvas.Needle(s.Thread); err != nil {
		return nil, clothError("canvas", err)
	}
	box, err := s.deckBox().Cover()
	if err != nil {
		return nil, clothError("canvas.deckBox", err)
	}
	bottle, err := s.gasBottle()
	if err != nil {
		return nil, clothError("canvas.gasBottle", err)
	}
	if c.awning, err = s.awning().Plan(c.calm); err != nil {
		return nil, clothError("canvas.awning", err)
	}
	for _, j := range []sewingJob{{file: "deck-box", cover: box}, {file: "gas-bottle", cover: bottle}, {file: "awning", cover: c.awning.Cover()}} {
		if err := j.lay(s); err != nil {
			return nil, clothError("canvas", err)
		}
		c.jobs = append(c.jobs, j)
	}
	return c, nil
}

// clothError names the field of the file that a field of package canvas came from.
func clothError(at string, err error) error {
	var e *canvas.Error
	if !errors.As(err, &e) {
		return fmt.Errorf("%s: %w", at, err)
	}
	for part := range strings.SplitSeq(e.Field, ".") {
		name, rest, _ := strings.Cut(part, "[")
		switch name {
		case "Tie", "From", "Panel", "Panels", "Canopy":
		case "Edges":
			if at += ".corners"; rest != "" {
				at += "[" + rest
			}
		case "Openings", "Sides", "Holes":
			at += openings[at]
		default:
			at += "." + strings.ToLower(part[:1]) + part[1:]
		}
	}
	return &fileError{at, e.Value, e.Want}
}

// openings are the fields for what package canvas calls holes.
var openings = map[string]string{"canvas.awning": ".stay", "canvas.deckBox": ".latch", "canvas.gasBottle": ".hose"}

func (j *sewingJob) lay(s *canvasSpec) (err error) {
	cloth := canvas.Cloth{Name: s.Cloth, Thickness: s.Thickness, Warp: s.Warp, Weft: s.Weft}
	if j.pieces, err = j.cover.Pieces(cloth); err != nil {
		return err
	}
	sewing := canvas.Sewing{Stitch: canvas.Lockstitch, Length: s.Stitch, Waste: 0.15}
	if j.needs, err = j.cover.Quantities(cloth, sewing); err != nil {
		return err
	}
	j.sheet, err = pattern.Lay(j.cover.Title, j.pieces, 2*units.Metre)
	return err
}

func (s *canvasSpec) deckBox() canvas.RoundedBox {
	b, l := s.DeckBox, s.DeckBox.Latch
	return canvas.RoundedBox{
		Name: "Deck locker", Length: b.Length, Width: b.Width, Height: b.Height, Radius: b.Radius, Ease: b.Ease,
		Base: canvas.DrawCord, Seam: s.Seam, Hem: s.Hem,
		Sides: []canvas.Hole{{Name: "latch", At: canvas.Point{X: l.Right, Y: l.Up}, Length: l.Length, Width: l.Width, Margin: l.Margin}},
	}
}

func (s *canvasSpec) gasBottle() (canvas.Cover, error) {
	b := s.GasBottle
	d, err := canvas.Diameter(b.Girth, b.Tape)
	if err != nil {
		return canvas.Cover{}, err
	}
	return canvas.BottleCover{
		Name: "Gas bottle", Diameter: d, Height: b.Height, Rise: b.Rise, Gores: b.Gores, Ease: b.Ease, Clearance: b.Clearance,
		Valve: b.Valve, Hose: b.Hose, HoseHeight: b.HoseHeight, Seam: s.Seam, Hem: s.Hem,
	}.Cover()
}

func (s *canvasSpec) awning() canvas.Awning {
	w := s.Awning
	a := canvas.Awning{
		Name: "Foredeck awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: w.TapeWidth},
		Canopy: canvas.Canopy{Pitch: w.Pitch, Blockage: w.Blockage}, Above: w.Above, Heel: w.Heel, Flutter: w.Flutter,
		Weight: w.Weight, Sag: w.Sag, Stiffness: w.Stiffness, Strength: w.Strength, Layers: w.Layers, Safety: w.Safety,
		Openings: []canvas.AwningOpening{{
			Name: "stay", At: canvas.Point{X: w.Stay.X, Y: w.Stay.Y}, Diameter: w.Stay.Diameter, Lean: w.Stay.Lean,
			Direction: 90 * units.Degree, Clearance: w.Stay.Clearance, Overlap: w.Stay.Overlap, Edge: w.Stay.Edge,
		}},
	}
	for _, c := range w.Corners {
		a.Edges = append(a.Edges, canvas.AwningEdge{
			Name: c.Edge, From: canvas.Point{X: c.X, Y: c.Y}, Hollow: c.Hollow, Tape: w.Tape,
			Tie: canvas.Tie{Strap: c.Strap, Lashing: c.Lashing, Parts: c.Parts, Fixing: c.Fixing},
		})
	}
	return a
}

func (p *plan) writeCanvas(t *printer) {
	c := p.canvas
	if c == nil {
		return
	}
	s := p.boat.Canvas
	t.line("")
	t.line("Canvas, of %s, that changes by %+.1f %% along the warp and %+.1f %% across it; thread of %.0f tex, needle %.0f:",
		s.Cloth, 100*s.Warp, 100*s.Weft, s.Thread.Tex(), 100*c.needle.Millimetres())
	for _, j := range c.jobs {
		n := 0
		for _, piece := range j.pieces {
			n += max(1, piece.Quantity) + piece.Mirrored
		}
		w, h := j.sheet.Size()
		t.line("  %-16s %2d pieces, %.2f m² of cloth, %2.0f m of thread; pattern %.2f by %.2f m", j.cover.Title, n,
			j.needs.Cloth.SquareMetres(), math.Ceil(j.needs.Thread.Metres()), w.Metres(), h.Metres())
		pairs, _ := j.cover.SeamLengths() // laid out already
		for i, pair := range pairs {
			t.line("    seam %s: %.1f mm on both sides", j.cover.Seams[i].Name, pair[0].Millimetres())
		}
		for _, r := range j.cover.Remarks {
			t.line("    %s", r)
		}
	}
	p.writeAwning(t)
	for _, j := range c.jobs {
		for _, caution := range j.cover.Cautions {
			t.line("  %s", caution)
		}
	}
}

func (p *plan) writeAwning(t *printer) {
	a, s := &p.canvas.awning, &p.boat.Canvas.Awning
	t.line("  The awning in %.0f kn, %.0f kn in the gusts %.1f m above the water:", p.canvas.calm.Mean.Knots(), a.Gust.Gust.Knots(), s.Above.Metres())
	for _, k := range a.Cases {
		worst := units.Force(0)
		for _, c := range k.Corners {
			worst = max(worst, c.Pull)
		}
		t.line("    %-28s cloth %3.0f N/m, sag %3.0f mm, corner %4.0f N, %s at %.0f %%", k.Name,
			k.Pull.NewtonsPerMetre(), k.Sag.Millimetres(), worst.Newtons(), k.Weakest, 100*k.Used)
	}
	drains := "rain runs off"
	if !a.Rain.Drains {
		drains = "rain stands in it"
	}
	t.line("    wet it sags %.0f mm: %s at a pitch of %.0f°, from %.0f° on", a.Rain.Sag.Millimetres(), drains, s.Pitch.Degrees(), 2*a.Rain.Least.Degrees())
	t.line("    The pressures are those of rigid roofs on land; heel of %.0f° and flutter of %.1f times are judgement.", s.Heel.Degrees(), s.Flutter)
}

// patterns adds the drawings to be cut by: every cover tiled on A4 and on one page for
// a plotter, its lines for a cutting machine, and the awning as offsets from a
// baseline for those who have none of these.
func (p *plan) patterns(files map[string][]byte) error {
	if p.canvas == nil {
		return nil
	}
	for _, j := range p.canvas.jobs {
		kinds := []struct {
			ending string
			write  func(io.Writer) error
		}{
			{".pdf", func(w io.Writer) error { return j.sheet.Tiled(w, pattern.A4) }},
			{"-plotter.pdf", j.sheet.PDF},
			{"-lines.csv", func(w io.Writer) error { return pattern.Polylines(w, j.pieces, 0.1*units.Millimetre) }},
		}
		if j.file == "awning" { // nobody tapes a hundred pages: no tiles
			kinds[0].write = kinds[1].write
			kinds[1].ending = "-offsets.txt"
			kinds[1].write = func(w io.Writer) error { return pattern.Offsets(w, j.pieces[0], 2*units.Millimetre) }
			points, err := j.pieces[0].MarkingOut(2 * units.Millimetre)
			if err != nil {
				return err
			}
			table := "along the baseline in mm,square to it in mm\n" // for a spreadsheet
			for _, q := range points {
				table += fmt.Sprintf("%.0f,%.0f\n", q.X.Millimetres(), q.Y.Millimetres())
			}
			files["awning-offsets.csv"] = []byte(table)
		}
		for _, k := range kinds {
			var b bytes.Buffer
			if err := k.write(&b); err != nil {
				return fmt.Errorf("%s%s: %w", j.file, k.ending, err)
			}
			files[j.file+k.ending] = b.Bytes()
		}
	}
	return nil
}
