package refcheck

import "testing"

// Each getter reads a value in a unit and gives it back in the same unit.
func TestQuantities(t *testing.T) {
	for _, c := range []struct {
		unit string
		get  func(in Inputs) any
	}{
		{"ft", func(in Inputs) any { return in.Length("x") }},
		{"mm2", func(in Inputs) any { return in.Area("x") }},
		{"L", func(in Inputs) any { return in.Volume("x") }},
		{"lb", func(in Inputs) any { return in.Mass("x") }},
		{"kN", func(in Inputs) any { return in.Force("x") }},
		{"kg/m", func(in Inputs) any { return in.LinearDensity("x") }},
		{"N/m", func(in Inputs) any { return in.ForcePerLength("x") }},
		{"MPa", func(in Inputs) any { return in.Pressure("x") }},
		{"N/mm", func(in Inputs) any { return in.Stiffness("x") }},
		{"kn", func(in Inputs) any { return in.Speed("x") }},
		{"m/s2", func(in Inputs) any { return in.Acceleration("x") }},
		{"deg", func(in Inputs) any { return in.Angle("x") }},
		{"°C", func(in Inputs) any { return in.Temperature("x") }},
		{"K", func(in Inputs) any { return in.TemperatureDifference("x") }},
		{"kg/m3", func(in Inputs) any { return in.Density("x") }},
		{"h", func(in Inputs) any { return in.Time("x") }},
		{"Hz", func(in Inputs) any { return in.Frequency("x") }},
		{"kJ", func(in Inputs) any { return in.Energy("x") }},
		{"W", func(in Inputs) any { return in.Power("x") }},
		{"N m", func(in Inputs) any { return in.Torque("x") }},
		{"A", func(in Inputs) any { return in.Current("x") }},
		{"V", func(in Inputs) any { return in.Voltage("x") }},
		{"mΩ", func(in Inputs) any { return in.Resistance("x") }},
		{"Ω/km", func(in Inputs) any { return in.ResistancePerLength("x") }},
		{"Ah", func(in Inputs) any { return in.Charge("x") }},
		{"rpm", func(in Inputs) any { return in.AngularSpeed("x") }},
		{"kg m2", func(in Inputs) any { return in.MomentOfInertia("x") }},
	} {
		rows, errs := load(data("a,rope.Stretch,x=1.25 "+c.unit+",1.25,"+c.unit+",0.005,practice,,,,"), "rope")
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		got, err := compute(rows[0], func(in Inputs) (any, error) { return c.get(in), nil })
		if err != nil {
			t.Errorf("%s: %v", c.unit, err)
		}
		if got.deviation != 0 {
			t.Errorf("%s: got %v, want 1.25", c.unit, got.got)
		}
	}
	rows, _ := load(data("a,rope.Stretch,x=1.25,1.25,m,0.005,practice,,,,"), "rope")
	_, err := compute(rows[0], func(in Inputs) (any, error) { return in.Length("x"), nil })
	wantError(t, []error{err}, "input x:")
}
