package anchor

import (
	"errors"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// Twice the mass holds 2^b times as much, and the range is the same part of it.
func TestHoldingPowerLaw(t *testing.T) {
	for kind := StocklessHinged; kind <= Claw; kind++ {
		for _, soil := range []Soil{Sand, Mud} {
			b := holdingLaws[kind].sand.exponent
			if soil == Mud {
				b = holdingLaws[kind].mud.exponent
			}
			for _, m := range []units.Mass{5, 20, 300, 453, 454, 4000} {
				one, err := Holding(kind, soil, m)
				if err != nil {
					t.Fatal(err)
				}
				two, err := Holding(kind, soil, 2*m)
				if err != nil {
					t.Fatal(err)
				}
				// From 1000 lb on; below, in proportion.
				grown := math.Pow(math.Max(2*float64(m), 453.59237)/math.Max(float64(m), 453.59237), b-1)
				near(t, "doubled", float64(two.Law), 2*grown*float64(one.Law), 1e-12)
				near(t, "range", float64(one.High), SeabedSpread*SeabedSpread*float64(one.Low), 1e-12)
				near(t, "efficiency", one.Efficiency*float64(m)*gravity, float64(one.Law), 1e-12)
				if one.Extrapolated != (m < 453.59237) {
					t.Errorf("%v: extrapolated is %v", m, one.Extrapolated)
				}
			}
		}
	}
}

// No anchor of a kind holds more put from sand on mud than by its own law for mud, nor
// more than the factor of the bottom leaves of what it holds in sand.
func TestMudByEitherWay(t *testing.T) {
	soft := Bottoms()[3]
	for kind := StocklessHinged; kind <= Claw; kind++ {
		for _, m := range []units.Mass{5, 16, 400, 5000, 50000} {
			sand, mud := must(Holding(kind, Sand, m)), must(Holding(kind, Mud, m))
			on := must(sand.On(soft))
			near(t, "law", float64(on.Law), math.Min(float64(mud.Law), 0.33*float64(sand.Law)), 1e-12)
			near(t, "efficiency", on.Efficiency*float64(m)*gravity, float64(on.Law), 1e-12)
			if on.Soil != Mud || on.Bottom != "soft mud" || on.High < on.Low {
				t.Errorf("%v of %v: %+v", kind, m, on)
			}
		}
	}
	// Where no law is known, the factor is all there is.
	if on := must(must(HoldingByEfficiency(25, 20)).On(soft)); math.Abs(on.Efficiency-8.25) > 1e-12 {
		t.Errorf("%+v", on)
	}
}

// Between what the sine leaves and what seamen are taught, the lower counts.
func TestHoldingLeftIsTheLower(t *testing.T) {
	for _, c := range []struct{ angle, fluke, low float64 }{
		{2.5, 45, 0.875},
		{10, 45, 0.625},
		{25, 50, 0.5},
		{5, 15, math.Sin(10*math.Pi/180) / math.Sin(15*math.Pi/180)},
		{20, 30, math.Sin(10*math.Pi/180) / math.Sin(30*math.Pi/180)},
		{40, 50, math.Sin(10*math.Pi/180) / math.Sin(50*math.Pi/180)},
	} {
		left, err := HoldingLeft(units.Degree.Scale(c.angle), units.Degree.Scale(c.fluke))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "low", left.Low, c.low, 1e-12)
	}
}

func TestHoldingLeftFalls(t *testing.T) {
	for _, fluke := range []units.Angle{30 * units.Degree, 50 * units.Degree} {
		last := units.Interval[float64]{Low: 1, High: 1}
		for a := units.Angle(0); a <= 60*units.Degree; a += units.Degree {
			left, err := HoldingLeft(a, fluke)
			if err != nil {
				t.Fatal(err)
			}
			if a == 0 && (left.Low != 1 || left.High != 1) {
				t.Errorf("level: %v", left)
			}
			if !(left.Low <= left.High && left.Low <= last.Low && left.High <= last.High && left.Low >= 0) {
				t.Errorf("%v: %v after %v", a, left, last)
			}
			if a >= fluke && left.Low != 0 {
				t.Errorf("along the fluke: %v", left)
			}
			last = left
		}
	}
}

