package rode

import (
	"fmt"
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// CutList is what a job of rope work is made of.
type CutList struct {
	Ropes   []CutRope
	Lengths []CutLength // sleeves, twine, cord: what else is sold by length
	Parts   []CutPart   // thimbles, shackles
}

// CutRope is one piece of rope, or several alike.
type CutRope struct {
	Name  string // port leg
	Rope  Rope
	Count int // pieces alike; 0 counts as 1
	// Finished length, between the far ends of its eyes, inside, or the end
	// that is made fast.
	Finished units.Length
	Eyes     []EyeSplice // at the ends, at most 2
	Midline  []EyeSplice // locked eyes between them
	Tail     units.Length
	Step     units.Length // in which the shop sells it; 0 as cut
}

// CutLength is a material by length.
type CutLength struct {
	Name  string
	Each  units.Length
	Count int // 0 counts as 1
	Why   string
	Step  units.Length // in which the shop sells it; 0 as cut
}

// CutPart is a part by number.
type CutPart struct {
	Name  string
	Count int
	Why   string
	Pack  int // in which the shop sells it; 0 counts as 1
}

// Allowance is an addition to a finished length, with its reason.
type Allowance struct {
	Why    string
	Length units.Length
}

// Cut is one length to be cut.
type Cut struct {
	Name       string
	Material   string
	Count      int
	Finished   units.Length
	Allowances []Allowance
	Length     units.Length // of one: the finished length and the allowances
}

// Purchase is one line of what to buy.
type Purchase struct {
	Name   string
	Need   units.Length // of all cuts; 0 for parts
	Length units.Length // to buy; 0 for parts
	Count  int          // to buy, for parts
	Why    []string     // what for
}

// Shopping is a cut list worked out.
type Shopping struct {
	Cuts []Cut
	Buy  []Purchase
}

// Shopping works out every length to cut, with the reason of each allowance, and
// what to buy: materials of one name are added up and rounded up to what the
// shop sells. A rope is bought by its name ([Rope.Name]).
func (l CutList) Shopping() (Shopping, error) {
	var s Shopping
	for i, r := range l.Ropes {
		cut, err := r.cut()
		if err != nil {
			return Shopping{}, within(fmt.Sprintf("Ropes[%d].", i), err)
		}
		s.Cuts = append(s.Cuts, cut)
		if err := s.add(cut, r.Step); err != nil {
			return Shopping{}, within(fmt.Sprintf("Ropes[%d].", i), err)
		}
	}
	for i, m := range l.Lengths {
		var c checker
		positive(&c, "Each", m.Each)
		checkCount(&c, m.Count)
		if c.err != nil {
			return Shopping{}, within(fmt.Sprintf("Lengths[%d].", i), c.err)
		}
		cut := Cut{
			Name: m.Why, Material: m.Name, Count: max(m.Count, 1),
			Finished: m.Each, Length: m.Each,
		}
		s.Cuts = append(s.Cuts, cut)
		if err := s.add(cut, m.Step); err != nil {
			return Shopping{}, within(fmt.Sprintf("Lengths[%d].", i), err)
		}
	}
	for i, p := range l.Parts {
		pack := max(p.Pack, 1)
		if p.Count < 1 || p.Count > mostCut || p.Pack < 0 || p.Pack > mostCut {
			return Shopping{}, within(fmt.Sprintf("Parts[%d].", i), refuse("Count", p.Count, fmt.Sprintf("1 to %d, in packs of as many", mostCut)))
		}
		s.Buy = append(s.Buy, Purchase{
			Name: p.Name, Count: (p.Count + pack - 1) / pack * pack, Why: []string{fmt.Sprintf("%d for %s", p.Count, p.Why)},
		})
	}
	return s, nil
}

const mostCut = 10000

func checkCount(c *checker, n int) {
	if c.err == nil && (n < 0 || n > mostCut) {
		c.err = refuse("Count", n, fmt.Sprintf("0 to %d", mostCut))
	}
}

// within puts where a field is before its name.
func within(where string, err error) error {
	if e, ok := err.(*Error); ok {
		e.Field = where + e.Field
	}
	return err
}

// cut adds the allowances.
func (r *CutRope) cut() (Cut, error) {
	var c checker
	positive(&c, "Finished", r.Finished)
	notNegative(&c, "Tail", r.Tail)
	checkCount(&c, r.Count)
	if c.err == nil && len(r.Eyes) > 2 {
		c.err = refuse("Eyes", len(r.Eyes), "at most 2, one at each end")
	}
	if c.err != nil {
		return Cut{}, c.err
	}
	k := Cut{Name: r.Name, Material: r.Rope.Name(), Count: max(r.Count, 1), Finished: r.Finished, Length: r.Finished}
	for i, e := range r.Eyes {
		a, err := e.Allowance()
		if err != nil {
			return Cut{}, within(fmt.Sprintf("Eyes[%d].", i), err)
		}
		k.allow("the way back of an eye "+millimetres(e.Eye)+" long round "+millimetres(e.Round), a.Around-e.Eye)
		k.allow("tucks or bury, and to cut off", a.Tail)
	}
	for i, e := range r.Midline {
		a, err := e.MidlineAllowance()
		if err != nil {
			return Cut{}, within(fmt.Sprintf("Midline[%d].", i), err)
		}
		k.allow("a locked eye "+millimetres(e.Eye)+" long, which both legs count", a.Extra-a.Tail)
		k.allow("the two passes that lock it", a.Tail)
	}
	if r.Tail > 0 {
		k.allow("to make fast", r.Tail)
	}
	return k, nil
}

func (k *Cut) allow(why string, l units.Length) {
	k.Allowances = append(k.Allowances, Allowance{why, l})
	k.Length += l
}

// millimetres prints a size to the tenth of a millimetre.
func millimetres(l units.Length) string {
	return strconv.FormatFloat(math.Round(l.Millimetres()*10)/10, 'f', -1, 64) + " mm"
}

// add puts a cut to what is bought of its material, which is rounded up anew.
func (s *Shopping) add(k Cut, step units.Length) error {
	var c checker
	notNegative(&c, "Step", step)
	positive(&c, "Finished", k.Length) // a locked eye may take more than there is
	if c.err != nil {
		return c.err
	}
	var p *Purchase
	for i := range s.Buy {
		if s.Buy[i].Name == k.Material {
			p = &s.Buy[i]
		}
	}
	if p == nil {
		s.Buy = append(s.Buy, Purchase{Name: k.Material})
		p = &s.Buy[len(s.Buy)-1]
	}
	p.Need += k.Length.Scale(float64(k.Count))
	p.Length = p.Need
	if step > 0 {
		// A hair over a whole number of steps is that number.
		p.Length = step.Scale(math.Ceil(p.Need.Per(step) - 1e-9))
	}
	p.Why = append(p.Why, fmt.Sprintf("%d x %.2f m for %s", k.Count, k.Length.Metres(), k.Name))
	return nil
}
