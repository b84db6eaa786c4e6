package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// randomCircuit hangs n nodes together by a random tree with a few meshes, of
// resistances over nine decades, with batteries and, if wanted, loads of every law.
func randomCircuit(rng *rand.Rand, n int, loads bool) wiring.Circuit {
	var c wiring.Circuit
	name := func(kind string) string { return fmt.Sprintf("%s %d", kind, len(c.Elements)) }
	node := func(i int) string { return fmt.Sprint("n", i) }
	ohms := func(lo, hi float64) units.Resistance {
		return units.Resistance(math.Pow(10, lo+(hi-lo)*rng.Float64()))
	}
	link := func(a, b int) {
		e := wiring.Element{Name: name("part"), From: node(a), To: node(b)}
		switch rng.IntN(4) {
		case 0:
			e.Cable = &wiring.Cable{
				Conductor: wiring.Conductor{Size: "x", Area: 1e-6, Resistance: units.ResistancePerLength(ohms(-4, -2))},
				Length:    units.Length(0.1 + 10*rng.Float64()), Parallel: rng.IntN(3),
			}
		case 1:
			e.Device = &wiring.Device{Kind: wiring.Fuse, Rating: 10, Resistance: ohms(-4, -2)}
		default:
			e.Contact = &wiring.Contact{Role: wiring.Lug, Resistance: ohms(-5, -1)}
		}
		c.Elements = append(c.Elements, e)
	}
	for i := 1; i < n; i++ {
		link(rng.IntN(i), i)
	}
	pair := func() (int, int) {
		a := rng.IntN(n)
		return a, (a + 1 + rng.IntN(n-1)) % n
	}
	for range rng.IntN(1 + n/3) {
		link(pair())
	}
	for range rng.IntN(3) {
		a, b := pair()
		c.Elements = append(c.Elements, wiring.Element{
			Name: name("leak"), From: node(a), To: node(b),
			Contact: &wiring.Contact{Role: wiring.Leakage, Resistance: ohms(2, 6)},
		})
	}
	for range 1 + rng.IntN(2) {
		a, b := pair()
		c.Elements = append(c.Elements, wiring.Element{
			Name: name("battery"), From: node(a), To: node(b),
			Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: units.Voltage(11 + 3*rng.Float64()), Charge: 1, Resistance: ohms(-3, -1)},
		})
	}
	if !loads {
		return c
	}
	for range 1 + rng.IntN(4) {
		a, b := pair()
		e := wiring.Element{Name: name("load"), From: node(a), To: node(b)}
		switch rng.IntN(7) {
		case 0:
			e.Load = &wiring.Load{Resistance: ohms(-1, 2)}
		case 1:
			e.Load = &wiring.Load{Current: units.Current(10 * rng.Float64())}
		case 2:
			e.Load = &wiring.Load{Power: units.Power(0.1 * rng.Float64())}
		case 3:
			e.Motor = &wiring.Motor{Type: wiring.PermanentMagnet, Resistance: ohms(-2, 0), Flux: 0.05, Efficiency: 1, Load: units.Torque(5 * rng.Float64())}
		case 4:
			e.Alternator = &wiring.Alternator{Voltage: 14.2, Limit: 50, Resistance: ohms(-3, -1)}
		case 5:
			e.Motor = &wiring.Motor{Type: wiring.SeriesWound, Resistance: ohms(-2, 0), Slope: 5e-4, Knee: 100, Efficiency: 0.9, Load: units.Torque(5 * rng.Float64())}
		case 6:
			e.Motor = &wiring.Motor{Type: wiring.CompoundWound, Voltage: 12, Resistance: ohms(-2, 0), Flux: 0.03, Slope: 3e-4, Efficiency: 0.9, Drag: 0.1, Load: units.Torque(5 * rng.Float64())}
		}
		c.Elements = append(c.Elements, e)
	}
	return c
}

// resistanceOf reads the resistance out of an element without the solver's help.
func resistanceOf(e wiring.Element) float64 {
	switch {
	case e.Cable != nil:
		return float64(e.Cable.Conductor.Resistance) * float64(e.Cable.Length) / math.Max(1, float64(e.Cable.Parallel))
	case e.Device != nil:
		return float64(e.Device.Resistance)
	case e.Contact != nil:
		return float64(e.Contact.Resistance)
	case e.Load != nil:
		return float64(e.Load.Resistance)
	default:
		return float64(e.Battery.Resistance)
	}
}

// tableau solves a linear circuit as a dense system in all branch currents and
// node voltages at once: the balance at every node and Ohm's law of every branch,
// in the order of the text-book, by LU with pivoting.
func tableau(t *testing.T, c wiring.Circuit, reference string) (volts map[string]float64, amps []float64) {
	t.Helper()
	index := map[string]int{}
	var names []string
	for _, e := range c.Elements {
		for _, n := range []string{e.From, e.To} {
			if _, ok := index[n]; !ok {
				index[n] = len(names)
				names = append(names, n)
			}
		}
	}
	n, m := len(names), len(c.Elements)
	a := mat.NewDense(n+m, n+m, nil)
	rhs := mat.NewVecDense(n+m, nil)
	for i, e := range c.Elements {
		from, to := index[e.From], index[e.To]
		a.Set(from, n+i, 1)
		a.Set(to, n+i, -1)
		r := resistanceOf(e)
		a.Set(n+i, from, 1)
		a.Set(n+i, to, -1)
		a.Set(n+i, n+i, -r)
		if e.Battery != nil {
			rhs.SetVec(n+i, -float64(e.Battery.OpenCircuit))
		}
	}
	ref := index[reference]
	for j := range n + m {
		a.Set(ref, j, 0)
	}
	a.Set(ref, ref, 1)
	var x mat.VecDense
	if err := x.SolveVec(a, rhs); err != nil {
		if _, ok := err.(mat.Condition); !ok {
			t.Fatal(err)
		}
	}
	// One step of refinement: the matrix spans many decades.
	var residual, correction mat.VecDense
	residual.MulVec(a, &x)
	residual.SubVec(rhs, &residual)
	if err := correction.SolveVec(a, &residual); err == nil {
		x.AddVec(&x, &correction)
	}
	volts = map[string]float64{}
	for i, name := range names {
		volts[name] = x.AtVec(i)
	}
	for i := range c.Elements {
		amps = append(amps, x.AtVec(n+i))
	}
	return volts, amps
}

