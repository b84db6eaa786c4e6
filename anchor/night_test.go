package anchor_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func night() anchor.Night {
	return anchor.Night{
		From: at(20, 0), To: at(30, 0),
		Tide:     springTide(anchor.Cosine),
		Sounding: anchor.Sounding{At: at(19, 30), Shown: 6.1, Offset: 0.5},
		Rode:     rode.Rode{Pieces: []rode.Piece{chainOf(40), ropeOf(40)}},
		Roller:   1.4, Friction: 0.6,
		Winds: []anchor.NightWind{
			{From: at(18, 0), Direction: 4, Pull: 700},
			{From: at(23, 0), Direction: 4.3, Pull: 1500},
			{From: at(27, 30), Direction: 4.9, Pull: 900},
		},
		Steepest: 5 * units.Degree,
		Wave:     0.4, TideError: 0.2,
		Draught: 1.5, UnderKeel: 0.3, Stern: 10.4, Antenna: 9,
	}
}

// The plan against the definitions of what it lists, one by one.
func TestPlanNight(t *testing.T) {
	n := night()
	p, err := anchor.PlanNight(n)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Turns) != 1 || p.Turns[0].High || !p.Turns[0].At.Equal(at(24, 40)) {
		t.Errorf("turns %+v", p.Turns)
	}
	if !p.Moments[0].At.Equal(n.From) || !p.Moments[len(p.Moments)-1].At.Equal(n.To) {
		t.Errorf("from %v to %v", p.Moments[0].At, p.Moments[len(p.Moments)-1].At)
	}
	if at := p.Moments[p.Low].At; !at.Equal(p.Turns[0].At) {
		t.Errorf("least depth at %v, low water at %v", at, p.Turns[0].At)
	}
	if p.Out != p.Needed || p.Veer != 0 || p.Shoalest != "bed at the anchor" {
		t.Errorf("%v out, %v needed, %v to veer, %s", p.Out, p.Needed, p.Veer, p.Shoalest)
	}
	out, err := n.Rode.Veer(p.Out)
	if err != nil {
		t.Fatal(err)
	}
	for i, m := range p.Moments {
		depth, err := n.Sounding.DepthAt(n.Tide, m.At)
		if err != nil || depth != m.Depth {
			t.Fatalf("%v: depth %v and %v, %v", m.At, m.Depth, depth, err)
		}
		if want := depth - 0.2 - 0.2 - 1.5; (m.UnderKeel - want).Abs() > 1e-9 {
			t.Errorf("%v: %v under the keel, want %v", m.At, m.UnderKeel, want)
		}
		st, err := rode.Solve(out, rode.Site{Depth: depth, Roller: 1.4, Friction: 0.6}, m.Pull)
		if err != nil || st.Distance != m.Circle.Bow || st.Tension != m.Tension || st.Scope != m.Scope {
			t.Errorf("%v: %+v where the rode gives %v %v %v, %v", m.At, m, st.Distance, st.Tension, st.Scope, err)
		}
		if m.Angle > n.Steepest+1e-6 || i == p.Worst && (m.Angle-n.Steepest).Abs() > 1e-6 {
			t.Errorf("%v: angle %v, worst is %v", m.At, m.Angle, p.Moments[p.Worst].At)
		}
		if m.Circle.Stern > p.Widest.Stern {
			t.Errorf("%v: circle %v, widest %v", m.At, m.Circle, p.Widest)
		}
	}
	// A metre less is too steep at the worst moment.
	n.Out = p.Needed - 1
	q, err := anchor.PlanNight(n)
	if err != nil || math.Abs(float64(q.Veer)-1) > 1e-9 || q.Moments[q.Worst].Angle <= n.Steepest {
		t.Errorf("%v to veer, %v at the anchor, %v", q.Veer, q.Moments[q.Worst].Angle, err)
	}
}

// The worst moment is found at a change of wind though it lies between steps: the
// stronger wind ends there with the tide still rising.
func TestWorstMomentAtChangeOfWind(t *testing.T) {
	n := night()
	n.Winds[1].Pull, n.Winds[2].Pull = 2000, 100
	n.Winds[2].From = at(29, 33)
	p, err := anchor.PlanNight(n)
	if err != nil || !p.Moments[p.Worst].At.Equal(at(29, 33)) || p.Moments[p.Worst].Pull != 2000 {
		t.Errorf("worst at %v, %v", p.Moments[p.Worst], err)
	}
}

