package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// sailcloth is what the report says of covers and awning.
type sailcloth struct {
	in     family
	awning *canvas.AwningPlan // nil where the file has none
	calm   canvas.Wind        // the lightest of the winds planned for
	area   units.Area         // of the pieces before any was split
	needle units.Length

	jobs  []sewingJob // one a cover, the awning last
	order *clothOrder // nil without rolls
}

// sewingJob is a cover with its pieces, and what is written of it to cut by.
type sewingJob struct {
	field   string // of the boat file
	file    string // without its ending
	cover   canvas.Cover
	pieces  []canvas.Piece
	sheet   *pattern.Sheet
	needs   canvas.Quantities
	outputs []output
	parts   []purchase // besides what is sewn by length
}

// output is a file to cut by.
type output struct {
	ending string
	write  func(*sewingJob, io.Writer) error
}

// tiled is for what fits a few sheets of paper: every cover on A4 or Letter, on one page for a
// plotter, and its lines for a cutting machine. Nobody tapes a hundred pages:
// marked is for the awning, with offsets from a baseline for those who have
// neither machine, as text and for a spreadsheet.
var (
	tiled = []output{
		{".pdf", func(j *sewingJob, w io.Writer) error {
			paper := pattern.A4
			if j.cover.Imperial {
				paper = pattern.Letter
			}
			return j.sheet.WriteTiled(w, paper)
		}},
		{"-plotter.pdf", func(j *sewingJob, w io.Writer) error { return j.sheet.WritePDF(w) }},
		{"-lines.csv", (*sewingJob).lines},
	}
	marked = []output{
		{".pdf", func(j *sewingJob, w io.Writer) error { return j.sheet.WritePDF(w) }},
		{"-lines.csv", (*sewingJob).lines},
		{"-offsets.txt", (*sewingJob).offsets},
		{"-offsets.csv", (*sewingJob).offsetTable},
	}
)

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
	}
	if s.DeckBox == nil && s.GasBottle == nil && s.Awning == nil {
		checks = append(checks, &fileError{"canvas", "no deckBox, gasBottle or awning", "at least one of the three"})
	}
	if b := s.DeckBox; b != nil {
		checks = append(checks,
			within("canvas.deckBox.length", b.Length, 0.1*units.Metre, 3*units.Metre),
			within("canvas.deckBox.width", b.Width, 0.1*units.Metre, 3*units.Metre),
			within("canvas.deckBox.height", b.Height, 0.05*units.Metre, 2*units.Metre))
	}
	if b := s.GasBottle; b != nil {
		checks = append(checks,
			within("canvas.gasBottle.girth", b.Girth, 0.3*units.Metre, 2*units.Metre),
			within("canvas.gasBottle.height", b.Height, 0.1*units.Metre, 2*units.Metre))
	}
	if w := s.Awning; w != nil {
		checks = append(checks, within("canvas.awning.tapeWidth", w.TapeWidth, 10*units.Millimetre, 100*units.Millimetre))
		for i, c := range w.Corners {
			checks = append(checks, text(fmt.Sprintf("canvas.awning.corners[%d].edge", i), c.Edge))
		}
	}
	for i, r := range s.Rolls {
		checks = append(checks, r.checks(fmt.Sprintf("canvas.rolls[%d]", i))...)
	}
	return checks
}

func (f *boatFile) makeCanvas(in family) (*sailcloth, error) {
	s := f.Canvas
	if s == nil {
		return nil, nil
	}
	c := &sailcloth{in: in, calm: canvas.Wind{Mean: f.Winds[0].Wind, Height: 10 * units.Metre}}
	var err error
	if c.needle, err = canvas.Needle(s.Thread); err != nil {
		return nil, clothError("canvas", err)
	}
	if s.DeckBox != nil {
		v, err := s.deckBox(in).Cover()
		if err != nil {
			return nil, clothError("canvas.deckBox", err)
		}
		c.jobs = append(c.jobs, sewingJob{field: "canvas.deckBox", file: "deck-box", outputs: tiled, cover: v})
	}
	if s.GasBottle != nil {
		v, err := s.gasBottle(in)
		if err != nil {
			return nil, clothError("canvas.gasBottle", err)
		}
		c.jobs = append(c.jobs, sewingJob{field: "canvas.gasBottle", file: "gas-bottle", outputs: tiled, cover: v})
	}
	if s.Awning != nil {
		plan, err := s.awning(in).Plan(c.calm)
		if err != nil {
			return nil, clothError("canvas.awning", err)
		}
		c.awning = &plan
		c.jobs = append(c.jobs, sewingJob{field: "canvas.awning", file: "awning", outputs: marked, cover: plan.Cover()})
	}
	for _, j := range c.jobs {
		needs, err := j.cover.Quantities(s.cloth(), s.sewing())
		if err != nil {
			return nil, clothError(j.field, err)
		}
		c.area += needs.Cloth
	}
	return c, nil
}