// The bound is the thrust at which the slipstream takes all the power: T = 2 rho A v²
// with v at the disc, P = T v.
func TestThrustBoundIsMomentumTheory(t *testing.T) {
	for _, c := range []struct{ power, diameter float64 }{{100, 0.2}, {2e4, 0.43}, {1e6, 2}} {
		th, err := StaticThrust(units.Power(c.power), units.Length(c.diameter))
		if err != nil {
			t.Fatal(err)
		}
		area := math.Pi / 4 * c.diameter * c.diameter
		v := math.Sqrt(float64(th.Bound) / (2 * 1025 * area))
		near(t, "power", float64(th.Bound)*v, c.power, 1e-12)
		if !(th.Rule < th.Bound) {
			t.Errorf("the rule %v is more than the bound %v", th.Rule, th.Bound)
		}
	}
}

// The tables are what they say: rising, joined without a gap, and of their known ratios.
func TestTables(t *testing.T) {
	for i, r := range designLoads {
		near(t, "storm", r.storm, 2*r.working, 0)
		near(t, "permanent", r.permanent, 3*r.working, 0)
		// The lunch hook is a quarter, rounded to 5 lbf.
		if math.Abs(r.light-r.working/4) > 2.5 {
			t.Errorf("%v ft: lunch %v, working %v", r.length, r.light, r.working)
		}
		if i > 0 && !(r.length > designLoads[i-1].length && r.working > designLoads[i-1].working && r.sailBeam > designLoads[i-1].sailBeam) {
			t.Errorf("row of %v ft does not rise", r.length)
		}
	}
	for i, r := range equipment[1:] {
		p := equipment[i]
		if !(r.over == p.to && r.mass > p.mass && r.length >= p.length && r.mild > p.mild && r.special >= p.special && r.special < r.mild) {
			t.Errorf("row over %v does not follow on that before", r.over)
		}
	}
	for i, r := range smallVessels[1:] {
		p := smallVessels[i]
		if !(r.length == p.length+1 && r.main > p.main && r.kedge >= p.kedge && math.Abs(float64(r.kedge-r.main/2)) <= 0.5) {
			t.Errorf("row of %v does not follow on that before", r.length)
		}
	}
}

// One row stands for every boat up to it, and beyond the table is an error.
func TestRulesTakeTheNextRow(t *testing.T) {
	for ft := 1.0; ft <= 60; ft += 0.5 {
		l, err := HorizontalLoads(units.Foot.Scale(ft), 1, Sloop)
		if err != nil || l.Row.Feet() < ft-1e-9 {
			t.Errorf("%v ft: row %v, %v", ft, l.Row, err)
		}
	}
	wide, err := HorizontalLoads(20*units.Foot, 12*units.Foot, Sloop)
	if err != nil || wide.Row != 50*units.Foot {
		t.Errorf("20 ft by 12 ft: row %v, %v", wide.Row, err)
	}
	for _, en := range []float64{50.001, 70, 70.001, 205, 500} {
		if g, err := EquipmentGear(en); err != nil || !(en > g.Over && en <= g.To) {
			t.Errorf("%v: %v to %v, %v", en, g.Over, g.To, err)
		}
	}
}

var (
	magnets  = Drive{Voltage: 12, Points: []DrivePoint{{1000, 0.4, 80}, {2500, 0.22, 170}}}
	compound = Drive{Winding: Compound, Voltage: 12, Points: []DrivePoint{{500, 0.45, 50}, {1500, 0.33, 90}, {3000, 0.23, 140}}}
	series   = seriesDrive(0.02, 0.5, 1.0/250, 0.6, 100)
)

// seriesDrive reads three points off a series motor of known constants.
func seriesDrive(resistance, c, curved, e, friction float64) Drive {
	d := Drive{Winding: Series, Voltage: 12}
	for _, i := range []float64{60, 120, 220} {
		field := c * i / (1 + curved*i)
		d.Points = append(d.Points, DrivePoint{
			units.Force(e*field*i - friction), units.Speed((12 - resistance*i) / field), units.Current(i),
		})
	}
	return d
}

