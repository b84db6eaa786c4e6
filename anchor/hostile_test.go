package anchor

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

// What no boat, wind or windlass can be is refused by name, with one of the sentinels.
func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	b := Windage{Parts: []Part{{Front: 1, Side: 1, Top: 1}}}
	part := func(p Part) error {
		_, err := Windage{Parts: []Part{p}}.Load(Wind{Speed: 10}, 0)
		return err
	}
	wind := func(w Wind) error {
		_, err := b.Load(w, 0)
		return err
	}
	hull := func(change func(*Underwater)) error {
		u := below()
		change(&u)
		_, err := u.Load(Current{Speed: 1, Depth: 5}, 0)
		return err
	}
	stream := func(s Current) error {
		_, err := below().Load(s, 0)
		return err
	}
	chain := rode.Rode{Pieces: []rode.Piece{{Length: 30, Mass: 1.4, Density: rode.Steel}}}
	haul := func(change func(*Windlass, *Haul)) error {
		w := Windlass{Drive: magnets}
		h := Haul{Rode: chain, Site: rode.Site{Depth: 8, Roller: 1.4}, Anchor: 16, Breakout: 1000, Supply: Supply{Voltage: 12}}
		change(&w, &h)
		_, err := w.Retrieve(h)
		return err
	}
	drive := func(d Drive) error {
		_, err := d.Run(1000, Supply{Voltage: 12})
		return err
	}
	second := func(_ any, err error) error { return err }
	for _, c := range []struct {
		name  string
		err   error
		is    error
		field string
	}{
		{"no parts", second(Windage{}.Load(Wind{Speed: 1}, 0)), ErrInput, "Parts"},
		{"area not a number", part(Part{Front: units.Area(nan)}), ErrInput, "Parts[0].Front"},
		{"negative area", part(Part{Side: -1}), ErrInput, "Parts[0].Side"},
		{"top below bottom", part(Part{Bottom: 2, Top: 1}), ErrInput, "Parts[0].Top"},
		{"shielded more than all", part(Part{Shielded: 1.1}), ErrInput, "Parts[0].Shielded"},
		{"unknown shape", part(Part{Shape: 9}), ErrInput, "Parts[0].Shape"},
		{"wind too strong", wind(Wind{Speed: 101}), ErrInput, "Wind.Speed"},
		{"wind not a number", wind(Wind{Speed: units.Speed(nan)}), ErrInput, "Wind.Speed"},
		{"air too hot", wind(Wind{Air: Air{Temperature: 400}}), ErrInput, "Wind.Air.Temperature"},
		{"air too moist", wind(Wind{Air: Air{Humidity: 2}}), ErrInput, "Wind.Air.Humidity"},
		{"infinite angle", second(b.Load(Wind{Speed: 1}, units.Angle(inf))), ErrInput, "from"},
		{"gust longer than the mean", second(GustFactor(20, 10)), ErrInput, "gust"},
		{"gust of half a second", second(GustFactor(0.5, 10)), ErrInput, "gust"},
		{"gust over no ground", second(Exposure(7).GustFactor(3, 600)), ErrInput, "Exposure"},
		{"gust longer than its mean", second(AtSea.GustFactor(601, 600)), ErrInput, "gust"},
		{"mean of a second", second(AtSea.GustFactor(1, 1)), ErrInput, "mean"},
		{"boat too long to estimate", second(Estimate(Dimensions{Length: 30, Beam: 6, Freeboard: 2})), ErrInput, "Length"},
		{"no rig of that number", second(Estimate(Dimensions{Length: 10, Beam: 3, Freeboard: 1, Rig: 7})), ErrInput, "Rig"},
		{"hull of lead", hull(func(u *Underwater) { u.Mass = 1e6 }), ErrInput, "Mass"},
		{"fin not a number", hull(func(u *Underwater) { u.Fins[0].Side = units.Area(nan) }), ErrInput, "Fins[0].Side"},
		{"propeller of no size", hull(func(u *Underwater) { u.Propellers[0].Diameter = 0 }), ErrInput, "Propellers[0].Diameter"},
		{"aground", stream(Current{Speed: 1, Depth: 0.5}), ErrInput, "Current.Depth"},
		{"makes waves", stream(Current{Speed: 4, Depth: 5}), ErrRange, "Current.Speed"},
		{"friction at no speed", second(FrictionCoefficient(0)), ErrRange, "reynolds"},
		{"friction not a number", second(FrictionCoefficient(nan)), ErrRange, "reynolds"},
		{"no wave", second(Wavelength(0, 5)), ErrInput, "period"},
		{"wave on the dry", second(Wavelength(5, 0)), ErrInput, "depth"},
		{"breaking", second(Waves{3, 5, 2}.Surge(9)), ErrRange, "Waves.Height"},
		{"entrance behind the beam", second(Waves{0.5, 5, 5}.Drift(3, 2)), ErrInput, "entrance"},
		{"nothing moves", second(Lie(b, below(), Wind{}, Current{Depth: 5}, 0, 4)), ErrNoBalance, "wind and current"},
		{"roller amidships", second(Lie(b, below(), Wind{Speed: 5}, Current{Depth: 5}, 0, 0)), ErrInput, "roller"},
		{"boat too long for the table", second(HorizontalLoads(61*units.Foot, 3, Sloop)), ErrRange, "length and beam"},
		{"no length", second(HorizontalLoads(0, 3, Sloop)), ErrInput, "length"},
		{"boat too small for the ships' rule", second(EquipmentGear(50)), ErrRange, "number"},
		{"equipment not a number", second(EquipmentGear(nan)), ErrRange, "number"},
		{"no displacement", second(EquipmentNumber(0, 1, 1, 1)), ErrInput, "displacement"},
		{"vessel too long", second(SmallVesselGear(24.5)), ErrRange, "mean"},
		{"vessel too short", second(SmallVesselGear(4.99)), ErrRange, "mean"},
		{"vessel not a number", second(SmallVesselGear(units.Length(nan))), ErrRange, "mean"},
		{"no anchor", second(Holding(Claw, Sand, 0)), ErrInput, "mass"},
		{"no such anchor", second(Holding(9, Sand, 10)), ErrInput, "kind"},
		{"no such soil", second(Holding(Claw, 5, 10)), ErrInput, "soil"},
		{"miracle", second(HoldingByEfficiency(1000, 10)), ErrInput, "efficiency"},
		{"bottom of glue", second(Held{Law: 1}.On(Bottom{Name: "glue", Factor: 3})), ErrInput, "Bottom.Factor"},
		{"held by nothing", second(Held{Law: units.Force(nan)}.On(Bottom{Name: "sand", Factor: 1})), ErrInput, "Law"},
		{"mud twice", second(must(Holding(Claw, Mud, 16)).On(Bottoms()[3])), ErrInput, "Soil"},
		{"gravel twice", second(must(must(Holding(Claw, Sand, 16)).On(Bottoms()[5])).On(Bottoms()[5])), ErrInput, "Bottom"},
		{"bottom of another soil", second(Held{Law: 1}.On(Bottom{Factor: 1, Soil: 5})), ErrInput, "Bottom.Soil"},
		{"no power", second(StaticThrust(0, 0.4)), ErrInput, "power"},
		{"no propeller", second(BackDown(1e4, 0)), ErrInput, "diameter"},
		{"chain of a bicycle", second(MinimumWindlass(0.004, 1, 10)), ErrInput, "diameter"},
		{"grade 4", second(MinimumWindlass(0.014, 4, 10)), ErrInput, "grade"},
		{"one point", drive(Drive{Voltage: 12, Points: magnets.Points[:1]}), ErrInput, "Drive.Points"},
		{"no voltage", drive(Drive{Points: magnets.Points}), ErrInput, "Drive.Voltage"},
		{"falling points", drive(Drive{Voltage: 12, Points: []DrivePoint{{2500, 0.22, 170}, {1000, 0.4, 80}}}), ErrInput, "Drive.Points[1].Pull"},
		{"more work than current", drive(Drive{Voltage: 12, Points: []DrivePoint{{1000, 0.4, 20}, {2500, 0.22, 170}}}), ErrInput, "Drive.Points[0].Pull"},
		{"magnets that pull more than they can", drive(Drive{Voltage: 12, Points: []DrivePoint{{1000, 0.4, 70}, {2500, 0.3, 130}}}), ErrInput, "Drive.Points"},
		{"gear worse than shown", drive(Drive{Voltage: 12, Points: magnets.Points, Gear: Gear{Running: 0.5}}), ErrInput, "Drive.Gear.Running"},
		{"too heavy", second(magnets.Run(5000, Supply{Voltage: 12})), ErrStall, "pull"},
		{"pull not a number", second(magnets.Run(units.Force(nan), Supply{Voltage: 12})), ErrInput, "pull"},
		{"dead battery", second(magnets.Run(500, Supply{Voltage: 2})), ErrInput, "Supply.Voltage"},
		{"drags", haul(func(_ *Windlass, h *Haul) { h.Breakout, h.Pull = 100, 3000 }), ErrInput, "Breakout"},
		{"rock", haul(func(_ *Windlass, h *Haul) { h.Breakout = 9000 }), ErrStall, "pull with 9.4 m out"},
		{"roller of wood", haul(func(w *Windlass, _ *Haul) { w.Roller = 0.1 }), ErrInput, "Roller"},
		{"anchor not a number", haul(func(_ *Windlass, h *Haul) { h.Anchor = units.Mass(nan) }), ErrInput, "Anchor"},
		{"hanging from nothing", second(HangingWeight(chain, rode.Site{Depth: 5}, 10, 31)), ErrInput, "out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var e *Error
			if !errors.As(c.err, &e) || !errors.Is(c.err, c.is) {
				t.Fatalf("%v, want an *Error that is %v", c.err, c.is)
			}
			if e.Field != c.field {
				t.Errorf("%q names %q, want %q", e, e.Field, c.field)
			}
		})
	}
	// What package rode refuses keeps its sentinel.
	if err := haul(func(_ *Windlass, h *Haul) { h.Rode = rode.Rode{} }); !errors.Is(err, rode.ErrInput) {
		t.Errorf("no rode: %v", err)
	}
	if err := haul(func(_ *Windlass, h *Haul) { h.Site.Depth = 40 }); !errors.Is(err, rode.ErrShort) {
		t.Errorf("rode too short: %v", err)
	}
}