// cutOut lays the cloth out and the patterns, which takes seconds, and says what to buy.
func (c *sailcloth) cutOut(s *canvasSpec) error {
	if len(s.Rolls) > 0 {
		var covers []canvas.Cover
		var fields []string
		for _, j := range c.jobs {
			covers, fields = append(covers, j.cover), append(fields, j.field)
		}
		var err error
		if c.order, err = s.orderCloth(covers, c.in); err != nil {
			return clothError("canvas", err, fields...)
		}
		for i, v := range c.order.Covers { // as they are split
			c.jobs[i].cover = v
		}
	}
	for i := range c.jobs {
		j := &c.jobs[i]
		if err := j.lay(s); err != nil {
			return clothError(j.field, err)
		}
		j.parts = slitParts(j.cover)
		switch {
		case j.field == "canvas.deckBox":
			cord, err := j.drawCord(s, c.in)
			if err != nil {
				return err
			}
			j.parts = append(cord, j.parts...)
		case j.field == "canvas.awning":
			j.parts = append(c.awningStraps(s.Awning), j.parts...)
			for range c.awning.Flaps {
				if s.Awning.Tape > 0 {
					j.parts = append(j.parts, purchase{what: fmt.Sprintf("buckle that holds %s, where a slit cuts the tape", c.in.force.say(s.Awning.Tape, 0)), kind: "fitting", need: 1})
				}
			}
		}
	}
	return nil
}

// drawCord is that of the deck box, as long as the seam round its top, with two ends
// to tie.
func (j *sewingJob) drawCord(s *canvasSpec, in family) ([]purchase, error) {
	lengths, err := j.cover.SeamLengths()
	if err != nil {
		return nil, err
	}
	for i, seam := range j.cover.Seams {
		if seam.Name == "top" {
			cord := purchase{what: fmt.Sprintf("draw cord for a hem of %s, and 2 eyelets to let it out", in.small.short(s.Hem, 1)), kind: "rope"}
			return []purchase{in.length(cord, lengths[i][0]+300*units.Millimetre, 500*units.Millimetre)}, nil
		}
	}
	return nil, nil
}

// awningStraps are each there and back along its drawn line.
func (c *sailcloth) awningStraps(w *awningSpec) []purchase {
	var parts []purchase
	next := 0
	for _, corner := range w.Corners {
		if corner.Strap == 0 {
			continue
		}
		for next < len(c.awning.Panel.Fittings) && len(c.awning.Panel.Fittings[next].Strap) < 2 {
			next++
		}
		if next == len(c.awning.Panel.Fittings) {
			break
		}
		line := c.awning.Panel.Fittings[next].Strap
		next++
		long := units.Metre.Scale(math.Hypot((line[1].X - line[0].X).Metres(), (line[1].Y - line[0].Y).Metres()))
		strap := purchase{what: fmt.Sprintf("strap webbing, breaking at %s", c.in.force.say(corner.Strap, 0)), kind: "webbing"}
		parts = append(parts, c.in.length(strap, long.Scale(2), 500*units.Millimetre))
	}
	return parts
}

// slitParts close the slits of a cover: each has a flap, with an edge of that name.
func slitParts(v canvas.Cover) []purchase {
	var parts []purchase
	for i := range v.Panels {
		if slit, err := v.Panels[i].Length("slit"); err == nil {
			parts = append(parts, purchase{what: "snap or toggle to close a slit", kind: "fitting", need: math.Ceil(slit.Per(slitClosures))})
		}
	}
	return parts
}

// slitClosures is how far apart the library has a slit closed.
const slitClosures = 150 * units.Millimetre

