package draw_test

import (
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// Lines of the pictures. The rope's stretch is invented, of the size of polyamide's.
func chain(l units.Length) rode.Piece {
	return rode.Piece{Name: "8 mm chain", Kind: rode.OfChain, Length: l, Mass: 1.4, Density: rode.Steel}
}

func rope(l units.Length) rode.Piece {
	return rode.Piece{
		Name: "14 mm polyamide", Kind: rode.OfRope, Length: l, Mass: 0.121, Density: 1140,
		Stretch: rode.LinearStretch(100 * units.Kilonewton),
	}
}

func floating(l units.Length) rode.Piece {
	return rode.Piece{Name: "12 mm polypropylene", Kind: rode.OfRope, Length: l, Mass: 0.065, Density: 910}
}

var (
	kellet = rode.Fitting{Name: "12 kg kellet", Mass: 12, Volume: 0.0015}
	buoy   = rode.Fitting{Name: "6 l float", Mass: 1, Volume: 0.006}
)

func with(p rode.Piece, f ...rode.Fitting) rode.Piece {
	p.Top = append(p.Top, f...)
	return p
}

func of(p ...rode.Piece) rode.Rode { return rode.Rode{Pieces: p} }

func degrees(d float64) units.Angle { return units.Degree.Scale(d) }

// picture is a drawing by what is solved for.
type picture struct {
	name  string
	title string
	boat  draw.Boat
	views []wanted
}

type wanted struct {
	label string
	rode  rode.Rode
	site  rode.Site
	pull  units.Force
}

func (c picture) profile(t testing.TB) draw.Profile {
	t.Helper()
	p := draw.Profile{Title: c.title, Boat: c.boat}
	for _, v := range c.views {
		st, err := rode.Solve(v.rode, v.site, v.pull)
		if err != nil {
			t.Fatalf("%s, %s: %v", c.name, v.label, err)
		}
		p.Views = append(p.Views, draw.View{Label: v.label, State: st, Rode: v.rode, Site: v.site})
	}
	return p
}

// pictures are the cases that must look right.
var pictures = func() []picture {
	mixed := of(chain(30), rope(20))
	sound := rode.Site{Depth: 6, Roller: 1.45, Friction: 0.7}
	winds := func(r rode.Rode, s rode.Site, n int) []wanted {
		labels := []string{"calm", "15 kn", "25 kn", "35 kn", "45 kn"}
		pulls := []units.Force{0, 250, 700, 1400, 2300}
		var v []wanted
		for i := range n {
			v = append(v, wanted{labels[i], r, s, pulls[i]})
		}
		return v
	}
	hung, _ := of(chain(25), rope(25)).Hang(kellet, 18)
	slope := func(d, depth float64) rode.Site {
		return rode.Site{Depth: units.Length(depth), Roller: 1.45, Slope: degrees(d), Friction: 0.7}
	}
	arches := of(with(chain(25), buoy), with(chain(12), buoy), with(chain(12), buoy), with(chain(12), buoy), chain(30))
	long := "a wind of force seven against a spring tide, with the whole of the chain let out and the snubber not yet rigged, as on the second evening in the outer roads"
	return []picture{
		{"mixed", "Dunlin in 6 m, 50 m out", draw.Boat{}, winds(mixed, sound, 3)},
		{"kellet", "Weight 18 m down from the bow", draw.Boat{Length: 10.4, Overhang: 0.8}, winds(hung, sound, 5)},
		{"catamaran", "Two hulls", draw.Boat{Length: 11.9, Hulls: 2}, winds(mixed, sound, 3)},
		{"shallow", "", draw.Boat{}, winds(of(chain(30)), rode.Site{Depth: 4, Roller: 1.2}, 2)},
		{"deep", "Deep", draw.Boat{}, winds(of(chain(60), rope(60)), rode.Site{Depth: 25, Roller: 1.45}, 5)},
		{"steep", "Straight down", draw.Boat{}, winds(of(chain(30)), rode.Site{Depth: 25, Roller: 1.45}, 1)},
		{"steep2", "Almost straight down", draw.Boat{Length: 10.4}, winds(of(chain(10), rope(18)), rode.Site{Depth: 25, Roller: 1.45}, 2)},
		{"short", "", draw.Boat{}, []wanted{{"", of(chain(30)), rode.Site{Depth: 4, Roller: 1.2}, 0}}},
		{"arches", "Four floats", draw.Boat{}, []wanted{{"5 kn", arches, rode.Site{Depth: 8, Roller: 1.45}, 60}, {"15 kn", arches, rode.Site{Depth: 8, Roller: 1.45}, 250}, {"at rest", arches, rode.Site{Depth: 8, Roller: 1.45}, 0}}},
		{"floating", "Rope that floats", draw.Boat{}, []wanted{{"2 kn", of(chain(20), floating(15), with(chain(2), kellet), rope(20)), rode.Site{Depth: 9, Roller: 1.45}, 60}}},
		{"rising", "Bed rising toward the boat", draw.Boat{Length: 10.4}, winds(mixed, slope(6, 8), 3)},
		{"rising10", "Bed rising steeply", draw.Boat{}, winds(of(chain(40)), slope(10, 12), 2)},
		{"falling10", "Bed falling steeply", draw.Boat{}, winds(mixed, slope(-10, 5), 3)},
		{"falling shore", "Anchor at the shore", draw.Boat{}, winds(mixed, slope(-10, 0.6), 2)},
		{"dry", "Anchor on the dry", draw.Boat{}, winds(mixed, slope(-8, -0.8), 2)},
		{"submerged", "Eye on the stem, under water", draw.Boat{Length: 10.4}, winds(mixed, rode.Site{Depth: 6, Roller: -0.3}, 2)},
		{"fairlead", "Fairlead 70 m down", draw.Boat{}, []wanted{{"moored", of(rode.Piece{Kind: rode.OfChain, Length: 902.2, Mass: 77.7, Density: rode.Steel}), rode.Site{Depth: 320, Roller: -70}, 1.2e6}}},
		{"half metre", "Half a metre of water", draw.Boat{}, winds(of(chain(30)), rode.Site{Depth: 0.5, Roller: 0.3}, 2)},
		{"long words", long, draw.Boat{}, []wanted{{
			long + " " + long, of(
				rode.Piece{Name: long, Kind: rode.OfChain, Length: 20, Mass: 1.4, Density: 7850, Top: []rode.Fitting{{Name: `<&"' ` + "\x01\xff"}}},
				rode.Piece{Name: "Donaudampfschifffahrtsgesellschaftskapitänsmützenband", Kind: rode.OfRope, Length: 20, Mass: .1, Density: 1140}),
			rode.Site{Depth: 4, Roller: 1.45},
			300,
		}}},
		{"tall roller", "From a quay", draw.Boat{}, winds(of(chain(60)), rode.Site{Depth: 5, Roller: 8}, 2)},
		{"hard pull", "Hard pull, 120 m", draw.Boat{Length: 10.4}, []wanted{{"storm", of(chain(60), rope(60)), rode.Site{Depth: 4, Roller: 1.45, Slope: degrees(0.3), Friction: math.Sqrt2 / 2}, 9000}}},
	}
}()