// Everything goes to JSON and back.
func TestJSON(t *testing.T) {
	b := sloop(t)
	l := mustWind(t, b, Wind{Speed: 12, Air: Air{Humidity: 0.5}}, 0.6)
	stream, err := below().Load(Current{Speed: 1, Depth: 5}, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	held, err := Holding(PlateHinged, Mud, 16)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Windlass{Drive: compound}.Retrieve(Haul{
		Rode: rode.Rode{Pieces: []rode.Piece{{Length: 12, Mass: 1.4, Density: rode.Steel}}},
		Site: rode.Site{Depth: 6, Roller: 1.4}, Anchor: 16, Supply: Supply{Voltage: 12},
	})
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, b)
	roundTrip(t, l)
	roundTrip(t, stream)
	roundTrip(t, below())
	roundTrip(t, held)
	roundTrip(t, compound)
	roundTrip(t, r)
	roundTrip(t, Dimensions{Length: 10, Beam: 3, Freeboard: 1, Rig: Ketch})
	roundTrip(t, struct {
		K Kind
		S Soil
	}{Claw, Mud})
}

func roundTrip[T any](t *testing.T, v T) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Errorf("%T: %v", v, err)
		return
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Errorf("%T: %v", v, err)
	}
	if d := cmp.Diff(v, back); d != "" {
		t.Errorf("%T:\n%s", v, d)
	}
}

