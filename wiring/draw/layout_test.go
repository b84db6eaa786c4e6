package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

func sampleWindlass(t testing.TB) Windlass {
	t.Helper()
	motor, err := FitMotor(PermanentMagnet, 12*units.Volt,
		MotorPoint{Torque: 0, Current: 12, Speed: 300, NoLoad: true}, MotorPoint{Torque: 3.5, Current: 105, Speed: 220})
	if err != nil {
		t.Fatal(err)
	}
	motor.Load = 3
	return Windlass{
		Bank: Battery{
			Chemistry: AGM, Cells: 6, Capacity: 230 * units.AmpereHour,
			Resistance: 3 * units.Milliohm, Charge: 0.9, Temperature: units.Celsius(20),
		},
		Motor: motor,
		Cable: Cable{Conductor: Conductor{
			Size: "50 mm²", Area: 50 * units.SquareMillimetre, Resistance: 0.386e-3, Insulation: units.Celsius(70),
		}},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker:  Device{Kind: Breaker, Rating: 100, Resistance: 0.5 * units.Milliohm},
		Fuse:     &Device{Kind: Fuse, Rating: 160, Resistance: 0.3 * units.Milliohm},
		Lug:      0.1 * units.Milliohm,
		Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Coil:        12 * units.Ohm,
		Control:     Conductor{Size: "1 mm²", Area: 1 * units.SquareMillimetre, Resistance: 19.5e-3},
		ControlFuse: Device{Kind: Fuse, Rating: 3, Resistance: 30 * units.Milliohm},
		Switches:    []ControlSwitch{{Name: "deck", Length: 2 * units.Metre}, {Name: "cockpit", Length: 11 * units.Metre}},
		Hull:        &Hull{Positive: 1e6, Negative: 1e6, Case: 5e5, Bonding: 0.01},
	}
}

// randomCircuit is a battery and some elements between few nodes, with words of any
// length.
func randomCircuit(r *rand.Rand) Circuit {
	nodes := 2 + r.IntN(9)
	node := func(i int) string { return fmt.Sprintf("n%d%s", i, strings.Repeat(" and more", i%4)) }
	c := Circuit{Elements: []Element{{Name: "bank", From: node(0), To: node(1), Battery: &Battery{
		Chemistry: AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Resistance: 0.003, Charge: 0.9,
	}}}}
	for i := range 1 + r.IntN(25) {
		a, b := r.IntN(nodes), r.IntN(nodes-1)
		if b >= a {
			b++
		}
		e := Element{Name: fmt.Sprintf("e%d %s", i, strings.Repeat("word ", r.IntN(8))), From: node(a), To: node(b)}
		switch r.IntN(6) {
		case 0:
			e.Cable = &Cable{Conductor: Conductor{Area: 1e-5, Resistance: 0.002}, Length: units.Length(1 + 9*r.Float64())}
		case 1:
			e.Contact = &Contact{Role: Lug, Resistance: 1e-4}
		case 2:
			e.Contact = &Contact{Role: Switch, Resistance: 1e-3, Open: r.IntN(2) == 0}
		case 3:
			e.Device = &Device{Kind: Fuse, Rating: 10, Resistance: 0.01}
		case 4:
			e.Load = &Load{Resistance: 10}
		case 5:
			e.Contact = &Contact{Role: Leakage, Resistance: 1e6}
		}
		c.Elements = append(c.Elements, e)
	}
	return c
}

// No symbol or label lies on another, on a column, or outside the page.
func TestNoOverlap(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	circuits := make([]Circuit, 400)
	for i := range circuits {
		circuits[i] = randomCircuit(r)
	}
	for _, does := range []Working{Resting, Hauling, Lowering} {
		c, err := sampleWindlass(t).Circuit(does)
		if err != nil {
			t.Fatal(err)
		}
		circuits = append(circuits, c)
	}
	for n, c := range circuits {
		g := Diagram{Circuit: c, Show: Everything}
		if n%2 == 1 { // nodes on the way are joints too
			g.partly = map[string]bool{c.Elements[0].To: true, c.Elements[len(c.Elements)-1].From: true}
		}
		drawn := map[int]bool{}
		marks := map[int]int{}
		for _, p := range lay(c, g.partly, g.texts, g.label) {
			checkBand(t, n, p)
			for _, r := range p.rows {
				for _, it := range r.items {
					if drawn[it.element] {
						t.Errorf("circuit %d: element %d is drawn twice", n, it.element)
					}
					drawn[it.element] = true
				}
				for _, k := range []int{r.from, r.to} {
					if p.columns[k].edge {
						marks[r.mark]++
					}
				}
			}
		}
		if len(drawn) != len(c.Elements) {
			t.Errorf("circuit %d: %d elements are drawn, want %d", n, len(drawn), len(c.Elements))
		}
		for m, ends := range marks {
			if ends%2 != 0 {
				t.Errorf("circuit %d: mark %d stands at %d ends", n, m, ends)
			}
		}
	}
}

