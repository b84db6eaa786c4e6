package canvas_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

const inch = units.Inch

var metricWord = regexp.MustCompile(`[0-9] ?(mm|cm|m)\b`)

// A cover in inches has no millimetre in its words, and lines like those of the
// same cover in millimetres.
func TestImperial(t *testing.T) {
	box := canvas.RoundedBox{Name: "box", Length: 24 * inch, Width: 15 * inch, Height: 13 * inch, Radius: 2.5 * inch, Seam: 0.625 * inch, Hem: 1 * inch, Gap: 0.25 * inch}
	bottle := canvas.BottleCover{
		Name: "bottle", Diameter: 12 * inch, Height: 16 * inch, Rise: 6 * inch, Gores: 8, Ease: 0.375 * inch, Clearance: 1.5 * inch,
		Valve: 4.5 * inch, Hose: 1.25 * inch, HoseHeight: 12 * inch, Seam: 0.5 * inch, Hem: 0.75 * inch,
	}
	shade := small()
	shade.Edge.Width = 0.75 * inch
	shade.Openings = []canvas.AwningOpening{{
		Name: "stay", At: canvas.Point{X: 1.2, Y: 0.9}, Diameter: 0.5 * inch, Lean: 60 * units.Degree, Clearance: 1 * inch, Overlap: 2 * inch, Edge: "fore",
	}}
	hemmed := canvas.Panel{Name: "flap", Edges: []canvas.Edge{
		{Name: "foot", Finish: canvas.Finish{Kind: canvas.SingleHem, Width: 1 * inch, Strip: true, Turn: 0.5 * inch}},
		{Name: "side", From: canvas.Point{X: 1}},
		{Name: "head", From: canvas.Point{X: 1, Y: 1}},
		{Name: "other side", From: canvas.Point{Y: 1}},
	}}
	for name, k := range map[string]struct {
		make func(imperial bool) (canvas.Cover, error)
		want []string
	}{
		"cord": {func(imperial bool) (canvas.Cover, error) {
			b := box
			b.Base, b.Imperial = canvas.DrawCord, imperial
			return b.Cover()
		}, []string{"cord: 73 11/16 in round", "bottom: double hem 1 in + 1/2 in", "top: seam 5/8 in"}},
		"zip": {func(imperial bool) (canvas.Cover, error) {
			b := box
			b.Base, b.Imperial = canvas.ZipBase, imperial
			return b.Cover()
		}, []string{"zip: 54 11/16 in", "bottom: zip"}},
		"bottle": {func(imperial bool) (canvas.Cover, error) {
			b := bottle
			b.Imperial = imperial
			return b.Cover()
		}, []string{"close it every 6 in", "in inwards and", "seam 1/2 in"}},
		"awning": {func(imperial bool) (canvas.Cover, error) {
			a := shade
			a.Imperial = imperial
			p, err := a.Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
			return p.Cover(), err
		}, []string{"close it every 6 in", "aft: webbing 3/4 in"}},
		"split": {func(imperial bool) (canvas.Cover, error) {
			v := canvas.Cover{Panels: []canvas.Panel{hemmed}, Imperial: imperial}
			return v.Split("flap", canvas.Point{X: 0.4}, canvas.Point{X: 0.4, Y: 1}, canvas.Finish{Kind: canvas.FelledOver, Width: 0.625 * inch, Turn: 0.375 * inch})
		}, []string{"by a seam of 39 3/8 in", "felled over 5/8 in + 3/8 in"}},
	} {
		var covers [2]canvas.Cover
		var pieces [2][]canvas.Piece
		var words [2]string
		for i := range covers {
			var err error
			if covers[i], err = k.make(i == 1); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if pieces[i], err = covers[i].Pieces(canvas.Cloth{Thickness: 0.02 * inch}); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			words[i] = strings.Join(covers[i].Remarks, "\n")
			for j := range pieces[i] {
				p := &pieces[i][j]
				if p.Imperial != (i == 1) {
					t.Errorf("%s: %s is Imperial: %v", name, p.Name, p.Imperial)
				}
				words[i] += "\n" + strings.Join(append(p.Edges, p.Notes...), "\n")
				p.Edges, p.Notes, p.Imperial = nil, nil, false
			}
		}
		if found := metricWord.FindString(words[1]); found != "" {
			t.Errorf("%s: %q in %s", name, found, words[1])
		}
		if metricWord.FindString(words[0]) == "" || strings.Contains(words[0], " in ") && strings.Contains(words[0], "/16") {
			t.Errorf("%s: metric words are %s", name, words[0])
		}
		for _, want := range k.want {
			if !strings.Contains(words[1], want) {
				t.Errorf("%s: %q is not in %s", name, want, words[1])
			}
		}
		if d := cmp.Diff(pieces[0], pieces[1]); d != "" {
			t.Errorf("%s: other lines: %s", name, d)
		}
	}
}

// A box in inches: what to buy and what is written beside the hem.
func ExampleCover_imperial() {
	cover, err := canvas.RoundedBox{
		Name: "Deck box", Length: 24 * units.Inch, Width: 15 * units.Inch, Height: 13 * units.Inch, Radius: 2.5 * units.Inch,
		Base: canvas.DrawCord, Seam: 0.625 * units.Inch, Hem: 1 * units.Inch, Imperial: true,
	}.Cover()
	if err != nil {
		fmt.Println(err)
		return
	}
	pieces, err := cover.Pieces(canvas.Cloth{})
	if err != nil {
		fmt.Println(err)
		return
	}
	cord, _, _ := strings.Cut(cover.Remarks[0], ",")
	fmt.Println(cord)
	fmt.Println(pieces[1].Edges[0])
	// Output:
	// cord: 73 11/16 in round
	// bottom: double hem 1 in + 1/2 in
}
