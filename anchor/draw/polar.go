package draw

import (
	"fmt"
	"io"
	"math"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// WindPolar draws the force of the wind on a boat over the angle from which it
// comes, her bow up. The force is the distance of a curve from the centre.
type WindPolar struct {
	Title string // none if empty
	Boat  anchor.Windage
	Hulls int // of the sketch: 2 for a catamaran; 0 counts as 1
	// Winds are one to three steady winds.
	Winds []anchor.Wind
	// Spread is by what factor either way the loads may be off: EstimateSpread for
	// an estimated boat. A band shows it about the first wind; 0 and 1 leave it away.
	Spread   float64
	Imperial bool `json:",omitempty"` // as that of NightPlot
	// Prefix as in NightPlot; empty counts as "polar".
	Prefix string
}

// The curves of the winds differ in form too.
var polarClasses = [...]string{"curve", "pull", "alarm"}

// WriteSVG writes the drawing, 180 mm wide.
func (p WindPolar) WriteSVG(w io.Writer) error {
	if n := len(p.Winds); n < 1 || n > len(polarClasses) {
		return refuse("Winds", n, fmt.Sprintf("from 1 to %d winds", len(polarClasses)))
	}
	spread := p.Spread
	if spread == 0 {
		spread = 1
	}
	if !(spread >= 1 && spread <= 5) {
		return refuse("Spread", p.Spread, "0, or from 1 to 5")
	}
	if p.Hulls < 0 || p.Hulls > 2 {
		return refuse("Hulls", p.Hulls, "1 or 2")
	}
	s, err := newSheet(p.Prefix, "polar")
	if err != nil {
		return err
	}

	// The force of each wind at every second degree, in newtons.
	const step = 2
	var forces [len(polarClasses)][360 / step]float64
	most := 0.0
	for i, wind := range p.Winds {
		for k := range forces[i] {
			l, err := p.Boat.Load(wind, units.Degree.Scale(float64(k*step)))
			if err != nil {
				return err
			}
			forces[i][k] = float64(l.Force())
			most = math.Max(most, forces[i][k])
		}
	}
	for _, f := range forces[0] {
		most = math.Max(most, f*spread)
	}
	if !(most > 0) {
		return refuse("Winds", p.Winds[0].Speed, "a wind that blows on a boat with windage")
	}

	if p.Title != "" {
		s.lines("title", huge, p.Title)
	}
	const radius = 70.0
	s.y += 6
	centre := svg.Point{X: width / 2, Y: s.y + radius + 4}
	at := func(deg, r float64) svg.Point {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return svg.Point{X: centre.X + r*sin, Y: centre.Y - r*cos}
	}
	in := ruler{p.Imperial}
	between, label := in.ring(units.Force(most / 5))
	ring := float64(between)
	rings := math.Ceil(most / ring * (1 - 1e-9))
	mm := radius / (rings * ring)

	if spread > 1 {
		band := new(svg.Path)
		for _, f := range []float64{spread, 1 / spread} {
			for k := range forces[0] {
				// The inner edge runs the other way, so that the middle stays empty.
				j := k
				if f < 1 {
					j = len(forces[0]) - 1 - k
				}
				pt := at(float64(j*step), forces[0][j]*f*mm)
				if k == 0 {
					band.Move(pt)
				} else {
					band.Line(pt)
				}
			}
			band.Close()
		}
		s.Path("water", band)
	}
	for r := 1.0; r <= rings; r++ {
		s.Circle("grid", centre, r*ring*mm)
	}
	for deg := 0; deg < 360; deg += 30 {
		s.Line("grid", centre, at(float64(deg), radius))
		text := fmt.Sprintf("%d°", min(deg, 360-deg))
		pt := at(float64(deg), radius+4)
		s.Text("note", svg.Point{X: pt.X, Y: pt.Y + 1}, svg.Centre, svg.Span{Text: text})
	}
	least := math.Inf(1)
	for i := range p.Winds {
		for _, f := range forces[i] {
			least = math.Min(least, f*mm)
		}
	}
	s.sketch(centre, math.Max(2, math.Min(9, least-0.5)), p.Hulls) // within the curves
	for i := range p.Winds {
		points := make([]svg.Point, len(forces[i]))
		for k, f := range forces[i] {
			points[k] = at(float64(k*step), f*mm)
		}
		s.Polyline(polarClasses[i], append(points, points[0])...)
	}
	for i, wind := range p.Winds {
		const deg = 316
		pt := at(deg, forces[i][deg/step]*mm)
		s.Text("over", svg.Point{X: pt.X, Y: pt.Y + 1}, svg.Centre, svg.Span{Text: fmt.Sprintf("%.0f kn", wind.Speed.Knots())})
	}
	// The rings are labelled where no curve is near.
	for r := 1.0; r <= rings; r++ {
		best, room := 0, 0.0
		for k := 100 / step; k <= 170/step; k++ {
			clear := math.Inf(1)
			for i := range p.Winds {
				clear = math.Min(clear, math.Abs(forces[i][k]-r*ring)*mm)
			}
			if clear = math.Min(clear, 5); clear >= room {
				best, room = k, clear
			}
		}
		pt := at(float64(best*step), r*ring*mm)
		s.Text("over", svg.Point{X: pt.X, Y: pt.Y + 1}, svg.Centre, svg.Span{Text: label(r)})
	}
	s.y = centre.Y + radius + 8

	var entries []entry
	desc := "The force of the wind over the angle from which it comes:"
	for i, wind := range p.Winds {
		name := fmt.Sprintf("%.0f kn", wind.Speed.Knots())
		entries = append(entries, entry{polarClasses[i], fmt.Sprintf("%s: %s ahead, %s at 30°, %s abeam", name,
			in.force(units.Force(forces[i][0])), in.force(units.Force(forces[i][30/step])), in.force(units.Force(forces[i][90/step])))})
		desc += fmt.Sprintf(" %s.", entries[i].text)
	}
	s.legend(entries)
	s.y += 2
	note := "The bow is up. The distance of a curve from the centre is the horizontal force of a steady wind that comes from there, on a boat held at that angle. A boat at anchor sheers through 30° and more to either side."
	if spread > 1 {
		note += fmt.Sprintf(" The band about the first wind is what an estimate may be off by, a factor of %v either way.", number(spread))
	}
	s.lines("note", small, note)
	title := p.Title
	if title == "" {
		title = "Wind load"
	}
	return s.write(w, title, desc)
}

// sketch is a boat seen from above, bow up, in the middle of the plot.
func (s *sheet) sketch(c svg.Point, half float64, hulls int) {
	if hulls < 2 {
		s.hull(c, half, 3.2/9*half)
		return
	}
	apart := 0.43 * half
	s.Rect("hull", svg.Point{X: c.X - apart, Y: c.Y - 0.3*half}, svg.Point{X: c.X + apart, Y: c.Y + 0.7*half})
	s.hull(svg.Point{X: c.X - apart, Y: c.Y}, half, 0.12*half)
	s.hull(svg.Point{X: c.X + apart, Y: c.Y}, half, 0.12*half)
}

func (s *sheet) hull(c svg.Point, half, beam float64) {
	h := new(svg.Path)
	h.Move(svg.Point{X: c.X, Y: c.Y - half})
	h.Curve(svg.Point{X: c.X + 1.15*beam, Y: c.Y - 0.35*half}, svg.Point{X: c.X + beam, Y: c.Y + 0.25*half})
	h.Line(svg.Point{X: c.X + 0.7*beam, Y: c.Y + half})
	h.Line(svg.Point{X: c.X - 0.7*beam, Y: c.Y + half})
	h.Line(svg.Point{X: c.X - beam, Y: c.Y + 0.25*half})
	h.Curve(svg.Point{X: c.X - 1.15*beam, Y: c.Y - 0.35*half}, svg.Point{X: c.X, Y: c.Y - half})
	h.Close()
	s.Path("hull", h)
}

// force is a round force in newtons as a label.
func force(f float64) string {
	if f < 999.5 {
		return fmt.Sprintf("%.3g N", f)
	}
	return fmt.Sprintf("%.3g kN", f/1000)
}
