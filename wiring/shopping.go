package wiring

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Shop says how things are bought and fitted. The zero Shop is 5 % and 0.3 m of slack for each
// cable, cable by the whole metre, M8 studs (M5 in the control circuit), 40 mm of heat-shrink on a lug
// (20 mm on conductors below 6 mm²) in sticks of 1 m, clips every 300 mm on main cables and 450 mm on others (ISO 10133), one spare fuse of each.
type Shop struct {
	Slack    float64           // of the length, as a share
	Ends     units.Length      // more on each cable for its ends
	SoldBy   units.Length      // cable is sold in multiples of this
	Stud     string            // of lugs at nodes that Studs does not name
	Control  string            // the stud of lugs on the control circuit's wires, at nodes that Studs does not name
	Studs    map[string]string `json:",omitempty"` // by node
	Shrink   units.Length      // on each lug; half of it on conductors below 6 mm²
	Stick    units.Length      // heat-shrink is sold in pieces of this
	MainClip units.Length      // spacing of clips on cables from 16 mm²
	Clip     units.Length      // on smaller ones
	Spares   int               // fuses more of each rating; -1: none
}

// Item is one line of a shopping list. Either Length or Count is set.
type Item struct {
	Kind   string // cable, lug, heat-shrink, clip, breaker, fuse, fuse holder, isolator, solenoid, switch, terminal, busbar
	Size   string // "50 mm²", "50 mm² M8", "100 A", "2 poles", "4 contacts"
	Role   string `json:",omitempty"` // of cable: positive, negative, switched
	Length units.Length
	Count  int
	Needed units.Length `json:",omitempty"` // before rounding to what is sold
	For    []string     // names of elements
}

// ShoppingList is what has to be bought to build a circuit: cable by size and role,
// with slack and rounded up to what is sold, lugs by cable and stud, heat-shrink by the
// cable's diameter, clips, breakers, fuses with holders and spares, and isolators, solenoids,
// switches, busbars and terminals that the circuit has as contacts, each apparatus once.
//
// Not in it are batteries, motors and other loads, links between neighbours (from the fuse
// to the isolator beside it, say) that the circuit does not have as cables, with their lugs,
// and crimping tools, labels and grommets.
func ShoppingList(c Circuit, s Shop) ([]Item, error) {
	or(&s.Slack, 0.05)
	or(&s.Ends, 0.3*units.Metre)
	or(&s.SoldBy, units.Metre)
	or(&s.Shrink, 40*units.Millimetre)
	or(&s.Stick, units.Metre)
	or(&s.MainClip, 300*units.Millimetre)
	or(&s.Clip, 450*units.Millimetre)
	s.Stud = cmp.Or(s.Stud, "M8")
	s.Control = cmp.Or(s.Control, "M5")
	s.Spares = cmp.Or(s.Spares, 1)
	var ck checker
	between(&ck, "Slack", s.Slack, 0, 1)
	between(&ck, "Ends", s.Ends, 0, 100)
	between(&ck, "SoldBy", s.SoldBy, units.Millimetre, units.Kilometre)
	between(&ck, "Shrink", s.Shrink, 0, units.Metre)
	between(&ck, "Stick", s.Stick, s.Shrink, 100*units.Metre)
	between(&ck, "MainClip", s.MainClip, 10*units.Millimetre, 10*units.Metre)
	between(&ck, "Clip", s.Clip, 10*units.Millimetre, 10*units.Metre)
	must(&ck, s.Spares >= -1 && s.Spares <= 1000, "Spares", s.Spares, "-1 to 1000")
	nodes := nodesInOrder(c)
	for _, n := range slices.Sorted(maps.Keys(s.Studs)) {
		must(&ck, slices.Contains(nodes, n), fmt.Sprintf("Studs[%q]", n), "of no node", "a node of the circuit")
	}
	if ck.err == nil {
		ck.err = c.check()
	}
	if ck.err != nil {
		return nil, ck.err
	}
	l := shoppingList{index: map[[3]string]int{}}
	plus, minus := map[string]float64{}, map[string]float64{}
	for _, e := range c.Elements {
		if e.Battery != nil {
			unswitched := c
			unswitched.Elements = slices.DeleteFunc(slices.Clone(c.Elements), func(e Element) bool {
				return e.Contact != nil && (e.Contact.Role == Switch || e.Contact.Role == Solenoid)
			})
			plus, minus = distances(unswitched, e.To), distances(unswitched, e.From)
			break
		}
	}
	for _, e := range c.Elements {
		switch {
		case e.Cable != nil:
			n := max(1, e.Cable.Parallel)
			k := e.Cable.Conductor.estimated()
			role := "switched"
			if _, ok := plus[e.From]; ok {
				role = "positive"
			} else if _, ok := minus[e.From]; ok {
				role = "negative"
			}
			cut := e.Cable.Length.Scale(1+s.Slack) + s.Ends
			l.add("cable", k.Size, role, e.Name, 0, cut.Scale(float64(n)))
			for _, node := range []string{e.From, e.To} {
				stud := s.Stud
				if e.Control {
					stud = s.Control
				}
				// Behind the lug that the model has lies the node with the stud.
				for _, x := range c.Elements {
					if x.Contact != nil && x.Contact.Role == Lug && (x.From == node || x.To == node) {
						node = otherEnd(x, node)
						break
					}
				}
				if at, ok := s.Studs[node]; ok {
					stud = at
				}
				l.add("lug", k.Size+" "+stud, "", e.Name, n, 0)
			}
			over := math.Ceil(2*k.Diameter.Millimetres()) / 2
			shrink := s.Shrink.Scale(float64(2 * n))
			if k.Area < 6*units.SquareMillimetre {
				shrink = shrink.Scale(0.5)
			}
			l.add("heat-shrink", fmt.Sprintf("to go over %g mm", over), "", e.Name, 0, shrink)
			space := s.Clip
			if k.Area >= 16*units.SquareMillimetre {
				space = s.MainClip
			}
			clips := math.Ceil(e.Cable.Length.Per(space)) + 1
			if clips*float64(n) > 1e6 {
				return nil, refuse("Elements ("+e.Name+").Cable.Length", e.Cable.Length, "a length for fewer than a million clips")
			}
			l.add("clip", fmt.Sprintf("for %g mm", over), "", e.Name, int(clips)*n, 0)
		case e.Device != nil:
			rating := fmt.Sprintf("%g A", e.Device.Rating.Amperes())
			l.add(string(e.Device.Kind), rating, "", e.Name, 1, 0)
			if e.Device.Kind == Fuse {
				l.add("fuse holder", rating, "", e.Name, 1, 0)
			}
		}
	}
	l.addApparatus(c)
	for i := range l.items {
		it := &l.items[i]
		switch it.Kind {
		case "cable":
			it.Length = roundUp(it.Needed, s.SoldBy)
		case "heat-shrink":
			it.Length = roundUp(it.Needed, s.Stick)
		case string(Fuse):
			it.Count += max(0, s.Spares)
		}
	}
	return l.sorted(), nil
}

