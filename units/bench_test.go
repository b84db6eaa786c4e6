package units_test

import (
	"fmt"
	"strconv"
	"testing"

	"example.com/forepeak/units"
)

// The baselines are what the standard library does with the number alone.

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"12.5 m", "12.5 ft", "25 kn", "18 °C", "41ft 3 1/2in"} {
		parse := func(s string) error { _, err := units.ParseLength(s); return err }
		switch text {
		case "25 kn":
			parse = func(s string) error { _, err := units.ParseSpeed(s); return err }
		case "18 °C":
			parse = func(s string) error { _, err := units.ParseTemperature(s); return err }
		}
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := parse(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("baseline ParseFloat", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := strconv.ParseFloat("12.5", 64); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("baseline Sscan", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			var x float64
			var unit string
			if _, err := fmt.Sscan("12.5 m", &x, &unit); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkFormat(b *testing.B) {
	l := units.Length(12.3456)
	buf := make([]byte, 0, 64)
	b.Run("AppendText", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			buf, _ = l.AppendText(buf[:0])
		}
	})
	b.Run("%.3v", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			buf = fmt.Appendf(buf[:0], "%.3v", l)
		}
	})
	b.Run("%.2f", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			buf = fmt.Appendf(buf[:0], "%.2f", l)
		}
	})
	b.Run("baseline AppendFloat", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			buf = strconv.AppendFloat(buf[:0], float64(l), 'f', -1, 64)
		}
	})
	b.Run("baseline %.2f", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			buf = fmt.Appendf(buf[:0], "%.2f m", float64(l))
		}
	})
}
