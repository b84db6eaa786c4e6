package wiring_test

import (
	"math"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// More copper and better insulation carry more, a bundle, an engine space and warm air carry
// less, and the factors multiply to the result.
func TestAmpacityProperties(t *testing.T) {
	metric, awg := tinned(t)
	for _, rules := range wiring.AllRules() {
		for _, stock := range []wiring.Stock{metric, awg} {
			var before wiring.CableRating
			for _, c := range stock {
				c.Insulation = units.Celsius(85)
				r, err := wiring.Ampacity(rules, c, wiring.Installation{})
				if err != nil {
					continue // not in this table
				}
				if before.Current > 0 && r.Current < before.Current {
					t.Errorf("%s: %s carries %v, less than a smaller one", rules, c.Size, r.Current)
				}
				before = r
				c.Insulation = units.Celsius(105)
				better, err := wiring.Ampacity(rules, c, wiring.Installation{})
				if err != nil || better.Current < r.Current {
					t.Errorf("%s: %s with 105 °C insulation carries %v and with 85 °C %v (%v)", rules, c.Size, better.Current, r.Current, err)
				}
				for _, in := range []wiring.Installation{{Bundled: 5}, {EngineSpace: true}, {Ambient: units.Celsius(55)}} {
					if in.EngineSpace && rules == wiring.IEC60092 {
						continue
					}
					less, err := wiring.Ampacity(rules, c, in)
					if err != nil {
						t.Errorf("%s, %s, %+v: %v", rules, c.Size, in, err)
						continue
					}
					product := less.Table
					for _, f := range less.Factors {
						product = product.Scale(f.Value)
						if f.Value >= 1 || f.Value <= 0 {
							t.Errorf("%s, %s, %+v: factor %+v", rules, c.Size, in, f)
						}
					}
					if math.Abs(float64(product-less.Current)) > 1e-12*float64(product) {
						t.Errorf("%s, %s, %+v: %v is not the product %v", rules, c.Size, in, less.Current, product)
					}
					if unchanged := rules == wiring.CFR && in.Bundled > 1; unchanged != (less.Current == better.Current) {
						t.Errorf("%s, %s, %+v: %v, and %v without", rules, c.Size, in, less.Current, better.Current)
					}
				}
			}
			if before.Current == 0 {
				t.Errorf("%s rates nothing", rules)
			}
		}
	}
}

// The time constant against a rule of IEC 60092-352 as recalled, 0.245 d^1.35 minutes with d in
// mm, which was fitted to ship cables: 1.0 to 1.28 times it from 4 mm² up.
func TestTimeConstantNearRule(t *testing.T) {
	metric, _ := tinned(t)
	lo, hi := math.Inf(1), 0.0
	for _, c := range metric.WithInsulation(units.Celsius(85)) {
		if c.Area.SquareMillimetres() < 4 {
			continue
		}
		tau, err := wiring.TimeConstant(c, units.Celsius(45))
		if err != nil {
			t.Fatal(err)
		}
		r := tau.Minutes() / (0.245 * math.Pow(c.Diameter.Millimetres(), 1.35))
		lo, hi = math.Min(lo, r), math.Max(hi, r)
	}
	if lo < 0.99 || hi > 1.28 {
		t.Errorf("time constants are %.3f to %.3f times the rule", lo, hi)
	}
}
