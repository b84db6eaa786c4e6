package wiring

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/units"
)

// Criterion is what a conductor has to satisfy.
type Criterion string

// Criteria of sizing.
const (
	CriterionDrop      Criterion = "voltage drop"
	CriterionAmpacity  Criterion = "steady ampacity"
	CriterionHeat      Criterion = "short-duty heat"
	CriterionWithstand Criterion = "fault withstand"
	CriterionNone      Criterion = "the smallest of the stock"
)

// Classes of voltage drop of ABYC E-11, as shares of the system voltage.
const (
	CriticalDrop    = 0.03 // panel mains, navigation lights, bilge blowers and pumps
	NonCriticalDrop = 0.10 // the rest; a windlass counts here in ABYC E-11
)

// Requirement is what a run of cable has to do. A criterion whose fields are zero is not
// asked; at least one has to be.
type Requirement struct {
	Stock    Stock
	Parallel int          // most equal conductors side by side, 0: 1
	Run      units.Length // out and back: the whole length of conductor
	Current  units.Current

	// Voltage drop: a share of the system voltage, or the voltage that must be left at the
	// load of what the supply gives under the current. With both, the harder one.
	System  units.Voltage     // nominal
	MaxDrop float64           // share of System, mostly CriticalDrop or NonCriticalDrop
	Supply  units.Voltage     // at the posts, under load
	AtLoad  units.Voltage     // least at the load
	Others  units.Resistance  // of all that is not cable on the way: lugs, breaker, switch
	Copper  units.Temperature // for the drop; 0: 60 °C, warm from work

	// Steady ampacity by a rule set, with its factors. Of conductors in parallel each
	// further one counts as one more in the bundle, or as two where out and back lie
	// together (Bundled of 2 and more).
	Rules        Rules
	Installation Installation

	// Heat of short duty, by the heat balance: the copper must stay at or below its
	// insulation's temperature at the end of every spell. n conductors in a bundle, all
	// taken to carry as much, share the surface of sqrt(n) of them.
	Duty    []Spell
	Ambient units.Temperature // 0: that of Installation, 50 °C in an engine space, or 30 °C
	Start   units.Temperature // of the copper; 0: Ambient

	// Withstand of a fault that a device interrupts after Clearing. One conductor alone
	// must stand it, also where several are in parallel.
	Fault    units.Current
	Clearing units.Time
	Final    units.Temperature // 0: ThermoplasticLimit
}

// mostListed bounds the work of a choice.
const mostListed = 200

func (q *Requirement) check(field string) error {
	or(&q.Copper, units.Celsius(60))
	or(&q.Ambient, q.Installation.Ambient)
	if q.Installation.EngineSpace {
		or(&q.Ambient, units.Celsius(50))
	}
	or(&q.Ambient, units.Celsius(30))
	or(&q.Start, q.Ambient)
	or(&q.Final, ThermoplasticLimit)
	if q.Parallel == 0 {
		q.Parallel = 1
	}
	var c checker
	must(&c, len(q.Stock) > 0, field+"Stock", "empty", "at least one conductor")
	must(&c, len(q.Stock) <= mostListed, field+"Stock", len(q.Stock), fmt.Sprintf("at most %d conductors", mostListed))
	must(&c, len(q.Duty) <= mostListed, field+"Duty", len(q.Duty), fmt.Sprintf("at most %d spells", mostListed))
	for i, x := range q.Stock {
		x.check(&c, fmt.Sprintf("%sStock[%d]", field, i))
	}
	must(&c, q.Parallel >= 1 && q.Parallel <= 20, field+"Parallel", q.Parallel, "0 to 20")
	positive(&c, field+"Run", q.Run)
	positive(&c, field+"Current", q.Current)
	between(&c, field+"MaxDrop", q.MaxDrop, 0, 0.5)
	notNegative(&c, field+"System", q.System)
	must(&c, q.MaxDrop == 0 || q.System > 0, field+"System", q.System, "more than 0 with MaxDrop")
	notNegative(&c, field+"Supply", q.Supply)
	notNegative(&c, field+"AtLoad", q.AtLoad)
	must(&c, q.AtLoad == 0 || q.Supply > q.AtLoad, field+"Supply", q.Supply, "more than AtLoad")
	notNegative(&c, field+"Others", q.Others)
	between(&c, field+"Copper", q.Copper, coldestCopper, hottestCopper)
	notNegative(&c, field+"Fault", q.Fault)
	must(&c, (q.Fault == 0) == (q.Clearing == 0), field+"Clearing", q.Clearing, "given together with Fault")
	notNegative(&c, field+"Clearing", q.Clearing)
	must(&c, q.MaxDrop > 0 || q.AtLoad > 0 || q.Rules != "" || len(q.Duty) > 0 || q.Fault > 0, field+"MaxDrop", "0 and nothing else is asked", "a criterion")
	return c.err
}

// allowed drop in volts, +Inf if none is asked.
func (q *Requirement) allowed() float64 {
	v := math.Inf(1)
	if q.MaxDrop > 0 {
		v = q.MaxDrop * q.System.Volts()
	}
	if q.AtLoad > 0 {
		v = math.Min(v, (q.Supply - q.AtLoad).Volts())
	}
	return v
}

// Candidate is a conductor of the stock, or several in parallel, and how it does.
type Candidate struct {
	Conductor Conductor
	Parallel  int
	Area      units.Area // together
	Drop      units.Voltage
	Share     float64           // of System; 0 without
	Ampacity  units.Current     // together; 0 if not asked or not in the table
	Hottest   units.Temperature // during the duty; 0 if not asked or too hot to compute
	Withstand LetThrough        // of one conductor; 0 if not asked
	Mass      units.Mass
	Cost      units.Money // in the money of the prices; 0 when they are not given
	Fails     []Criterion
}