// A drive passes through its data sheet's points at the sheet's voltage.
func TestDrivePassesThroughItsPoints(t *testing.T) {
	for _, d := range []Drive{magnets, series, compound} {
		for k, p := range d.Points {
			if d.Winding != PermanentMagnet && k == 1 {
				continue // the pull is a line through the first and the last
			}
			r, err := d.Run(p.Pull, Supply{Voltage: d.Voltage})
			if err != nil {
				t.Fatalf("%v: %v", d.Winding, err)
			}
			near(t, d.Winding.String()+" current", float64(r.Current), float64(p.Current), 1e-9)
			near(t, d.Winding.String()+" speed", float64(r.Speed), float64(p.Speed), 1e-9)
			near(t, d.Winding.String()+" efficiency", r.Efficiency, float64(p.Pull)*float64(p.Speed)/(12*float64(p.Current)), 1e-9)
		}
	}
	m, err := series.motor()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "series resistance", m.resistance, 0.02, 1e-9)
	near(t, "series field", m.series, 0.5, 1e-9)
	near(t, "series saturation", m.curved, 1.0/250, 1e-8)
	near(t, "series force", m.e, 0.6, 1e-9)
	near(t, "series friction", m.friction, 100, 1e-6)
}

// A low voltage costs speed, not pull; the stall current follows the voltage.
func TestLowVoltageCostsSpeed(t *testing.T) {
	for _, d := range []Drive{magnets, series, compound} {
		full, err := d.Run(1200, Supply{Voltage: 12})
		if err != nil {
			t.Fatal(err)
		}
		low, err := d.Run(1200, Supply{Voltage: 10})
		if err != nil {
			t.Fatal(err)
		}
		if d.Winding != Compound {
			near(t, "current", float64(low.Current), float64(full.Current), 1e-9)
		} else if !(low.Current > full.Current) {
			t.Errorf("a weaker field needs more current: %v and %v", low.Current, full.Current)
		}
		if !(low.Speed < full.Speed) {
			t.Errorf("%v: %v at 12 V, %v at 10 V", d.Winding, full.Speed, low.Speed)
		}
		near(t, "stall", float64(low.Stall), float64(full.Stall)*10/12, 1e-12)
		// A resistance in the supply acts as the voltage it takes.
		fed, err := d.Run(1200, Supply{Voltage: 12, Resistance: units.Resistance(2 / float64(low.Current))})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "fed speed", float64(fed.Speed), float64(low.Speed), 1e-9)
		near(t, "fed voltage", float64(fed.Voltage), 10, 1e-9)
		if !(full.Start > full.Current && full.Starts) {
			t.Errorf("starts with %v, runs with %v", full.Start, full.Current)
		}
	}
}

// More pull, more current and less speed, up to the stall.
func TestDriveIsMonotone(t *testing.T) {
	for _, d := range []Drive{magnets, series, compound} {
		var before Running
		r, err := d.Run(100, Supply{Voltage: 12})
		if err != nil {
			t.Fatal(err)
		}
		for k := 1; k < 100; k++ {
			now, err := d.Run(r.StallPull.Scale(0.02+0.0097*float64(k)), Supply{Voltage: 12})
			if err != nil {
				t.Fatal(err)
			}
			if k > 1 && !(now.Current > before.Current && now.Speed < before.Speed && now.Efficiency < 1) {
				t.Errorf("%v: %+v after %+v", d.Winding, now, before)
			}
			before = now
		}
	}
}

