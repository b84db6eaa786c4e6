package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

var update = flag.Bool("update", false, "write the golden drawings anew: look at them before you commit them")

func at(hour, minute int) time.Time { return time.Date(2030, 5, 17, hour, minute, 0, 0, time.UTC) }

func degrees(d float64) units.Angle { return units.Degree.Scale(d) }

func night() anchor.Night {
	return anchor.Night{
		From: at(20, 0), To: at(31, 0),
		Tide: anchor.Tide{Turns: []anchor.Turn{
			{At: at(17, 40), Height: 4.9}, {At: at(24, 5), Height: 0.7}, {At: at(30, 20), Height: 4.7}, {At: at(36, 40), Height: 0.9},
		}},
		Sounding: anchor.Sounding{At: at(19, 30), Shown: 6.6, Offset: 0.5},
		Rode: rode.Rode{Pieces: []rode.Piece{
			{Name: "8 mm chain", Length: 60, Mass: 1.4, Density: rode.Steel},
		}},
		Roller: 1.4, Friction: 0.6,
		Winds: []anchor.NightWind{
			{From: at(18, 0), Direction: degrees(220), Pull: 500},
			{From: at(26, 0), Direction: degrees(250), Pull: 1600},
			{From: at(29, 0), Direction: degrees(310), Pull: 900},
		},
		Steepest: degrees(8),
		Wave:     0.4, TideError: 0.2, Draught: 1.5, UnderKeel: 0.3, Stern: 10.4, Antenna: 9,
		Shoals: []anchor.Shoal{
			{Name: "ledge", Bearing: degrees(70), Distance: 38, Rise: 0.6},
			{Name: "the Hen", Bearing: degrees(140), Distance: 62, Rise: 4},
		},
	}
}

func planned(t testing.TB, n anchor.Night) anchor.NightPlan {
	t.Helper()
	p, err := anchor.PlanNight(n)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func neighbour(t testing.TB) draw.Neighbour {
	t.Helper()
	n := anchor.Neighbour{
		Name: "rope rode", Bearing: degrees(350), Distance: 70,
		Swing: anchor.Swing{
			Rode: rode.Rode{Pieces: []rode.Piece{{Name: "14 mm polyamide", Kind: rode.OfRope, Length: 35, Mass: 0.12, Density: 1140}}},
			Site: rode.Site{Depth: 4, Roller: 1.2}, Stern: 9,
		},
	}
	c, err := anchor.SwingCircle(n.Swing, 800)
	if err != nil {
		t.Fatal(err)
	}
	return draw.Neighbour{Neighbour: n, Circle: c}
}

type drawing interface{ WriteSVG(io.Writer) error }

func drawings(t testing.TB) map[string]drawing {
	n := night()
	p := planned(t, n)
	short := n
	short.Out = p.Needed - 8
	days := n
	days.Tide.Turns = nil
	for i := range 20 {
		turn := anchor.Turn{At: at(12, 373*i), Height: 0.7}
		if i%2 == 1 {
			turn.Height = 4.8
		}
		days.Tide.Turns = append(days.Tide.Turns, turn)
	}
	days.To, days.Step = at(100, 0), 1800
	hour := n
	hour.To, hour.Winds, hour.Shoals = at(21, 0), n.Winds[:1], nil
	return map[string]drawing{
		"days":       draw.NightPlot{Title: strings.Repeat("a long name ", 20), Night: days, Plan: planned(t, days)},
		"hour":       draw.NightPlot{Title: "One hour", Night: hour, Plan: planned(t, hour)},
		"night":      draw.NightPlot{Title: "Dunlin & a night in the <outer> roads", Night: n, Plan: p},
		"swing":      draw.SwingPlan{Title: "Dunlin & a night in the <outer> roads", Night: n, Plan: p, Alarm: 60, Neighbours: []draw.Neighbour{neighbour(t)}},
		"veer":       draw.NightPlot{Night: short, Plan: planned(t, short), Prefix: "v"},
		"swing-only": draw.SwingPlan{Night: short, Plan: planned(t, short)},
		"polar":      polar(t),
	}
}

func TestGolden(t *testing.T) {
	all := drawings(t)
	for _, name := range []string{"night", "swing", "polar"} {
		var b bytes.Buffer
		if err := all[name].WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join("testdata", name+".svg")
		if *update {
			if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(b.Bytes(), want) {
			t.Errorf("%s is not what was looked at", path)
		}
	}
}

func TestDrawingsAreWellFormed(t *testing.T) {
	for name, d := range drawings(t) {
		var b bytes.Buffer
		if err := d.WriteSVG(&b); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		dec := xml.NewDecoder(bytes.NewReader(b.Bytes()))
		for {
			_, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Errorf("%s: %v", name, err)
				break
			}
		}
		if s := b.String(); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
			t.Errorf("%s: a number is missing", name)
		}
	}
}