// clothError names the field of the file that a field of package canvas came from;
// fields are those of the covers that the package numbers.
func clothError(at string, err error, fields ...string) error {
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
		case "Opening":
			at += ".valve"
		case "covers":
			if i, err := strconv.Atoi(strings.TrimSuffix(rest, "]")); err == nil && i < len(fields) {
				at = fields[i]
			}
		default:
			if !strings.HasPrefix(part, `"`) { // the name of a panel
				at += "." + strings.ToLower(part[:1]) + part[1:]
			}
		}
	}
	return &fileError{at, e.Value, e.Want}
}

// openings are the fields for what package canvas calls holes.
var openings = map[string]string{"canvas.awning": ".stay", "canvas.deckBox": ".latch", "canvas.gasBottle": ".hose"}

func (j *sewingJob) lay(s *canvasSpec) (err error) {
	cloth := s.cloth()
	if j.pieces, err = j.cover.Pieces(cloth); err != nil {
		return err
	}
	if j.needs, err = j.cover.Quantities(cloth, s.sewing()); err != nil {
		return err
	}
	j.sheet, err = pattern.FullSize(j.cover.Title, j.pieces, 2*units.Metre)
	return err
}

func (s *canvasSpec) cloth() canvas.Cloth {
	return canvas.Cloth{Name: s.Cloth, Thickness: s.Thickness, Warp: s.Warp, Weft: s.Weft}
}

func (s *canvasSpec) sewing() canvas.Sewing {
	return canvas.Sewing{Stitch: canvas.Lockstitch, Length: s.Stitch, Waste: 0.15}
}

func (s *canvasSpec) deckBox(in family) canvas.RoundedBox {
	b, l := s.DeckBox, s.DeckBox.Latch
	return canvas.RoundedBox{
		Name: "Deck box", Length: b.Length, Width: b.Width, Height: b.Height, Radius: b.Radius, Ease: b.Ease,
		Base: canvas.DrawCord, Seam: s.Seam, Hem: s.Hem,
		Sides:    []canvas.Hole{{Name: "latch", At: canvas.Point{X: l.Right, Y: l.Up}, Length: l.Length, Width: l.Width, Margin: l.Margin}},
		Imperial: in.feet,
	}
}

func (s *canvasSpec) gasBottle(in family) (canvas.Cover, error) {
	b := s.GasBottle
	d, err := canvas.Diameter(b.Girth, b.Tape)
	if err != nil {
		return canvas.Cover{}, err
	}
	return canvas.BottleCover{
		Name: "Gas bottle", Diameter: d, Height: b.Height, Rise: b.Rise, Gores: b.Gores, Ease: b.Ease, Clearance: b.Clearance,
		Valve: b.Valve, Hose: b.Hose, HoseHeight: b.HoseHeight, Seam: s.Seam, Hem: s.Hem, Imperial: in.feet,
	}.Cover()
}

// webbingTurn is how much of the webbing's width is turned under it: a hollow edge
// would tear or pucker with more.
const webbingTurn = 0.5

func (s *canvasSpec) awning(in family) canvas.Awning {
	w := s.Awning
	a := canvas.Awning{
		Name: "Foredeck awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: w.TapeWidth.Scale(webbingTurn)},
		Canopy: canvas.Canopy{Pitch: w.Pitch, Blockage: w.Blockage}, Above: w.Above, Heel: w.Heel, Flutter: w.Flutter,
		Weight: w.Weight, Sag: w.Sag, Stiffness: w.Stiffness, Strength: w.Strength, Layers: w.Layers, Safety: w.Safety,
		Openings: []canvas.AwningOpening{{
			Name: "stay", At: canvas.Point{X: w.Stay.X, Y: w.Stay.Y}, Diameter: w.Stay.Diameter, Lean: w.Stay.Lean,
			Direction: 90 * units.Degree, Clearance: w.Stay.Clearance, Overlap: w.Stay.Overlap, Edge: w.Stay.Edge,
		}},
		Imperial: in.feet,
	}
	for _, c := range w.Corners {
		a.Edges = append(a.Edges, canvas.AwningEdge{
			Name: c.Edge, From: canvas.Point{X: c.X, Y: c.Y}, Hollow: c.Hollow, Tape: w.Tape,
			Tie: canvas.Tie{Strap: c.Strap, Lashing: c.Lashing, Parts: c.Parts, Fixing: c.Fixing},
		})
	}
	return a
}