// With the engine doing the pulling and nothing holding the anchor, the work is that of
// lifting every link and the anchor through water and air.
func TestRetrievalDoesTheWorkOfLifting(t *testing.T) {
	chain := rode.Piece{Length: 30, Mass: 1.4, Density: rode.Steel}
	rope := rode.Piece{Length: 20, Mass: 0.12, Density: 1140, Top: []rode.Fitting{{Mass: 0.2}}}
	chain.Top = []rode.Fitting{{Mass: 0.5, Volume: 6e-5}}
	for _, pieces := range [][]rode.Piece{{chain}, {chain, rope}} {
		h := Haul{
			Rode: rode.Rode{Pieces: pieces}, Site: rode.Site{Depth: 9, Roller: 1.3},
			Anchor: 16, Travel: 0.01, Supply: Supply{Voltage: 12.5},
		}
		r, err := Windlass{Drive: magnets}.Retrieve(h)
		if err != nil {
			t.Fatal(err)
		}
		lift := func(mass, wet float64) float64 { return mass * gravity * (wet*9 + 1.3) }
		want := lift(16, 1-1025.0/7850)
		for i, p := range pieces {
			want += lift(float64(p.Mass)*float64(p.Length), 1-1025/float64(p.Density))
			if i < len(pieces)-1 { // the fittings on the roller are not lifted
				f := p.Top[0]
				want += lift(float64(f.Mass), 1-1025*float64(f.Volume)/float64(f.Mass))
			}
		}
		// What hangs from the roller at first is lifted already: by z in the water, and on
		// from there in the air.
		top := pieces[len(pieces)-1]
		air, wet := float64(top.Mass)*gravity, float64(top.Mass)*gravity*(1-1025/float64(top.Density))
		want -= wet*9*9/2 + 1.3*(wet*9+air*1.3/2)
		near(t, "work", float64(r.Work), want, 5e-4)
		// The electrical energy lies between that at the best and at the worst efficiency.
		best, worst := 0.0, 1.0
		for _, s := range r.Steps {
			best, worst = math.Max(best, s.Efficiency), math.Min(worst, s.Efficiency)
		}
		wheel := float64(r.Work) / (0.85 * 0.95)
		if e := wheel / float64(r.Energy); !(e < best && e > worst) {
			t.Errorf("efficiency of the whole %v, of its steps %v to %v", e, worst, best)
		}
		var seconds units.Time
		var charge units.Charge
		for _, s := range r.Stages {
			seconds += s.Time
			charge += s.Current.TimesTime(s.Time)
			if s.Heating < s.Current.Scale(1-1e-9) || s.Peak < s.Heating.Scale(1-1e-9) {
				t.Errorf("%s: mean %v, heating %v, peak %v", s.Name, s.Current, s.Heating, s.Peak)
			}
		}
		near(t, "time", float64(seconds), float64(r.Time), 1e-12)
		near(t, "charge", float64(charge), float64(r.Charge), 1e-12)
	}
}

// More wind, more work; a flat battery, more time and the same work.
func TestRetrievalCompares(t *testing.T) {
	h := Haul{
		Rode:   rode.Rode{Pieces: []rode.Piece{{Length: 40, Mass: 1.4, Density: rode.Steel}}},
		Site:   rode.Site{Depth: 8, Roller: 1.4},
		Anchor: 16, Breakout: 1200, Supply: Supply{Voltage: 12.6},
	}
	var before Retrieval
	for _, pull := range []units.Force{0, 50, 300, 600} {
		h.Pull = pull
		r, err := Windlass{Drive: magnets}.Retrieve(h)
		if err != nil {
			t.Fatal(err)
		}
		if !(r.Work > before.Work && r.Time > before.Time) {
			t.Errorf("%v: %v in %v, with less pull %v in %v", pull, r.Work, r.Time, before.Work, before.Time)
		}
		before = r
	}
	h.Supply.Voltage = 11
	flat, err := Windlass{Drive: magnets}.Retrieve(h)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "work", float64(flat.Work), float64(before.Work), 1e-9)
	near(t, "charge per length", float64(flat.Charge)/float64(flat.Time), float64(before.Charge)/float64(before.Time), 0.03)
	if !(flat.Time > before.Time) {
		t.Errorf("%v on a flat battery, %v on a full one", flat.Time, before.Time)
	}
}

// The rule of equal losses against the geometry of a worm: forward tan(lead)/tan(lead + friction),
// back tan(lead - friction)/tan(lead).
func TestBackDrivingOfAWorm(t *testing.T) {
	for _, c := range []struct{ lead, friction units.Angle }{
		{10 * units.Degree, 5 * units.Degree}, {5 * units.Degree, 3.5 * units.Degree}, {4 * units.Degree, 5 * units.Degree},
	} {
		d := magnets
		d.Points = nil
		forward := c.lead.Tan() / (c.lead + c.friction).Tan()
		for _, p := range magnets.Points {
			p.Pull = p.Pull.Scale(forward / 2) // less than the gear lets through
			d.Points = append(d.Points, p)
		}
		d.Gear.Running = forward
		g, err := d.Gears()
		if err != nil {
			t.Fatal(err)
		}
		if back := max(0, (c.lead-c.friction).Tan()/c.lead.Tan()); math.Abs(g.BackDriving-back) > 0.02 {
			t.Errorf("lead %v, friction %v: %v, want about %v", c.lead, c.friction, g.BackDriving, back)
		}
	}
}

