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

// What a scale at the bow shows for a pull of 1.2 kN.
func ExampleForce_Mass() {
	pull := 1.2 * units.Kilonewton
	fmt.Printf("%.0f kg\n", pull.Mass().Kilograms())
	// Output:
	// 122 kg
}

// A chain that hangs with 12 N on each metre in water: how heavy does it feel?
func ExampleForcePerLength_Mass() {
	w := 12 * units.NewtonPerMetre
	fmt.Printf("%.2f kg/m\n", w.Mass().KilogramsPerMetre())
	// Output:
	// 1.22 kg/m
}

// How far up does a rode pull at 8° above the bed?
func ExampleAngle_Sin() {
	pull := 2 * units.Kilonewton
	fmt.Printf("%.0f N\n", pull.Scale((8 * units.Degree).Sin()).Newtons())
	// Output:
	// 278 N
}

// A leg of a bridle at 20° off the rode holds more than half.
func ExampleAngle_Cos() {
	pull := 2 * units.Kilonewton
	fmt.Printf("%.0f N\n", pull.Scale(0.5/(20*units.Degree).Cos()).Newtons())
	// Output:
	// 1064 N
}

// What people read off a thermometer, and what physics counts with.
func ExampleCelsius() {
	t := units.Celsius(60)
	fmt.Printf("%.2f K, %.0f °F\n", t.Kelvins(), t.Fahrenheit())
	// Output:
	// 333.15 K, 140 °F
}

// Insulation marked 221 °F.
func ExampleFahrenheit() {
	fmt.Printf("%.0f °C\n", units.Fahrenheit(221).Celsius())
	// Output:
	// 105 °C
}

// A swell of 0.125 Hz comes every 8 s.
func ExampleFrequency_Period() {
	fmt.Println((0.125 * units.Hertz).Period())
	// Output:
	// 8 s
}

// A wave of 4 s in hertz.
func ExampleTime_Frequency() {
	fmt.Println((4 * units.Second).Frequency())
	// Output:
	// 0.25 Hz
}

// A wheel that turns once a second.
func ExampleFrequency_AngularSpeed() {
	w := (1 * units.Hertz).AngularSpeed()
	fmt.Printf("%.0f rpm, %.3f rad/s\n", w.RevolutionsPerMinute(), w.RadiansPerSecond())
	// Output:
	// 60 rpm, 6.283 rad/s
}

// Products and quotients know their dimension: a windlass that lifts 900 N at 20 m/min takes 300 W.
func ExampleForce_TimesSpeed() {
	power := (900 * units.Newton).TimesSpeed(20 * units.MetrePerMinute)
	fmt.Printf("%.0f W, %.1f A at 12 V, %.2f Ah for 40 m\n", power.Watts(), power.PerVoltage(12*units.Volt).Amperes(),
		power.PerVoltage(12*units.Volt).TimesTime((40 * units.Metre).PerSpeed(20*units.MetrePerMinute)).AmpereHours())
	// Output:
	// 300 W, 25.0 A at 12 V, 0.83 Ah for 40 m
}