func TestUnknownNames(t *testing.T) {
	for _, v := range []interface{ UnmarshalText([]byte) error }{new(Shape), new(Exposure), new(Rig), new(Kind), new(Soil), new(Winding), new(TideRule), new(Spectrum)} {
		if err := v.UnmarshalText([]byte("wishbone")); !errors.Is(err, ErrUnknown) {
			t.Errorf("%T: %v", v, err)
		}
	}
	for _, v := range []interface{ MarshalText() ([]byte, error) }{Shape(9), Exposure(9), Rig(9), Kind(9), Soil(9), Winding(9), TideRule(9), Spectrum(9)} {
		if text, err := v.MarshalText(); !errors.Is(err, ErrInput) {
			t.Errorf("%v: %q, %v", v, text, err)
		}
		if s := fmt.Sprint(v); s == "" {
			t.Errorf("%T has no name", v)
		}
	}
}

// Whatever the numbers, an answer without an error is a finite one, and an error is an *Error.
func FuzzLoad(f *testing.F) {
	f.Add(10.0, 0.5, 3.0, 10.0, 0.0, 1.5, 1.0, 5.0)
	f.Add(-1.0, math.Inf(1), 1e300, 1e-300, math.NaN(), 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, speed, from, front, side, bottom, top, stream, depth float64) {
		b := Windage{Parts: []Part{{
			Front: units.Area(front), Side: units.Area(side), Bottom: units.Length(bottom), Top: units.Length(top), Length: 3,
		}}}
		l, err := b.Load(Wind{Speed: units.Speed(speed)}, units.Angle(from))
		soundLoad(t, l.Load, err)
		if !finite(float64(l.Height)) || !finite(float64(l.Arm)) {
			t.Errorf("heights %v, %v", l.Height, l.Arm)
		}
		c, err := below().Load(Current{Speed: units.Speed(stream), Depth: units.Length(depth)}, units.Angle(from))
		soundLoad(t, c.Load, err)
		s, err := Waves{units.Length(front), units.Time(side), units.Length(depth)}.Surge(units.Length(top))
		sound(t, err, float64(s.Wavelength), float64(s.Boat), float64(s.Speed))
		d, err := Waves{units.Length(front), units.Time(side), units.Length(depth)}.Drift(units.Length(top), units.Angle(from))
		sound(t, err, float64(d.Low), float64(d.High))
		g, err := GustFactor(units.Time(front), units.Time(side))
		sound(t, err, g)
	})
}

