package wiring

import (
	"fmt"
	"math"
	"strings"

	"example.com/forepeak/units"
)

// ampacityTable is one published table of continuous currents.
type ampacityTable struct {
	rules   Rules
	ambient float64   // °C
	columns []float64 // insulation temperatures, °C
	engine  []float64 // factor for engine spaces by column
	kind    string    // "standard" or "memory"
	rows    []ampacityRow
}

type ampacityRow struct {
	name string
	area float64   // mm²
	amps []float64 // by column
}

// CableRating is what a rule set lets a conductor carry for ever, and how that came about.
type CableRating struct {
	Rules   Rules
	Row     string            // size of the table that was used
	Column  units.Temperature // insulation temperature of the column that was used
	Table   units.Current     // printed there
	Factors []Factor          // in order; Current is Table times all of them
	Current units.Current
	Kind    string   // of the printed value: "standard", or "memory" where nobody has confirmed it
	Notes   []string // what to know about this answer
}

// Factor is one reduction of a rating.
type Factor struct {
	Name  string
	Value float64
	Kind  string // "standard", "memory" or "formula"
}

// Ampacity returns the continuous current of a conductor by a rule set. A size or an
// insulation that a table does not have takes the next smaller one that it has; below the
// least, and above the greatest size by more than rounding, is [ErrRange].
//
//   - [ISO]: ISO 10133 table A.1, taken over by ISO 13297, at 30 °C. From memory. In engine
//     spaces its factors (0.75 for 70 °C to 1 for 200 °C insulation); 60 °C insulation must
//     not be used there.
//   - [CFR]: 33 CFR 183.425 table 5, at 30 °C; note 1 in engine spaces. Its note 2, for
//     bundles, binds at 50 V and above only (183.435) and is not applied. It is law for boats
//     with petrol (gasoline) inboard engines only.
//   - [E11]: the same table, 0.85 in engine spaces for 105 °C insulation, and bundling:
//     three conductors 0.70, four to six 0.60, 7 to 24 0.50, more 0.40.
//   - [IEC60092]: IEC 60092-352 at 45 °C, for one cable in free air; two cores 0.85, three or
//     four 0.70, up to 37 by the table.
//
// An ambient other than the table's multiplies with sqrt((Tc - Ta)/(Tc - Tb)), Tc the column,
// Tb the table's ambient. The factors for engine spaces stand for 50 °C; an ambient
// given with EngineSpace must not be more.
//
// Caution: a table assumes the installation it was made for. Cables under headlinings and in
// insulation run hotter.
func Ampacity(rules Rules, c Conductor, in Installation) (CableRating, error) {
	var ck checker
	c.check(&ck, "conductor")
	must(&ck, c.Insulation != 0, "conductor.Insulation", "0", "the temperature that the insulation is made for")
	in.check(&ck, "installation")
	if ck.err != nil {
		return CableRating{}, ck.err
	}
	t, err := tableFor(rules)
	if err != nil {
		return CableRating{}, err
	}
	row, err := t.row(c)
	if err != nil {
		return CableRating{}, err
	}
	column := -1
	for i, x := range t.columns {
		if x <= c.Insulation.Celsius()+1e-9 {
			column = i
		}
	}
	if column < 0 {
		return CableRating{}, refuseAs(ErrRange, "conductor.Insulation", fmt.Sprintf("%.3v", c.Insulation), fmt.Sprintf("%g °C or more for %s", t.columns[0], rules))
	}
	r := CableRating{
		Rules: rules, Row: row.name, Column: units.Celsius(t.columns[column]),
		Table: units.Current(row.amps[column]), Kind: t.kind,
	}
	if plainSize(row.name) != plainSize(c.Size) && row.name != c.Gauge+" AWG" {
		r.Notes = append(r.Notes, fmt.Sprintf("%s is not in the table: %s, the next smaller size, is used", c.Size, row.name))
	}
	if math.Abs(r.Column.Celsius()-c.Insulation.Celsius()) > 0.5 {
		r.Notes = append(r.Notes, fmt.Sprintf("%g °C insulation is rated by the column for %g °C", c.Insulation.Celsius(), t.columns[column]))
	}
	if t.kind == "memory" {
		r.Notes = append(r.Notes, "the table is from memory: compare it with the standard before relying on it")
	}
	if err := r.reduce(t, column, in); err != nil {
		return CableRating{}, err
	}
	r.Current = r.Table
	for _, f := range r.Factors {
		r.Current = r.Current.Scale(f.Value)
	}
	return r, nil
}