func TestNightPlanForgetsDatum(t *testing.T) {
	n := night()
	a, err := anchor.PlanNight(n)
	if err != nil {
		t.Fatal(err)
	}
	for i := range n.Tide.Turns {
		n.Tide.Turns[i].Height -= 0.5
	}
	b, err := anchor.PlanNight(n)
	if err != nil || (a.Needed-b.Needed).Abs() > 1e-6 || a.Worst != b.Worst {
		t.Errorf("%v and %v needed, %v", a.Needed, b.Needed, err)
	}
}

func TestPlanThatGrounds(t *testing.T) {
	for name, change := range map[string]func(*anchor.Night){
		"deep keel": func(n *anchor.Night) { n.Draught = 3 },
		"waves":     func(n *anchor.Night) { n.Wave = 3 },
		"rock":      func(n *anchor.Night) { n.Shoals = []anchor.Shoal{{Name: "rock", Distance: 40, Rise: 1}} },
		"slope":     func(n *anchor.Night) { n.Slope = 2 * units.Degree },
		"dries":     func(n *anchor.Night) { n.Sounding.Shown = 1.5 },
	} {
		n := night()
		change(&n)
		_, err := anchor.PlanNight(n)
		var e *anchor.Error
		if !errors.Is(err, anchor.ErrAground) || !errors.As(err, &e) || e.Want != "at least 0.3 m" {
			t.Errorf("%s: %v", name, err)
		}
	}
	// The same rock outside the circle, and a plan for a shorter night.
	n := night()
	n.Shoals = []anchor.Shoal{{Name: "rock", Distance: 80, Rise: 1}}
	if _, err := anchor.PlanNight(n); err != nil {
		t.Error(err)
	}
	n.Shoals[0].Distance, n.To = 20, at(22, 0)
	if p, err := anchor.PlanNight(n); err != nil || p.Shoalest != "rock" || p.Rise != 1 {
		t.Errorf("%s %v, %v", p.Shoalest, p.Rise, err)
	}
}

func TestNightRefuses(t *testing.T) {
	nan := units.Length(math.NaN())
	for field, change := range map[string]func(*anchor.Night){
		"to":             func(n *anchor.Night) { n.To = at(19, 0) },
		"from":           func(n *anchor.Night) { n.From = time.Time{} },
		"Wave":           func(n *anchor.Night) { n.Wave = -1 },
		"TideError":      func(n *anchor.Night) { n.TideError = nan },
		"Draught":        func(n *anchor.Night) { n.Draught = nan },
		"UnderKeel":      func(n *anchor.Night) { n.UnderKeel = units.Length(math.Inf(1)) },
		"Out":            func(n *anchor.Night) { n.Out = -3 },
		"Steepest":       func(n *anchor.Night) { n.Steepest = 2 },
		"Slope":          func(n *anchor.Night) { n.Slope = -0.1 },
		"Step":           func(n *anchor.Night) { n.Step = 1 },
		"Winds":          func(n *anchor.Night) { n.Winds = nil },
		"Winds[0].Pull":  func(n *anchor.Night) { n.Winds[0].Pull = -1 },
		"Winds[0].From":  func(n *anchor.Night) { n.Winds[0].From = at(21, 0) },
		"Winds[1].From":  func(n *anchor.Night) { n.Winds[1].From = at(18, 0) },
		"Stern":          func(n *anchor.Night) { n.Stern = nan },
		"Sounding.Shown": func(n *anchor.Night) { n.Sounding.Shown = nan },
		"Shoals[0].Rise": func(n *anchor.Night) { n.Shoals = []anchor.Shoal{{Rise: nan}} },
	} {
		n := night()
		change(&n)
		_, err := anchor.PlanNight(n)
		refused(t, err, field)
	}
	n := night()
	n.To = at(31, 30)
	if _, err := anchor.PlanNight(n); !errors.Is(err, anchor.ErrRange) {
		t.Errorf("beyond the tide table: %v", err)
	}
	n = night()
	n.Rode.Pieces = []rode.Piece{chainOf(20)}
	if _, err := anchor.PlanNight(n); !errors.Is(err, rode.ErrShort) {
		t.Errorf("rode too short: %v", err)
	}
	n = night()
	n.Out = 200
	if _, err := anchor.PlanNight(n); err == nil {
		t.Error("more let out than there is")
	}
}

