package units_test

import (
	"fmt"
	"time"

	"example.com/forepeak/units"
)

// What 40 m of chain weighs, and how many kilograms of pull lift it.
func ExampleLinearDensity_Weight() {
	chain := 1.4 * units.KilogramPerMetre
	hangs := chain.Weight().TimesLength(40 * units.Metre)
	fmt.Printf("%.0f N, %.0f kg\n", hangs.Newtons(), hangs.Mass().Kilograms())
	// Output:
	// 549 N, 56 kg
}

// A bed that rises 1 m in 10 m.
func ExampleAngle_Tan() {
	slope := units.Atan2(1*units.Metre, 10*units.Metre)
	fmt.Printf("%.2f°: tan %.2f, sin %.4f, cos %.4f\n", slope.Degrees(), slope.Tan(), slope.Sin(), slope.Cos())
	// Output:
	// 5.71°: tan 0.10, sin 0.0995, cos 0.9950
}

// A temperature is a point on a scale; what is added to it is a difference.
func ExampleTemperature_Add() {
	room := units.Celsius(20)
	cable := room.Add(30 * units.Kelvin)
	fmt.Printf("%.0f °C is %.0f °F, %v above the room\n", cable.Celsius(), cable.Fahrenheit(), cable.Sub(room))
	// Output:
	// 50 °C is 122 °F, 30 K above the room
}

func ExampleFromDuration() {
	t := units.FromDuration(90 * time.Minute)
	fmt.Printf("%.1f h, %.0f s\n", t.Hours(), t.Seconds())
	// Output:
	// 1.5 h, 5400 s
}

// A windlass at 60 turns a minute.
func ExampleAngularSpeed_Frequency() {
	f := units.Frequency(1)
	w := f.AngularSpeed()
	fmt.Printf("%.4f rad/s, %v a turn, %v\n", float64(w), f.Period(), w.Frequency() == f.Period().Frequency())
	// Output:
	// 6.2832 rad/s, 1 s a turn, true
}