// reduce collects the factors.
func (r *CableRating) reduce(t *ampacityTable, column int, in Installation) error {
	tc := t.columns[column]
	switch {
	case in.EngineSpace && t.engine == nil:
		return refuseAs(ErrRange, "installation.EngineSpace", true, fmt.Sprintf("an Ambient instead: %s has no factor for engine spaces", r.Rules))
	case in.EngineSpace:
		if in.Ambient > units.Celsius(50) {
			return refuseAs(ErrRange, "installation.Ambient", fmt.Sprintf("%.3v", in.Ambient), "50 °C or less with EngineSpace, for which its factors stand")
		}
		f := Factor{Name: "engine space", Value: t.engine[column], Kind: "memory"}
		if f.Value == 0 {
			return refuseAs(ErrRange, "conductor.Insulation", fmt.Sprintf("%g °C", tc), "70 °C or more in an engine space")
		}
		if r.Rules == E11 && tc == 105 {
			f = Factor{Name: f.Name, Value: 0.85, Kind: "standard"}
		}
		r.Factors = append(r.Factors, f)
	case in.Ambient != 0 && in.Ambient != units.Celsius(t.ambient):
		k, err := AmbientFactor(Ambients{Conductor: units.Celsius(tc), Rated: units.Celsius(t.ambient), Actual: in.Ambient})
		if err != nil {
			return err
		}
		r.Factors = append(r.Factors, Factor{Name: fmt.Sprintf("ambient of %g °C", in.Ambient.Celsius()), Value: k, Kind: "formula"})
	}
	if n := in.Bundled; n > 1 {
		steps, ok := bundling[r.Rules]
		if !ok {
			r.Notes = append(r.Notes, "no reduction for bundles below 50 V in these rules")
			return nil
		}
		for _, s := range steps {
			if n <= s.most {
				if s.factor < 1 {
					r.Factors = append(r.Factors, Factor{Name: fmt.Sprintf("%d conductors together", n), Value: s.factor, Kind: s.kind})
				}
				return nil
			}
		}
		return refuseAs(ErrRange, "installation.Bundled", n, fmt.Sprintf("%d or fewer for %s", steps[len(steps)-1].most, r.Rules))
	}
	return nil
}

type bundleStep struct {
	most   int
	factor float64
	kind   string
}

// bundling: the American factors were read in a UL 1426 table of boat cable, those of
// IEC 60092-352 are its factors for cores in one sheath, those of ISO are from memory.
var bundling = map[Rules][]bundleStep{
	E11: {{2, 1, ""}, {3, 0.70, "standard"}, {6, 0.60, "standard"}, {24, 0.50, "standard"}, {1000, 0.40, "memory"}},
	ISO: {{3, 1, ""}, {6, 0.70, "memory"}, {24, 0.60, "memory"}, {1000, 0.50, "memory"}},
	IEC60092: {
		{2, 0.85, "standard"},
		{4, 0.70, "standard"},
		{5, 0.58, "standard"},
		{7, 0.50, "standard"},
		{12, 0.43, "standard"},
		{19, 0.38, "standard"},
		{27, 0.33, "standard"},
		{37, 0.30, "standard"},
	},
}

func tableFor(rules Rules) (*ampacityTable, error) {
	switch rules {
	case ISO:
		return &tableISO, nil
	case CFR, E11:
		return &tableCFR, nil
	case IEC60092:
		return &tableIEC60092, nil
	default:
		names := make([]string, 0, 4)
		for _, r := range AllRules() {
			names = append(names, string(r))
		}
		return nil, refuseAs(ErrUnknown, "rules", fmt.Sprintf("%q", rules), "one of "+strings.Join(names, ", "))
	}
}

// row finds the conductor's size, or the next smaller one. A gauge is looked up by its
// number: the American rules rate the smaller conductors of road vehicles so, too.
func (t *ampacityTable) row(c Conductor) (ampacityRow, error) {
	found := -1
	for i, r := range t.rows {
		if c.Gauge != "" && r.name == c.Gauge+" AWG" {
			return r, nil
		}
		if r.area <= c.Area.SquareMillimetres()*1.001 {
			found = i
		}
	}
	last := t.rows[len(t.rows)-1]
	if found < 0 || c.Area.SquareMillimetres() > last.area*1.13 {
		return ampacityRow{}, refuseAs(ErrRange, "conductor.Area", fmt.Sprintf("%.4g mm²", c.Area.SquareMillimetres()),
			fmt.Sprintf("%s to %s for %s", t.rows[0].name, last.name, t.rules))
	}
	return t.rows[found], nil
}

func (in Installation) check(c *checker, field string) {
	if in.Ambient != 0 {
		between(c, field+".Ambient", in.Ambient, coldestCopper, hottestCopper)
	}
	must(c, in.Bundled >= 0 && in.Bundled <= 1000, field+".Bundled", in.Bundled, "from 0 to 1000")
}

// Ambients are the temperatures by which a rating is carried from one ambient to another.
type Ambients struct {
	Conductor     units.Temperature // that the insulation is made for
	Rated, Actual units.Temperature // ambients: of the rating, and where the cable lies
}

// AmbientFactor returns what a rating at one ambient is multiplied with at another:
//
//	sqrt((Conductor - Actual) / (Conductor - Rated))
//
// since heat and loss rise alike with temperature and with the square of the current.
// NEC tables 310 and those of ship cables follow it to rounding.
func AmbientFactor(a Ambients) (float64, error) {
	var c checker
	between(&c, "Conductor", a.Conductor, coldestCopper, hottestCopper)
	between(&c, "Rated", a.Rated, coldestCopper, hottestCopper)
	between(&c, "Actual", a.Actual, coldestCopper, hottestCopper)
	must(&c, a.Rated < a.Conductor, "Rated", fmt.Sprintf("%.4v", a.Rated), fmt.Sprintf("less than %.4v", a.Conductor))
	must(&c, a.Actual < a.Conductor, "Actual", fmt.Sprintf("%.4v", a.Actual), fmt.Sprintf("less than %.4v, that of the conductor", a.Conductor))
	if c.err != nil {
		return 0, c.err
	}
	return math.Sqrt(float64(a.Conductor.Sub(a.Actual)) / float64(a.Conductor.Sub(a.Rated))), nil
}