func FuzzDrive(f *testing.F) {
	f.Add(uint8(0), 12.0, 1000.0, 0.4, 80.0, 2500.0, 0.22, 170.0, 0.0, 0.0, 0.0, 1500.0, 11.0)
	f.Add(uint8(1), 12.0, 771.0, 0.4464, 60.0, 2819.0, 0.2368, 120.0, 7623.0, 0.12989, 220.0, 1500.0, 11.0)
	f.Add(uint8(2), 12.0, 500.0, 0.45, 50.0, 1500.0, 0.33, 90.0, 3000.0, 0.23, 140.0, 1500.0, 11.0)
	f.Fuzz(func(t *testing.T, winding uint8, volts, f0, v0, i0, f1, v1, i1, f2, v2, i2, pull, source float64) {
		d := Drive{Winding: Winding(winding), Voltage: units.Voltage(volts), Points: []DrivePoint{
			{units.Force(f0), units.Speed(v0), units.Current(i0)},
			{units.Force(f1), units.Speed(v1), units.Current(i1)},
			{units.Force(f2), units.Speed(v2), units.Current(i2)},
		}}
		if d.Winding == PermanentMagnet {
			d.Points = d.Points[:2]
		}
		r, err := d.Run(units.Force(pull), Supply{Voltage: units.Voltage(source), Resistance: 0.01})
		sound(t, err, float64(r.Current), float64(r.Voltage), float64(r.Speed), float64(r.Electrical),
			r.Efficiency, float64(r.Start), float64(r.Stall), float64(r.StallPull))
		if err == nil && (r.Current < 0 || r.Current > r.Stall || r.Speed < 0 || r.Efficiency > 1+1e-6) {
			t.Errorf("%+v", r)
		}
	})
}

func FuzzNames(f *testing.F) {
	f.Add("block")
	f.Add("welded plates")
	f.Add("permanent magnet")
	f.Fuzz(func(t *testing.T, name string) {
		for _, v := range []interface {
			UnmarshalText([]byte) error
			fmt.Stringer
		}{new(Shape), new(Exposure), new(Rig), new(Kind), new(Soil), new(Winding), new(TideRule), new(Spectrum)} {
			if err := v.UnmarshalText([]byte(name)); err == nil && v.String() != name {
				t.Errorf("%q read as %q", name, v)
			} else if err != nil && !errors.Is(err, ErrUnknown) {
				t.Error(err)
			}
		}
	})
}

func soundLoad(t *testing.T, l Load, err error) {
	t.Helper()
	sound(t, err, float64(l.X), float64(l.Y), float64(l.Yaw))
}

func sound(t *testing.T, err error, values ...float64) {
	t.Helper()
	if err != nil {
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%T: %v", err, err)
		}
		return
	}
	for _, v := range values {
		if !finite(v) {
			t.Errorf("%v without an error", values)
		}
	}
}