func (p *plan) writeCanvas(s *section) error {
	c := p.canvas
	if c == nil {
		s.say("The boat file has no canvas.")
		return nil
	}
	spec := p.boat.Canvas
	s.say("Of %s, that changes by %+.1f %% along the warp and %+.1f %% across it; thread of %.0f tex, needle %.0f.",
		spec.Cloth, 100*spec.Warp, 100*spec.Weft, spec.Thread.Tex(), 100*c.needle.Millimetres())
	t := table{Caption: "What is to be sewn", Head: []string{"cover", "pieces", "cloth, " + p.in.area.name, "thread, " + p.in.long.name, "pattern, " + p.in.long.name}}
	var titles []string
	total := units.Area(0)
	for _, j := range c.jobs {
		titles = append(titles, strings.ToLower(j.cover.Title))
		total += j.needs.Cloth
		n := 0
		for _, piece := range j.pieces {
			n += max(1, piece.Quantity) + piece.Mirrored
		}
		w, h := j.sheet.Size()
		t.Rows = append(t.Rows, row("%s|%d|%s|%.0f|%s by %s", j.cover.Title, n, p.in.area.num(j.needs.Cloth, 2), math.Ceil(p.in.long.of(j.needs.Thread)), p.in.long.num(w, 2), p.in.long.num(h, 2)))
		if c.order == nil {
			s.buy(purchase{what: spec.Cloth, kind: "cloth", need: p.in.area.of(j.needs.Cloth), unit: p.in.area.name, step: map[bool]float64{false: 0.1, true: 1}[p.in.feet], why: strings.ToLower(j.cover.Title)})
		}
		for _, b := range append(spec.byLength(j.needs, p.in), j.parts...) {
			if b.why = strings.ToLower(j.cover.Title); b.need > 0 {
				s.buy(b)
			}
		}
	}
	s.table(t)
	s.assume(fmt.Sprintf("%.0f %% of the thread is wasted.", 100*spec.sewing().Waste))
	if c.awning != nil {
		if err := p.lashings(s); err != nil {
			return err
		}
	}
	p.writePatches(s)
	eased := false
	for _, j := range c.jobs {
		s.head(j.cover.Title)
		uneven, err := p.writeSeams(s, &j.cover)
		if err != nil {
			return err
		}
		eased = eased || uneven
		for _, r := range j.cover.Remarks {
			s.item("%s.", strings.ToUpper(r[:1])+r[1:])
		}
	}
	if c.awning != nil {
		p.writeAwning(s) // the last of them
	}
	s.do("Cut and sew %s from the patterns, which are true to scale: %s of cloth in all.", strings.Join(titles, ", "), p.in.area.say(total, 1))
	square := "100 mm, both ways"
	if p.in.feet {
		square = "4 in, both ways"
	}
	s.check(dryFit, "Square on every sheet of the patterns", square)
	if spec.DeckBox != nil || spec.GasBottle != nil {
		expect := "it goes on without force, and its marks meet"
		if eased { // the patterns are larger than the thing by what the cloth gives up
			expect = "it goes on without force, a little large; along a seam to be eased in, marks are apart by no more than is eased in"
		}
		s.check(dryFit, "Paper pattern of each cover, taped together, on the thing itself", expect)
	}
	if c.awning != nil {
		s.figure(figure{"awning.svg", "How the awning is set", p.drawAwning})
	}
	s.figure(figure{"pieces.svg", "Pieces of canvas", p.drawPieces})
	for _, j := range c.jobs {
		for _, caution := range j.cover.Cautions {
			s.caution(caution)
			if caution != canvas.GasCaution && caution != canvas.AwningCaution { // of this cover alone
				s.warn("%s", caution)
			}
		}
	}
	return nil
}

// writeSeams gives the lengths of the seams of a cover, as finished and where the
// sides differ on the cloth as cut; it reports whether some do.
func (p *plan) writeSeams(s *section, v *canvas.Cover) (uneven bool, err error) {
	finished, err := v.SeamLengths()
	if err != nil {
		return false, err
	}
	cut, err := v.SeamLengthsCut(p.boat.Canvas.cloth())
	if err != nil {
		return false, err
	}
	for i, pair := range finished {
		seam := &v.Seams[i]
		say := fmt.Sprintf("Seam %s: %s on both sides", seam.Name, p.in.tape(pair[0], 1))
		if ease := (cut[i][1] - cut[i][0]).Abs(); ease >= 1*units.Millimetre {
			longer := seam.A.Panel
			if cut[i][1] > cut[i][0] {
				longer = seam.B.Panel
			}
			say += fmt.Sprintf(" when finished; as cut %s on the %s and %s on the %s: ease in %s of the %s",
				p.in.tape(cut[i][0], 1), seam.A.Panel, p.in.tape(cut[i][1], 1), seam.B.Panel, p.in.tape(ease, 1), longer)
			uneven = true
		}
		s.item("%s.", say)
	}
	return uneven, nil
}