func TestNightJSON(t *testing.T) {
	n := night()
	p, err := anchor.PlanNight(n)
	if err != nil {
		t.Fatal(err)
	}
	var back anchor.Night
	var plan anchor.NightPlan
	sameAgain(t, n, &back)
	sameAgain(t, p, &plan)
	if len(plan.Moments) != len(p.Moments) || back.Rode.Length() != n.Rode.Length() {
		t.Error("something is lost on the way")
	}
}

// sameAgain writes v, reads it into back and writes that: the texts are alike.
// Comparing hundreds of moments field by field is too much for the small memory
// of a wasm machine.
func sameAgain(t *testing.T, v, back any) {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, back); err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(back)
	if err != nil || string(again) != string(text) {
		t.Errorf("%s comes back as %s: %v", text, again, err)
	}
}

// On a slope the boat may come to lie downhill of her anchor: the rode is what
// rode.LengthFor asks for there. The widest circle is that of the other side.
func TestNightOnASlope(t *testing.T) {
	n := night()
	n.Rode.Pieces = []rode.Piece{chainOf(160)}
	n.Draught, n.UnderKeel, n.Stern, n.Antenna = 0.2, 0, 3, 2
	n.Wave, n.TideError = 0, 0
	last := anchor.NightPlan{}
	for _, slope := range []float64{0, 1, 2} {
		n.Slope = units.Degree.Scale(slope)
		p, err := anchor.PlanNight(n)
		if err != nil {
			t.Fatalf("%v°: %v", slope, err)
		}
		w := p.Moments[p.Worst]
		site := rode.Site{Depth: w.Depth, Roller: n.Roller, Friction: n.Friction, Slope: -n.Slope}
		want, err := rode.LengthFor(n.Rode, site, w.Pull, n.Steepest)
		if err != nil || p.Needed != want || (w.Angle-n.Steepest).Abs() > 1e-6 {
			t.Errorf("%v°: needed %v at %v, want %v, %v", slope, p.Needed, w.Angle, want, err)
		}
		out, err := n.Rode.Veer(p.Out)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range p.Moments {
			var bow units.Length
			for _, s := range []units.Angle{-n.Slope, 0, n.Slope} {
				st, err := rode.Solve(out, rode.Site{Depth: m.Depth, Roller: n.Roller, Friction: n.Friction, Slope: s}, m.Pull)
				if err != nil {
					t.Fatal(err)
				}
				if st.Anchor.FromBed > m.Angle+1e-9 {
					t.Errorf("%v°: %v at the anchor on a slope of %v, the plan has %v", slope, st.Anchor.FromBed, s, m.Angle)
				}
				bow = max(bow, st.Distance)
			}
			if (m.Circle.Bow - bow).Abs() > 1e-9 {
				t.Errorf("%v°: the bow comes to %v, the plan has %v", slope, bow, m.Circle.Bow)
			}
		}
		if p.Needed <= last.Needed {
			t.Errorf("%v°: needed %v, on less of a slope %v", slope, p.Needed, last.Needed)
		}
		last = p
	}
	// A bow that could come to where the bed is as high as its roller is aground.
	n.Slope = 8 * units.Degree
	if _, err := anchor.PlanNight(n); !errors.Is(err, anchor.ErrAground) {
		t.Errorf("uphill of the anchor: %v", err)
	}
	n.Roller = -1 // whatever that boat is, she is not afloat there
	if _, err := anchor.PlanNight(n); !errors.Is(err, anchor.ErrAground) && !errors.Is(err, rode.ErrBed) {
		t.Errorf("uphill of the anchor: %v", err)
	}
}

// In a calm the rode has to reach the bed, and no more.
func TestNightOfCalm(t *testing.T) {
	n := night()
	n.Winds[1].Pull = 0
	p, err := anchor.PlanNight(n)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range p.Moments {
		if rise := m.Depth + 0.2 + 0.2 + n.Roller; m.Pull == 0 && (m.Needed-rise).Abs() > 1e-6 {
			t.Errorf("%v: needed %v to hang down %v", m.At, m.Needed, rise)
		}
	}
	if p.Moments[p.Worst].Pull != 900 {
		t.Errorf("worst is %+v", p.Moments[p.Worst])
	}
	n.Winds = n.Winds[1:2]
	n.Winds[0].From = n.From
	if p, err = anchor.PlanNight(n); err != nil || p.Worst != p.High || p.Widest.Stern < n.Stern {
		t.Errorf("calm all night: %v out at worst %d, high %d, widest %v: %v", p.Out, p.Worst, p.High, p.Widest, err)
	}
	n.Rode.Pieces = []rode.Piece{chainOf(7)}
	if _, err = anchor.PlanNight(n); !errors.Is(err, rode.ErrShort) {
		t.Errorf("a rode that does not reach the bed: %v", err)
	}
}

