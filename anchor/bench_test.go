package anchor

import (
	"math"
	"testing"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/rode"
)

// The wave number by Newton's rule, and by a general root finder on the same relation.
func BenchmarkWavenumber(b *testing.B) {
	b.Run("newton", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			wavenumber(4, 5)
		}
	})
	b.Run("general", func(b *testing.B) {
		w2 := 4 * math.Pi * math.Pi / 16
		for b.Loop() {
			_, err := root.Find(func(k float64) (float64, error) { return gravity*k*math.Tanh(k*5) - w2, nil }, 1e-6, 100, 0)
			if err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkWindageLoad(b *testing.B) {
	boat, err := Estimate(Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := boat.Load(Wind{Speed: 15}, 0.4); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRetrieve(b *testing.B) {
	h := Haul{
		Rode:   rode.Rode{Pieces: []rode.Piece{{Length: 40, Mass: 1.4, Density: rode.Steel}}},
		Site:   rode.Site{Depth: 8, Roller: 1.4},
		Anchor: 16, Pull: 300, Breakout: 1200, Supply: Supply{Voltage: 12.6, Resistance: 0.01},
	}
	for b.Loop() {
		if _, err := (Windlass{Drive: magnets}).Retrieve(h); err != nil {
			b.Fatal(err)
		}
	}
}