// The retrieval again, by small steps of time instead of along the rode.
func TestRetrievalInTime(t *testing.T) {
	h := Haul{
		Rode:   rode.Rode{Pieces: []rode.Piece{{Length: 30, Mass: 1.4, Density: rode.Steel}}},
		Site:   rode.Site{Depth: 8, Roller: 1.4},
		Anchor: 16, Pull: 400, Breakout: 900, Travel: 0.3, Supply: Supply{Voltage: 12.4, Resistance: 0.01},
	}
	w := Windlass{Drive: magnets, Roller: 0.9, Wheel: 0.97}
	want, err := w.Retrieve(h)
	if err != nil {
		t.Fatal(err)
	}
	const dt = 0.02
	out, seconds, charge, travelled := 30.0, 0.0, 0.0, 0.0
	broken := false
	hold := 900 + 16*gravity*(1-1025.0/7850)
	at := 0.0 // the tension that breaks it out
	for out > 1e-6 {
		var tension float64
		switch {
		case broken && travelled < 0.3:
			tension = at
		case broken:
			f, err := HangingWeight(h.Rode, h.Site, h.Anchor, units.Length(out))
			if err != nil {
				t.Fatal(err)
			}
			tension = float64(f)
		default:
			r, err := h.Rode.Veer(units.Length(out))
			if err != nil {
				t.Fatal(err)
			}
			st, err := rode.Solve(r, h.Site, h.Pull)
			if err != nil {
				t.Fatal(err)
			}
			tension = float64(st.Tension)
			if float64(st.Anchor.Tension) >= hold {
				broken, at = true, tension
			}
		}
		run, err := w.Drive.Run(units.Force(tension/(0.9*0.97)), h.Supply)
		if err != nil {
			t.Fatal(err)
		}
		step := math.Min(dt, out/float64(run.Speed))
		out -= float64(run.Speed) * step
		if broken {
			travelled += float64(run.Speed) * step
		}
		seconds += step
		charge += float64(run.Current) * step
	}
	near(t, "time", float64(want.Time), seconds, 2e-3)
	near(t, "charge", float64(want.Charge), charge, 2e-3)
}

// What hangs, by hand: chain and fittings in water, in air and on the bed.
func TestHangingWeightByHand(t *testing.T) {
	shackle := rode.Fitting{Mass: 2, Volume: 5e-4}
	r := rode.Rode{Pieces: []rode.Piece{
		{Length: 5, Mass: 2, Density: rode.Steel, Top: []rode.Fitting{shackle}},
		{Length: 10, Mass: 1, Density: 2050}, // half its weight in water
	}}
	site := rode.Site{Depth: 6, Roller: 2}
	wet := 2 * gravity * (1 - 1025.0/7850)
	for _, c := range []struct{ out, want float64 }{
		{15, gravity*2 + 0.5*gravity*6},                                                         // 8 m of the upper piece, joint on the bed
		{12, gravity*2 + 0.5*gravity*5 + (2-0.5125)*gravity + wet*1},                            // joint 7 m down
		{8, gravity*2 + 0.5*gravity*1 + (2-0.5125)*gravity + wet*5 + 3*gravity*(1-1025.0/7850)}, // up and down
		{6, gravity*1 + 2*gravity + 2*gravity*1 + wet*4 + 3*gravity*(1-1025.0/7850)},            // joint in the air
		{1, 2*gravity*1 + 3*gravity},                                                            // anchor in the air
	} {
		f, err := HangingWeight(r, site, 3, units.Length(c.out))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "hanging", float64(f), c.want, 1e-12)
		// A bed that rises to the roller within the rode's length is no matter.
		for _, slope := range []units.Angle{-0.9, 0.9} {
			sloping := site
			sloping.Slope = slope
			if g, err := HangingWeight(r, sloping, 3, units.Length(c.out)); err != nil || g != f {
				t.Errorf("%v on a bed of %v: %v, error %v", c.out, slope, g, err)
			}
		}
	}
	site.Slope = units.Angle(math.NaN())
	if _, err := HangingWeight(r, site, 3, 5); !errors.Is(err, ErrInput) && !errors.Is(err, rode.ErrInput) {
		t.Errorf("error %v", err)
	}
}