// tape is a length as it is read off a tape: in millimetres with so many decimals, or to
// a sixteenth of an inch.
func (u family) tape(l units.Length, decimals int) string {
	if !u.feet {
		return u.small.say(l, decimals)
	}
	n := int(math.Round(16 * l.Inches()))
	whole, part, of := n/16, n%16, 16
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", part, of)
	}
	return fmt.Sprintf("%d %d/%d in", whole, part, of)
}

// writePatches says how patches are cut, if there are some.
func (p *plan) writePatches(s *section) {
	isPatch := func(q canvas.Piece) bool { return strings.Contains(q.Name, ", patch of ") }
	if !slices.ContainsFunc(p.canvas.jobs, func(j sewingJob) bool { return slices.ContainsFunc(j.pieces, isPatch) }) {
		return
	}
	say := fmt.Sprintf("Patches have no turn of their own: hot-cut them, or where the cloth frays all the same add %s and turn it under.", p.in.tape(10*units.Millimetre, 0))
	if p.canvas.awning != nil {
		say += " Along the edges of the awning those of the corners have its allowance, and go under the webbing with it."
	}
	s.say("%s", say)
}

// byLength is what is sewn by length, besides cloth.
func (s *canvasSpec) byLength(q canvas.Quantities, in family) []purchase {
	list := []purchase{
		in.length(purchase{what: fmt.Sprintf("thread of %.0f tex", s.Thread.Tex()), kind: "thread"}, q.Thread, 10*units.Metre),
		in.length(purchase{what: "binding tape for edges of cloth", kind: "binding"}, q.Binding, 500*units.Millimetre),
		in.length(purchase{what: "zip", kind: "zip"}, q.Zip, 100*units.Millimetre),
		in.length(purchase{what: "rope for sleeves", kind: "rope"}, q.Rope, 1*units.Metre),
	}
	if w := s.Awning; w != nil { // which alone has webbing
		tape := "webbing of " + in.small.short(w.TapeWidth, 1)
		if w.Tape > 0 { // otherwise the band of cloth carries the edge
			tape += fmt.Sprintf(", breaking at %s", in.force.say(w.Tape, 0))
		}
		list = append(list, in.length(purchase{what: tape, kind: "webbing"}, ends(q.Webbing, len(w.Corners)), 1*units.Metre))
	}
	return list
}

// ends adds what is turned in at both ends of the webbing along each edge.
func ends(along units.Length, edges int) units.Length {
	if along == 0 {
		return 0
	}
	return along + webbingEnd.Scale(float64(2*edges))
}

const (
	webbingEnd  = 50 * units.Millimetre
	lashingPart = 300 * units.Millimetre
)

// lashings are bought as the cord that the other lashings are made of.
func (p *plan) lashings(s *section) error {
	cord, err := rode.RopeByName(lashingCord)
	if err != nil {
		return err
	}
	for _, c := range p.boat.Canvas.Awning.Corners {
		if cord.Breaking < c.Lashing {
			s.warn("%s breaks at %s, less than the lashings of the awning ask for.", cord.Name(), p.in.force.say(cord.Breaking, 1))
		}
		s.buy(p.in.length(purchase{what: cord.Name(), kind: "rope", why: fmt.Sprintf("lashings of the awning, parts of %s and ends", p.in.long.say(lashingPart, 1))}, lashingPart.Scale(float64(c.Parts))+1*units.Metre, 1*units.Metre))
	}
	return nil
}

