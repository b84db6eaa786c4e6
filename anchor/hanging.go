package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// HangingWeight is the weight on the bow roller when a rode hangs straight down with a
// length of it out: of what hangs in the water less the water it displaces, of what
// hangs in the air, and of the anchor, of steel, once less is out than from the
// roller to the bed. The slope of the bed is nothing to it.
func HangingWeight(r rode.Rode, s rode.Site, anchor units.Mass, out units.Length) (units.Force, error) {
	var c checker
	level := s
	if math.Abs(float64(s.Slope)) < math.Pi/2 { // one that is no slope is refused
		level.Slope = 0
	}
	checkHaul(&c, r, level, anchor)
	between(&c, "out", out, 0, r.Length())
	if c.err != nil {
		return 0, c.err
	}
	return units.Force(hanging(r, s, float64(anchor), float64(out))), nil
}

func hanging(r rode.Rode, s rode.Site, anchor, out float64) float64 {
	water := float64(or(s.Water, rode.SeaWater))
	wet := func(density float64) float64 { return 1 - water/density }
	roller := float64(s.Roller)
	deep := math.Min(out, float64(s.Rise())) // how far down from the roller it hangs
	weight := 0.0
	if out <= float64(s.Rise()) {
		if out > roller {
			weight = anchor * gravity * wet(float64(rode.Steel))
		} else {
			weight = anchor * gravity
		}
	}
	low := 0.0 // of the piece, along the rode from the anchor
	for i := range r.Pieces {
		p := &r.Pieces[i]
		high := math.Min(low+float64(p.Length), out)
		if high <= low && i > 0 {
			break
		}
		// From top to bottom as distances below the roller.
		top, bottom := out-high, math.Min(out-low, deep)
		if bottom > top {
			dry := math.Max(0, math.Min(bottom, roller)-top)
			w := float64(p.Mass) * gravity
			weight += w*dry + w*wet(float64(p.Density))*(bottom-top-dry)
		}
		if low+float64(p.Length) < out && top <= deep {
			for _, f := range p.Top {
				if top > roller {
					weight += float64(f.Weight(units.Density(water)))
				} else {
					weight += float64(f.Mass) * gravity
				}
			}
		}
		low += float64(p.Length)
	}
	return weight
}

func checkHaul(c *checker, r rode.Rode, s rode.Site, anchor units.Mass) {
	if c.err == nil {
		if _, err := rode.NewSolver(r, s); err != nil {
			c.err = inRode("Rode.", "Site.", nil, err)
		}
	}
	between(c, "Site.Depth", s.Depth, 0, 1000)
	between(c, "Anchor", anchor, 0, 50000)
}
