package rode_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Whatever boat, gust and snubber are put in, there is a peak that balances or
// an error of the package.
func FuzzSurge(f *testing.F) {
	f.Add(35.0, 7.0, 1.7, 10.0, 12.0, 10300.0, 2300.0, 4400.0, 0.8)
	f.Add(35.0, 7.0, 1.7, 0.0, 0.0, 10300.0, 0.0, 0.0, 0.1)
	f.Add(9.0, 7.0, 1.7, 1e-3, 0.0, 1e9, 1e-9, 1e5, 9.0)
	f.Add(8.7, 7.0, 1.7, 100.0, 50.0, 1e-3, 1e-3, 1e-3, 1e-6)
	f.Fuzz(func(t *testing.T, chain, depth, roller, length, slack, mass, rest, gust, speed float64) {
		r, _, _, rope := plover(t)
		r.Pieces[0].Length = units.Length(chain)
		s := rode.Site{Depth: units.Length(depth), Roller: units.Length(roller)}
		g := rode.Surge{Mass: units.Mass(mass), Rest: units.Force(rest), Gust: units.Force(gust), Speed: units.Speed(speed)}
		whole, err := r.Snub(rode.Snubber{Rope: rope, Length: units.Length(length), Slack: units.Length(slack)})
		var p rode.SurgePeak
		if err == nil {
			p, err = rode.SolveSurge(whole, s, g)
		}
		if err != nil {
			if _, ok := errors.AsType[*rode.Error](err); !ok {
				t.Errorf("%v is not the package's error", err)
			}
			return
		}
		taken, scale := float64(p.ByFittings), 0.0
		for _, e := range p.Taken {
			taken += float64(e.Total())
			scale += math.Abs(float64(e.Total()))
		}
		brought := float64(p.Kinetic + p.Work)
		// What rounding leaves of the energies at rest and at the peak.
		tol := 1e-6*(brought+scale) + 1e-9*float64(whole.Length())*(float64(p.Peak.Tension)+float64(whole.Length())*30)
		if !(math.Abs(taken-brought) <= tol) || !(p.Peak.Tension >= p.Rest.Tension*(1-1e-9)) || math.IsInf(float64(p.Run), 0) {
			t.Errorf("taken %v, brought %v J, tension %v, at rest %v", taken, brought, p.Peak.Tension, p.Rest.Tension)
		}
	})
}

// Inputs and results survive JSON.
func TestSnubberJSON(t *testing.T) {
	r, s, g, rope := plover(t)
	b := bridleOf(t, 6, 9, 9)
	hang, err := rode.HangBridle(r, s, b, 2300, 0.2, 12)
	if err != nil {
		t.Fatal(err)
	}
	n := rode.Snubber{Rope: rope, Length: 10, Legs: 2, Slack: 12}
	peak := surge(t, snub(t, r, n), s, g)
	eye := rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.06}
	list := rode.CutList{Ropes: []rode.CutRope{{Name: "leg", Rope: rope, Finished: 9, Eyes: []rode.EyeSplice{eye}}}}
	shop, err := list.Shopping()
	if err != nil {
		t.Fatal(err)
	}
	again(t, b)
	again(t, n)
	again(t, g)
	again(t, hang)
	again(t, peak)
	again(t, list)
	again(t, shop)
	again(t, rode.Craft{Hull: 11.9, Waterline: 11.5, Category: rode.Ocean})
}

func again[T any](t *testing.T, v T) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Error(err)
		return
	}
	var w T
	if err := json.Unmarshal(data, &w); err != nil {
		t.Errorf("%s: %v", data, err)
		return
	}
	if d := cmp.Diff(v, w); d != "" {
		t.Error(d)
	}
}