// What is shown of a circuit is cut off from the rest only at joints that are named and marked, so
// that every part still ends where it does in the whole.
func TestPartsEndWhereTheyDo(t *testing.T) {
	whole, err := sampleWindlass(t).Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	solution, err := Solve(whole, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		show    Show
		ends    map[string]string // an element, and a joint at which its row ends
		marked  string
		missing string
		note    string
	}{
		{
			Control,
			map[string]string{"coil haul": "solenoid -", "coil lower": "solenoid -", "control fuse": "breaker out"},
			"breaker out, solenoid -", "bank", "The main circuit is not shown.",
		},
		{
			Power,
			map[string]string{"cable forward": "breaker out", "breaker": "breaker out", "motor": "motor A", "case to hull": "windlass case"},
			"breaker out, hull, motor A, solenoid -, windlass case", "coil haul", "The control circuit and leakage are not shown.",
		},
		{Everything, map[string]string{"coil lower": "solenoid -", "cable back": "solenoid -"}, "", "", ""},
	} {
		g := Diagram{Circuit: whole, Solution: &solution, Show: c.show}
		if err := g.choose(); err != nil {
			t.Fatal(err)
		}
		if marked := strings.Join(slices.Sorted(maps.Keys(g.partly)), ", "); marked != c.marked {
			t.Errorf("%q: marked are %q, want %q", c.show, marked, c.marked)
		}
		if g.left != c.note || !strings.Contains(g.note(false), "against bank -") {
			t.Errorf("%q: note %q", c.show, g.note(false))
		}
		at := map[string][]string{} // joints at the ends of an element's row
		label := map[string]string{}
		for _, r := range layWhole(t, g) {
			for _, name := range r.elements {
				at[name] = r.ends
			}
			for i, n := range r.ends {
				label[n] = r.labels[i]
			}
		}
		for name, node := range c.ends {
			if !slices.Contains(at[name], node) || label[node] != node {
				t.Errorf("%q: %s ends at %q, labelled %q; want %q", c.show, name, at[name], label[node], node)
			}
		}
		if _, there := at[c.missing]; there {
			t.Errorf("%q: %s is drawn", c.show, c.missing)
		}
	}
}

type drawnRow struct{ elements, ends, labels []string }

// layWhole are the rows of a drawing, before they are cut into bands.
func layWhole(t *testing.T, g Diagram) []drawnRow {
	t.Helper()
	items := make([]item, len(g.Circuit.Elements))
	for i := range items {
		items[i].element = i
	}
	p := &plan{}
	p.place(g.Circuit, chainsOf(g.Circuit, g.partly, func(int) float64 { return 0 }), items, g.label)
	var rows []drawnRow
	for _, r := range p.rows {
		var d drawnRow
		for _, it := range r.items {
			d.elements = append(d.elements, g.Circuit.Elements[it.element].Name)
		}
		for _, k := range []int{r.from, r.to} {
			d.ends = append(d.ends, p.columns[k].node)
			if l := p.columns[k].label; len(l) != 2 || l[0].class != "name" || l[1].class != "text" {
				t.Errorf("label %+v", l)
			} else {
				d.labels = append(d.labels, l[0].text)
			}
		}
		rows = append(rows, d)
	}
	return rows
}

func checkBand(t *testing.T, n int, p *plan) {
	t.Helper()
	if p.width() > widest-2*margin {
		t.Errorf("circuit %d: a band is %.0f mm wide", n, p.width())
	}
	for i, row := range p.rows {
		for _, o := range p.rows[i+1:] {
			if o.level == row.level && o.from < row.to && row.from < o.to {
				t.Errorf("circuit %d: wires on one level overlap", n)
			}
		}
	}
	const touch = 1e-9
	for i, a := range p.boxes {
		if a.x0 < -touch || a.x1 > p.width()+touch || a.y0 < -touch || a.y1 > p.height()+touch {
			t.Errorf("circuit %d: box %+v is outside", n, a)
		}
		for _, b := range p.boxes[i+1:] {
			if a.x0 < b.x1-touch && b.x0 < a.x1-touch && a.y0 < b.y1-touch && b.y0 < a.y1-touch {
				t.Errorf("circuit %d: %+v and %+v overlap", n, a, b)
			}
		}
		for _, k := range p.columns {
			if !k.edge && k.x > a.x0+touch && k.x < a.x1-touch && p.y(k.top) < a.y1 && p.y(k.bottom) > a.y0 {
				t.Errorf("circuit %d: column %s runs through %+v", n, k.node, a)
			}
		}
	}
}

