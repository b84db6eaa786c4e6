package anchor_test

import (
	"fmt"
	"maps"
	"math"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

func init() {
	maps.Copy(handlers, map[string]refcheck.Handler{
		"anchor.Gusts.Deviation": func(in refcheck.Inputs) (any, error) {
			s, err := anchor.Gusts{Roughness: in.Length("z0")}.Deviation(anchor.Wind{Speed: in.Speed("U")})
			return s.Per(in.Speed("U")), err
		},
		"anchor.Gumbel.Quantile#variance": func(in refcheck.Inputs) (any, error) {
			const n = 100
			q, err := anchor.Gumbel{Scale: 1, N: n}.Quantile(math.Exp(-math.Exp(-in.Float("y"))))
			half := (q.High - q.Low).Newtons() / 2 / 1.6449
			return half * half * n, err
		},
		"anchor.FitGumbel#mode": func(in refcheck.Inputs) (any, error) {
			g, err := anchor.FitGumbel(peaks(in))
			return g.Mode, err
		},
		"anchor.FitGumbel#scale": func(in refcheck.Inputs) (any, error) {
			g, err := anchor.FitGumbel(peaks(in))
			return g.Scale, err
		},
		"anchor.Gumbel.Quantile#quantile": func(in refcheck.Inputs) (any, error) {
			q, err := anchor.Gumbel{Scale: 1, N: 1}.Quantile(in.Float("p"))
			return q.Load.Newtons(), err
		},
	})
}

func peaks(in refcheck.Inputs) []units.Force {
	var f []units.Force
	for i := 1; in.Has(fmt.Sprintf("p%d", i)); i++ {
		f = append(f, in.Force(fmt.Sprintf("p%d", i)))
	}
	return f
}