// Choice is the conductor to take.
type Choice struct {
	Candidate
	Governs Criterion // needs the largest conductor of all criteria
	// Down is the next smaller candidate, with what it fails; Up the next larger.
	Down, Up *Candidate
}

// SizeConductor finds the smallest conductor, by the area of copper, that meets
// every criterion asked. Of equal areas the one with fewer parallel conductors is
// taken. The error is an [ErrNoConductor] if none does.
//
// The drop is that of the whole run at the resistance the conductor's standard
// allows, with copper at the stated temperature:
//
//	drop = I (R(T) L / n + Others)
//
// Caution: a cable that is too small burns. Ask for the ampacity of the rules in force and the fault
// as well as for the drop.
func SizeConductor(q Requirement) (Choice, error) {
	if err := q.check(""); err != nil {
		return Choice{}, err
	}
	all, err := q.candidates()
	if err != nil {
		return Choice{}, err
	}
	return q.choose(all, func(c *Candidate) bool { return len(c.Fails) == 0 })
}

// choose takes the first candidate that fits.
func (q *Requirement) choose(all []Candidate, fits func(*Candidate) bool) (Choice, error) {
	i := slices.IndexFunc(all, func(c Candidate) bool { return fits(&c) })
	if i < 0 {
		last := all[len(all)-1]
		var fails []string
		for _, f := range last.Fails {
			fails = append(fails, string(f))
		}
		return Choice{}, refuseAs(ErrNoConductor, "Stock", "up to "+last.name(),
			"a larger conductor, a shorter run or more in parallel: the largest fails "+strings.Join(fails, " and "))
	}
	return chosen(all, i), nil
}

func chosen(all []Candidate, i int) Choice {
	ch := Choice{Candidate: all[i], Governs: CriterionNone}
	if i > 0 {
		down := all[i-1]
		ch.Down = &down
	}
	if i+1 < len(all) {
		up := all[i+1]
		ch.Up = &up
	}
	// What governs is what the largest candidate that fails below the choice fails.
	for j := i - 1; j >= 0 && ch.Governs == CriterionNone; j-- {
		if len(all[j].Fails) > 0 {
			ch.Governs = all[j].Fails[0]
		}
	}
	return ch
}

func (c *Candidate) name() string {
	if c.Parallel > 1 {
		return fmt.Sprintf("%d x %s", c.Parallel, c.Conductor.Size)
	}
	return c.Conductor.Size
}

// candidates are all conductors and numbers of them, by rising area.
func (q *Requirement) candidates() ([]Candidate, error) {
	var all []Candidate
	for _, c := range q.Stock {
		for n := 1; n <= q.Parallel; n++ {
			k, err := q.candidate(c.estimated(), n)
			if err != nil {
				return nil, err
			}
			all = append(all, k)
		}
	}
	slices.SortStableFunc(all, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(a.Area, b.Area), cmp.Compare(a.Parallel, b.Parallel))
	})
	return all, nil
}

func (q *Requirement) candidate(c Conductor, n int) (Candidate, error) {
	k := Candidate{Conductor: c, Parallel: n, Area: c.Area.Scale(float64(n))}
	each := q.Current.Scale(1 / float64(n))
	drop, err := Drop(c, q.Run, each, q.Copper)
	if err != nil {
		return k, err
	}
	k.Drop = drop + q.Others.TimesCurrent(q.Current)
	if q.System > 0 {
		k.Share = k.Drop.Per(q.System)
	}
	k.Mass = c.Mass.TimesLength(q.Run).Scale(float64(n))
	k.Cost = units.Money(float64(c.Price) * q.Run.Metres() * float64(n))
	if k.Drop.Volts() > q.allowed() {
		k.Fails = append(k.Fails, CriterionDrop)
	}
	if q.Rules != "" {
		r, err := Ampacity(q.Rules, c, q.Installation.beside(n))
		if err != nil && !errors.Is(err, ErrRange) {
			return k, err
		}
		k.Ampacity = r.Current.Scale(float64(n)) // 0 outside the table
		if k.Ampacity < q.Current {
			k.Fails = append(k.Fails, CriterionAmpacity)
		}
	}
	if len(q.Duty) > 0 {
		shared := slices.Clone(q.Duty)
		for i := range shared {
			shared[i].Current = shared[i].Current.Scale(1 / float64(n))
		}
		limit := c.Insulation
		if limit == 0 {
			return k, refuse("Stock ("+c.Size+").Insulation", 0, "the temperature that the insulation is made for")
		}
		h, err := newThermal(c, q.Ambient)
		if err != nil {
			return k, err
		}
		h.open = 1 / math.Sqrt(float64(max(1, q.Installation.beside(n).Bundled)))
		_, t, err := h.follow(q.Start, shared)
		if err != nil && !errors.Is(err, ErrRange) {
			return k, err
		}
		k.Hottest = t // 0 beyond what is computed
		if err != nil || t > limit {
			k.Fails = append(k.Fails, CriterionHeat)
		}
	}
	if q.Fault > 0 {
		initial := c.Insulation
		or(&initial, units.Celsius(70))
		k.Withstand, err = Withstand(c.Area, initial, q.Final)
		if err != nil {
			return k, err
		}
		if float64(k.Withstand) < q.Fault.Amperes()*q.Fault.Amperes()*q.Clearing.Seconds() {
			k.Fails = append(k.Fails, CriterionWithstand)
		}
	}
	return k, nil
}