// addApparatus adds what contacts belong to.
func (l *shoppingList) addApparatus(c Circuit) {
	type key struct {
		role Role
		of   string
	}
	var order []key
	parts := map[key]int{}
	for _, e := range c.Elements {
		if e.Contact == nil || !slices.Contains([]Role{Isolator, Solenoid, Switch, Terminal, Busbar}, e.Contact.Role) {
			continue
		}
		k := key{e.Contact.Role, cmp.Or(e.Contact.Of, e.Name)}
		if parts[k] == 0 {
			order = append(order, k)
		}
		parts[k]++
	}
	for _, k := range order {
		size := ""
		what := "contact"
		if k.role == Isolator {
			what = "pole"
		}
		switch n := parts[k]; {
		case k.role == Terminal || k.role == Busbar:
		case n == 1:
			size = "1 " + what
		default:
			size = fmt.Sprintf("%d %ss", n, what)
		}
		l.add(string(k.role), size, "", k.of, 1, 0)
	}
}

// roundUp to a multiple, but not for the last bit of a sum.
func roundUp(l, step units.Length) units.Length {
	return step.Scale(math.Ceil(l.Per(step) - 1e-9))
}

type shoppingList struct {
	items []Item
	index map[[3]string]int
}

func (l *shoppingList) add(kind, size, role, name string, n int, length units.Length) {
	key := [3]string{kind, size, role}
	i, ok := l.index[key]
	if !ok {
		i = len(l.items)
		l.index[key] = i
		l.items = append(l.items, Item{Kind: kind, Size: size, Role: role})
	}
	it := &l.items[i]
	it.Count += n
	it.Needed += length
	if !slices.Contains(it.For, name) {
		it.For = append(it.For, name)
	}
}

// sorted by kind in the order of the work, otherwise as they came.
func (l *shoppingList) sorted() []Item {
	order := []string{
		"cable", "lug", "heat-shrink", "clip", string(Breaker), string(Fuse), "fuse holder",
		string(Isolator), string(Solenoid), string(Switch), string(Busbar), string(Terminal),
	}
	slices.SortStableFunc(l.items, func(a, b Item) int {
		return slices.Index(order, a.Kind) - slices.Index(order, b.Kind)
	})
	return l.items
}