func TestVeerIsSaid(t *testing.T) {
	var b bytes.Buffer
	if err := drawings(t)["veer"].WriteSVG(&b); err != nil || !strings.Contains(b.String(), "Veer 8.0 m") {
		t.Errorf("the plot does not say what to veer, %v", err)
	}
}

func TestRefusals(t *testing.T) {
	n := night()
	p := planned(t, n)
	nan := units.Length(math.NaN())
	for field, d := range map[string]drawing{
		"Plan.Moments":           draw.NightPlot{Night: n},
		"Prefix":                 draw.NightPlot{Night: n, Plan: p, Prefix: "1"},
		"Plan.Worst":             draw.NightPlot{Night: n, Plan: changed(p, func(p *anchor.NightPlan) { p.Worst = -1 })},
		"Plan.Moments[3].Depth":  draw.NightPlot{Night: n, Plan: changed(p, func(p *anchor.NightPlan) { p.Moments[3].Depth = nan })},
		"Plan.Moments[2].At":     draw.NightPlot{Night: n, Plan: changed(p, func(p *anchor.NightPlan) { p.Moments[2].At = p.Moments[1].At })},
		"Plan.Out":               draw.SwingPlan{Night: n, Plan: changed(p, func(p *anchor.NightPlan) { p.Out = nan })},
		"Plan.Widest.Stern":      draw.SwingPlan{Night: n, Plan: changed(p, func(p *anchor.NightPlan) { p.Widest.Stern = 0 })},
		"Alarm":                  draw.SwingPlan{Night: n, Plan: p, Alarm: nan},
		"Neighbours[0].Bearing":  draw.SwingPlan{Night: n, Plan: p, Neighbours: []draw.Neighbour{{Neighbour: anchor.Neighbour{Bearing: units.Angle(nan)}}}},
		"Neighbours[0].Distance": draw.SwingPlan{Night: n, Plan: p, Neighbours: []draw.Neighbour{{Neighbour: anchor.Neighbour{Distance: -1}}}},
		"Night.Winds[0].Direction": draw.SwingPlan{Night: func() anchor.Night {
			n := night()
			n.Winds[0].Direction = units.Angle(math.Inf(1))
			return n
		}(), Plan: p},
	} {
		var b bytes.Buffer
		err := d.WriteSVG(&b)
		var e *anchor.Error
		if !errors.As(err, &e) || !errors.Is(err, anchor.ErrInput) || e.Field != field || b.Len() > 0 {
			t.Errorf("%v after %d bytes, want a refusal of %s", err, b.Len(), field)
		}
	}
}

// changed is a plan with moments of its own and one thing wrong.
func changed(p anchor.NightPlan, wrong func(*anchor.NightPlan)) anchor.NightPlan {
	p.Moments = append([]anchor.Moment(nil), p.Moments...)
	wrong(&p)
	return p
}

// The name of a shoal lies on no rode and on no boat, wherever the shoal is.
func TestShoalsNameIsClear(t *testing.T) {
	n := night()
	p := planned(t, n)
	for bearing := 0.0; bearing < 360; bearing += 7 {
		for _, far := range []units.Length{20, 35, 45, 55} {
			n.Shoals = []anchor.Shoal{{Name: "the ledge", Bearing: degrees(bearing), Distance: far, Rise: 1}}
			var b bytes.Buffer
			if err := (draw.SwingPlan{Night: n, Plan: p, Alarm: 60}).WriteSVG(&b); err != nil {
				t.Fatal(err)
			}
			var doc struct {
				Lines []struct {
					Class string  `xml:"class,attr"`
					X1    float64 `xml:"x1,attr"`
					Y1    float64 `xml:"y1,attr"`
					X2    float64 `xml:"x2,attr"`
					Y2    float64 `xml:"y2,attr"`
				} `xml:"line"`
				Texts []struct {
					X      float64 `xml:"x,attr"`
					Y      float64 `xml:"y,attr"`
					Anchor string  `xml:"text-anchor,attr"`
					Text   string  `xml:",chardata"`
				} `xml:"text"`
			}
			if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
				t.Fatal(err)
			}
			found := false
			for _, text := range doc.Texts {
				if !strings.HasPrefix(text.Text, "the ledge") {
					continue
				}
				found = true
				width := svg.TextWidth(text.Text, 3)
				for _, l := range doc.Lines {
					if !strings.HasSuffix(l.Class, "-rode") {
						continue
					}
					for i := range 201 {
						s := 1.3 * float64(i) / 200 // and on along the boat, roughly a third of the rode
						if x, y := l.X1+s*(l.X2-l.X1), l.Y1+s*(l.Y2-l.Y1); x > text.X && x < text.X+width && y > text.Y-2 && y < text.Y {
							t.Errorf("bearing %v, %v off: the name lies on a rode or a boat", bearing, far)
							break
						}
					}
				}
			}
			if !found {
				t.Errorf("bearing %v, %v off: no name", bearing, far)
			}
		}
	}
}