func firstBattery(c wiring.Circuit) string {
	for _, e := range c.Elements {
		if e.Battery != nil || e.Alternator != nil {
			return e.From
		}
	}
	return ""
}

func TestLinearAgainstTableau(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	for k := range 1000 {
		c := randomCircuit(rng, 2+rng.IntN(25), false)
		st, err := wiring.Solve(c, wiring.Conditions{})
		if err != nil {
			t.Fatalf("network %d: %v", k, err)
		}
		volts, amps := tableau(t, c, firstBattery(c))
		largest := 0.0
		for _, i := range amps {
			largest = math.Max(largest, math.Abs(i))
		}
		for name, v := range volts {
			if math.Abs(float64(st.Nodes[name])-v) > 1e-10*14 {
				t.Errorf("network %d: node %s at %v, want %.12g V", k, name, st.Nodes[name], v)
			}
		}
		for i, want := range amps {
			// The tableau's own rounding: 1e-15 V across the least resistance.
			if math.Abs(float64(st.Branches[i].Current)-want) > 1e-9*largest+1e-9 {
				t.Errorf("network %d: %s carries %v, want %.12g A", k, st.Branches[i].Name, st.Branches[i].Current, want)
			}
		}
		conserved(t, c, st)
	}
}

// conserved checks that current balances at every node and power over the whole circuit,
// to 1e-10 of the largest, from the answers alone.
func conserved(t *testing.T, c wiring.Circuit, st wiring.Solution) {
	t.Helper()
	excess := map[string]float64{}
	largest, power, most := 0.0, 0.0, 0.0
	for _, b := range st.Branches {
		excess[b.From] += float64(b.Current)
		excess[b.To] -= float64(b.Current)
		largest = math.Max(largest, math.Abs(float64(b.Current)))
		power += float64(b.Power)
		most += math.Abs(float64(b.Current)) * (math.Abs(float64(b.Drop)) + float64(b.EMF)) // turned from one form into another inside a battery, too
	}
	for node, x := range excess {
		if math.Abs(x) > math.Max(1e-10*largest, 1e-14) { // a hundredth of a picoampere is none
			t.Errorf("%g A of %g A are lost at node %s", x, largest, node)
		}
	}
	if math.Abs(power) > math.Max(1e-10*most, 1e-12) {
		t.Errorf("%g W of %g W are lost", power, most)
	}
}

// Each element obeys its law, written here again, and currents balance: for loads
// that take more at more voltage there is only one such state.
func TestLoadsObeyTheirLaws(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2))
	refused := 0
	for k := range 1000 {
		c := randomCircuit(rng, 2+rng.IntN(25), true)
		st, err := wiring.Solve(c, wiring.Conditions{})
		if errors.Is(err, wiring.ErrCollapse) {
			refused++
			continue
		}
		if err != nil {
			t.Errorf("network %d: %v", k, err)
			continue
		}
		conserved(t, c, st)
		for i, b := range st.Branches {
			e := c.Elements[i]
			v, want := float64(b.Drop), 0.0
			switch {
			case b.State == wiring.Dark:
				continue
			case e.Load != nil && e.Load.Current != 0:
				want = math.Copysign(float64(e.Load.Current), v)
			case e.Load != nil && e.Load.Power != 0:
				want = float64(e.Load.Power) / v
			case e.Motor != nil:
				want = math.Copysign(math.Min(math.Abs(v)/float64(e.Motor.Resistance), pulling(e.Motor, math.Abs(v))), v)
			case e.Alternator != nil:
				want = math.Max(0, math.Min(float64(e.Alternator.Limit), (float64(e.Alternator.Voltage)+v)/float64(e.Alternator.Resistance)))
			case e.Battery != nil:
				want = (float64(e.Battery.OpenCircuit) + v) / float64(e.Battery.Resistance)
			default:
				want = v / resistanceOf(e)
			}
			if r := float64(b.Current); math.Abs(r-want) > 1e-9*math.Max(1, math.Abs(want))*math.Max(1, 1/math.Max(1e-6, math.Abs(v)))+1e-8 {
				t.Errorf("network %d: %s carries %.12g A at %.12g V, want %.12g A", k, b.Name, r, v, want)
			}
		}
	}
	if refused > 100 {
		t.Errorf("%d of 1000 networks collapse", refused)
	}
}

// pulling is the current whose torque is the load's, by bisection.
func pulling(m *wiring.Motor, v float64) float64 {
	lo, hi := 0.0, 1e7
	for range 200 {
		i := (lo + hi) / 2
		flux, slope := float64(m.Flux), float64(m.Slope)
		switch m.Type {
		case wiring.SeriesWound:
			flux = slope * i / (1 + i/float64(m.Knee))
		case wiring.CompoundWound:
			flux = flux*v/float64(m.Voltage) + slope*i
		}
		if m.Efficiency*flux*i-float64(m.Drag) < float64(m.Load) {
			lo = i
		} else {
			hi = i
		}
	}
	return lo
}
