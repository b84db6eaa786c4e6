package rode

import (
	"example.com/forepeak/internal/accept"
	"example.com/forepeak/units"
)

// Stretch is a load-extension curve, strain as a cubic in tension:
//
//	strain = A r + B r² + C r³,  r = tension / Reference
//
// Reference is usually the breaking force the curve was measured against. The
// zero Stretch is an inextensible line. The curve must rise at every tension
// (B² < 3 A C where B is negative), and Limit, if not zero, is the greatest
// tension it was measured to: a solution beyond it is refused.
type Stretch struct {
	Reference units.Force
	A, B, C   float64
	Limit     units.Force
}

// LinearStretch is the curve of a line whose axial stiffness (E times A) is ea.
func LinearStretch(ea units.Force) Stretch { return Stretch{Reference: ea, A: 1} }

// Strain is the extension at a tension, as a fraction of the unstretched length.
//
// It refuses a tension that is negative, not finite or beyond Limit.
func (s Stretch) Strain(tension units.Force) (float64, error) {
	var c checker
	s.check(&c, "Stretch")
	notNegative(&c, "tension", tension)
	if c.err != nil {
		return 0, c.err
	}
	if s.Limit > 0 && tension > s.Limit {
		return 0, refuseAs(ErrStretch, "tension", tension, "at most "+s.Limit.String())
	}
	return s.law().at(float64(tension)), nil
}

func (s Stretch) check(c *checker, field string) {
	if c.err != nil || s == (Stretch{}) {
		return
	}
	notNegative(c, field+".Limit", s.Limit)
	between(c, field+".A", s.A, 0, accept.Largest)
	between(c, field+".B", s.B, -accept.Largest, accept.Largest)
	notNegative(c, field+".C", s.C)
	positive(c, field+".Reference", s.Reference)
	positive(c, field+".A", s.A)
	if c.err == nil && s.B < 0 && !(float64(s.B*s.B) < 3*s.A*s.C) {
		c.err = refuse(field+".B", s.B, "a curve that rises at every tension (B² < 3 A C)")
	}
}

func (s Stretch) law() law {
	if s.Reference == 0 {
		return law{}
	}
	r := 1 / float64(s.Reference)
	return law{s.A * r, s.B * r * r, s.C * r * r * r}
}
