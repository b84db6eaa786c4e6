package scene

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// The curve ends where the state does: at the roller, above the water.
func TestAt(t *testing.T) {
	s, err := At("6 m", "20 kn", "40 m")
	if err != nil {
		t.Fatal(err)
	}
	if s.Solved != 1+len(Fans) || len(s.Fan) != len(Fans) || s.ChainOut != 30 {
		t.Errorf("%d solved, %d in the fan, %v m of chain", s.Solved, len(s.Fan), s.ChainOut)
	}
	if !strings.HasPrefix(s.Chain, "M0.00 6.00 L") || !strings.HasSuffix(s.Rope, " -1.20") {
		t.Errorf("from %.20s to %s", s.Chain, s.Rope[len(s.Rope)-20:])
	}
	// The rope begins where the chain ends.
	if end := s.Chain[strings.LastIndex(s.Chain, "L")+1:]; !strings.HasPrefix(s.Rope, "M"+end+" L") {
		t.Errorf("the chain ends at %s, the rope begins %.20s", end, s.Rope)
	}
	short, err := At("6 m", "20 kn", "25 m")
	if err != nil || short.Rope != "" || short.ChainOut != 25 {
		t.Errorf("chain alone: rope %q, %v m of chain, %v", short.Rope, short.ChainOut, err)
	}
	// More wind takes the boat farther off and more rode from the bed.
	last := Scene{Lying: math.Inf(1)}
	for _, wind := range []string{"0 kn", "5 kn", "10 kn", "20 kn", "30 kn", "50 kn"} {
		s, err := At("6 m", wind, "40 m")
		if err != nil {
			t.Fatal(err)
		}
		if s.Off < last.Off || s.Lying > last.Lying || s.Says == last.Says {
			t.Errorf("%s: %v m off, %v m lying: %s", wind, s.Off, s.Lying, s.Says)
		}
		last = s
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct{ depth, wind, out, control string }{
		{"6", "20 kn", "40 m", "depth"},
		{"6 m", "20 m", "40 m", "wind"},
		{"6 m", "20 kn", "", "out"},
		{"6 m", "20 kn", "71 m", "out"},
		{"6 m", "20 kn", "5 m", "out"},
		{"6 m", "-1 kn", "40 m", "wind"},
		{"6 m", "1e6 kn", "40 m", "wind"},
		{"-6 m", "20 kn", "40 m", "depth"},
	} {
		_, err := At(c.depth, c.wind, c.out)
		var r *Refusal
		if !errors.As(err, &r) || r.Control != c.control {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

func FuzzAt(f *testing.F) {
	f.Add("6 m", "20 kn", "40 m")
	f.Add("2 m", "0 kn", "70 m")
	f.Add("25 m", "50 kn", "26.3 m")
	f.Add("NaN m", "-0 kn", "1e-300 m")
	f.Fuzz(func(t *testing.T, depth, wind, out string) {
		s, err := At(depth, wind, out)
		if err != nil {
			return
		}
		all := s.Chain + s.Rope + strings.Join(s.Fan, "") + s.Says
		if strings.Contains(all, "NaN") || strings.Contains(all, "Inf") || math.IsNaN(s.Off+s.Lying) || s.Chain == "" {
			t.Fatalf("%+v", s)
		}
	})
}

func BenchmarkAt(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := At("6 m", "20 kn", "40 m"); err != nil {
			b.Fatal(err)
		}
	}
}