// Every kind of part has a symbol of its own, and its size or rating below it.
func TestSymbols(t *testing.T) {
	wire := Conductor{Area: 16e-6, Resistance: 1.2e-3}
	contact := func(r Role) Element { return Element{Contact: &Contact{Role: r, Resistance: 1 * units.Milliohm}} }
	symbols := map[string]string{} // to the part that has it
	for name, k := range map[string]struct {
		part  Element
		texts string
	}{
		"cables":     {Element{Cable: &Cable{Conductor: wire, Length: 2, Parallel: 2}}, "2 x 16 mm², 2.00 m"},
		"fuse":       {Element{Device: &Device{Kind: Fuse, Rating: 7.5, Resistance: 0.01}}, "7.5 A"},
		"breaker":    {Element{Device: &Device{Kind: Breaker, Rating: 63, Resistance: 0.01}}, "63 A"},
		"alternator": {Element{Alternator: &Alternator{Voltage: 14.2, Limit: 60, Resistance: 0.01}}, "14.20 V 60.0 A"},
		"motor":      {Element{Motor: &Motor{Type: PermanentMagnet, Resistance: 0.05, Flux: 0.05, Efficiency: 1}}, "permanent magnet"},
		"load":       {Element{Load: &Load{Power: 30}}, "30.0 W"},
		"lug":        {contact(Lug), ""},
		"terminal":   {contact(Terminal), ""},
		"isolator":   {contact(Isolator), ""},
		"solenoid":   {contact(Solenoid), ""},
		"switch":     {contact(Switch), ""},
		"bond":       {contact(Bond), ""},
		"fault":      {contact(Fault), ""},
		"leakage":    {contact(Leakage), "1.0 mΩ"},
	} {
		e := k.part
		e.Name, e.From, e.To = "x", "a", "b"
		g := Diagram{Circuit: Circuit{Elements: []Element{
			{Name: "bank", From: "a", To: "b", Battery: &Battery{Chemistry: AGM, Cells: 6, Resistance: 0.01, Charge: 1}}, e,
		}}, Show: Everything}
		if err := g.WriteSVG(new(bytes.Buffer)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, below := g.texts(1); strings.Join(below, " ") != k.texts {
			t.Errorf("%s: %q below, want %q", name, below, k.texts)
		}
		d := svg.New("x")
		symbol(d, e, svg.Point{}, false, false)
		var b bytes.Buffer
		if err := d.Write(&b, svg.Page{Width: 10, Height: 10, Title: "a symbol", Classes: classes}); err != nil {
			t.Fatal(err)
		}
		if twin, twice := symbols[b.String()]; twice {
			t.Errorf("%s looks like %s", name, twin)
		}
		symbols[b.String()] = name
	}
	g := Diagram{Circuit: Circuit{Elements: []Element{{Cable: &Cable{Conductor: wire, Length: 31 * units.Foot}}}}, Imperial: true}
	if _, below := g.texts(0); strings.Join(below, " ") != "16 mm², 31 ft" {
		t.Errorf("%q, want the length in feet", below)
	}
	for _, l := range []struct {
		load Load
		want string
	}{{Load{Current: 5}, "5.00 A"}, {Load{Resistance: 4}, "4.00 Ω"}} {
		g := Diagram{Circuit: Circuit{Elements: []Element{{Load: &l.load}}}}
		if _, below := g.texts(0); below[0] != l.want {
			t.Errorf("%q, want %q", below, l.want)
		}
	}
}

func TestWellFormed(t *testing.T) {
	c, err := sampleWindlass(t).Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Solve(c, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	c.Elements[0].Name = `<bank> & "posts"`
	var one, two bytes.Buffer
	for _, b := range []*bytes.Buffer{&one, &two} {
		if err := (Diagram{Title: "a < b", Circuit: c, Solution: &s}).WriteSVG(b); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(one.Bytes(), two.Bytes()) {
		t.Error("the drawing is not the same twice")
	}
	if err := xml.Unmarshal(one.Bytes(), new(struct{})); err != nil {
		t.Error(err)
	}
}

func TestRefusals(t *testing.T) {
	c, err := sampleWindlass(t).Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	for name, err := range map[string]error{
		"prefix":     Diagram{Circuit: c, Prefix: "1x"}.WriteSVG(&b),
		"empty":      Diagram{}.WriteSVG(&b),
		"mismatch":   Diagram{Circuit: c, Solution: &Solution{}}.WriteSVG(&b),
		"no parts":   Bars{}.WriteSVG(&b),
		"show":       Diagram{Circuit: c, Show: "half"}.WriteSVG(&b),
		"no control": Diagram{Circuit: Circuit{Elements: c.Elements[:1]}, Show: Control}.WriteSVG(&b),
		"no drop":    Bars{Report: DropReport{Parts: []PartDrop{{}}}}.WriteSVG(&b),
		"bad prefix": Bars{Prefix: "é"}.WriteSVG(&b),
	} {
		if e := new(Error); !errors.As(err, &e) || e.Field == "" || b.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes written", name, err, b.Len())
		}
	}
}