func (p *plan) writeAwning(s *section) {
	a, spec := p.canvas.awning, p.boat.Canvas.Awning
	s.assume(fmt.Sprintf("Webbing is turned in by %s at each end.", p.in.tape(webbingEnd, 0)))
	t := table{
		Caption: fmt.Sprintf("The awning in %.0f kn, %.0f kn in the gusts %s above the water", p.canvas.calm.Mean.Knots(), a.Gust.Gust.Knots(), p.in.long.say(spec.Above, 1)),
		Head:    []string{"load", "cloth, " + p.in.edge.name, "sag, " + p.in.small.name, "corner, " + p.in.pull.name, "used, %", "part that is nearest to its limit"},
	}
	for _, k := range a.Cases {
		worst := units.Force(0)
		for _, c := range k.Corners {
			worst = max(worst, c.Pull)
		}
		t.Rows = append(t.Rows, row("%s|%s|%s|%s|%.0f|%s", k.Name, p.in.edge.num(k.Pull, 0), p.in.small.num(k.Sag, 0), p.in.pull.num(worst, 0), 100*k.Used, k.Weakest))
	}
	s.table(t)
	drains := "rain runs off"
	if !a.Rain.Drains {
		drains = "rain stands in it"
	}
	s.say("Wet it sags %s: %s at a pitch of %.0f°, from %.0f° on.", p.in.small.say(a.Rain.Sag, 0), drains, spec.Pitch.Degrees(), a.Rain.Least.Degrees())
	s.say("The pressures are those of rigid roofs on land; heel of %.0f° and flutter of %.1f times are judgement.", spec.Heel.Degrees(), spec.Flutter)
	switch {
	case a.Strike.Wind == 0:
		s.warn("Do not set the awning: the pull of the calm alone is too much for the %s.", a.Strike.Part)
		return
	case a.Strike.Wind < p.canvas.calm.Mean:
		s.warn("The awning does not stand in the %.0f kn it is for.", p.canvas.calm.Mean.Knots())
	}
	if a.Strike.Part != "" {
		s.do("Strike the awning at %.0f kn of mean wind.", math.Floor(a.Strike.Wind.Knots()))
	}
	if !a.Rain.Drains {
		s.warn("Rain stands in the awning: take it down before it rains.")
		drains = "water stands in it: take it down for rain"
	}
	s.check(firstRun, "Awning set in a calm", fmt.Sprintf("corners pulled to %s, no creases; wet it sags %s, and %s", p.in.pull.say(a.Cases[0].Corners[0].Pull, 0), p.in.small.say(a.Rain.Sag, 0), drains))
}

// panels are the pieces without patches and facings.
func (j *sewingJob) panels() []canvas.Piece {
	var out []canvas.Piece
	for _, piece := range j.pieces {
		if slices.ContainsFunc(j.cover.Panels, func(p canvas.Panel) bool { return p.Name == piece.Name }) {
			out = append(out, piece)
		}
	}
	return out
}

func (j *sewingJob) lines(w io.Writer) error {
	return pattern.WritePolylines(w, j.pieces, 0.1*units.Millimetre)
}

// chordal is how far a straight line from mark to mark may be off the edge.
const chordal = 2 * units.Millimetre

func (j *sewingJob) offsets(w io.Writer) error {
	for i, piece := range j.panels() {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if err := pattern.WriteOffsets(w, piece, chordal); err != nil {
			return err
		}
	}
	return nil
}

func (j *sewingJob) offsetTable(w io.Writer) error {
	unit, write := "mm", func(l units.Length) string { return fmt.Sprintf("%.0f", l.Millimetres()) }
	if j.cover.Imperial {
		unit, write = "inches", func(l units.Length) string { return fmt.Sprintf("%.2f", l.Inches()) }
	}
	fmt.Fprintf(w, "piece,along the baseline in %s,square to it in %[1]s\n", unit)
	for _, piece := range j.panels() {
		points, err := piece.MarkingOut(chordal)
		if err != nil {
			return err
		}
		for _, q := range points {
			fmt.Fprintf(w, "%s,%s,%s\n", piece.Name, write(q.X), write(q.Y))
		}
	}
	return nil
}

// patterns adds the drawings to be cut by.
func (p *plan) patterns(files map[string][]byte) error {
	if p.canvas == nil {
		return nil
	}
	for i := range p.canvas.jobs {
		j := &p.canvas.jobs[i]
		for _, o := range j.outputs {
			var b bytes.Buffer
			if err := o.write(j, &b); err != nil {
				return fmt.Errorf("%s%s: %w", j.file, o.ending, err)
			}
			files[j.file+o.ending] = b.Bytes()
		}
	}
	return nil
}