// What package rode refuses is named by the way that leads there.
func TestRodeRefusedByItsWay(t *testing.T) {
	bad := rode.Rode{Pieces: []rode.Piece{chainOf(40), {Length: -1}}}
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm") // which has a curve that ends
	if err != nil {
		t.Fatal(err)
	}
	good := rode.Rode{Pieces: []rode.Piece{chainOf(40), rope.Piece(40)}}
	swing := anchor.Swing{Rode: good, Site: rode.Site{Depth: 6, Roller: 1.4}, Stern: 10, Antenna: 9}
	with := func(change func(*anchor.Swing)) anchor.Swing { s := swing; change(&s); return s }
	broken, deep := with(func(s *anchor.Swing) { s.Rode = bad }), with(func(s *anchor.Swing) { s.Site.Depth = 1e6 })
	rising := with(func(s *anchor.Swing) { s.Site.Slope = 5.2 * units.Degree }) // as long as a taut rope
	clear := func(ours anchor.Swing, pull units.Force, theirs anchor.Swing, their units.Force) error {
		return second(anchor.ClearOf(ours, pull, anchor.Neighbour{Distance: 60, Swing: theirs}, their, 0))
	}
	plan := func(change func(*anchor.Night)) error {
		n := night()
		change(&n)
		return second(anchor.PlanNight(n))
	}
	for _, c := range []struct {
		field string
		err   error
	}{
		{"Rode.Pieces[1].Length", second(anchor.SwingCircle(broken, 100))},
		{"Site.Depth", second(anchor.SwingCircle(deep, 100))},
		{"ours.Rode.Pieces[1].Length", clear(broken, 100, swing, 100)},
		{"ours.Site.Depth", clear(deep, 100, swing, 100)},
		{"Neighbour.Swing.Rode.Pieces[1].Length", clear(swing, 100, broken, 100)},
		{"Neighbour.Swing.Site.Depth", clear(swing, 100, deep, 100)},
		{"ours.Rode.Length", clear(with(func(s *anchor.Swing) { s.Site.Depth = 90 }), 100, swing, 100)},
		{"pull", second(anchor.SwingCircle(rising, 15e3))},
		{"pull", clear(rising, 15e3, swing, 100)},
		{"theirs", clear(swing, 100, rising, 15e3)},
		{"ours.Rode: tension in polyamide eight-strand 14 mm rope", clear(swing, 1e6, swing, 100)},
		{"Rode.Pieces[1].Length", plan(func(n *anchor.Night) { n.Rode = bad })},
		{"Rode.Length", plan(func(n *anchor.Night) { n.Rode.Pieces = n.Rode.Pieces[:1]; n.Winds[1].Pull = 9000 })},
		{"Friction", plan(func(n *anchor.Night) { n.Friction = -1 })},
		{"Out", plan(func(n *anchor.Night) { n.Out = 200 })},
		{"Rode: tension in polyamide eight-strand 14 mm rope", plan(func(n *anchor.Night) { n.Rode = good; n.Winds[1].Pull = 1e6 })},
		{"Winds[1].Pull", plan(func(n *anchor.Night) { n.Winds[1].Pull = -1 })},
		{"Rode.Pieces", second(anchor.HangingWeight(rode.Rode{}, swing.Site, 16, 5))},
		{"Site.Friction", second(anchor.HangingWeight(swing.Rode, rode.Site{Depth: 6, Friction: -1}, 16, 5))},
	} {
		var r *rode.Error
		var a *anchor.Error
		if !(errors.As(c.err, &r) && r.Field == c.field || errors.As(c.err, &a) && a.Field == c.field) {
			t.Errorf("%v, want something about %s", c.err, c.field)
		}
	}
	var e *anchor.Error
	if err := clear(with(func(s *anchor.Swing) { s.Beam = -1 }), 100, swing, 100); !errors.As(err, &e) || e.Field != "ours.Beam" {
		t.Error(err)
	}
}
