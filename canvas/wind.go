package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Terrain is what the wind has blown over for the last kilometres: a terrain
// category of EN 1991-1-4, table 4.1.
type Terrain string

// The terrains, with roughness length and the height below which the wind is
// taken as at that height.
const (
	OpenSea  Terrain = ""        // category 0: 0.003 m, 1 m
	Lake     Terrain = "lake"    // I, lakes and flat shores: 0.01 m, 1 m
	Grass    Terrain = "grass"   // II, low grass, single trees: 0.05 m, 2 m
	Villages Terrain = "village" // III, villages, woods: 0.3 m, 5 m
	Town     Terrain = "town"    // IV: 1 m, 10 m
)

// roughness gives roughness length and least height.
func (t Terrain) roughness() (z0, least float64, ok bool) {
	switch t {
	case OpenSea:
		return 0.003, 1, true
	case Lake:
		return 0.01, 1, true
	case Grass:
		return 0.05, 2, true
	case Villages:
		return 0.3, 5, true
	case Town:
		return 1, 10, true
	}
	return 0, 0, false
}

// Wind is a forecast.
type Wind struct {
	Mean    units.Speed  // of ten minutes
	Height  units.Length // for which Mean is given, 10 m in forecasts
	Terrain Terrain
}

// Gust is the wind at a height.
type Gust struct {
	Mean      units.Speed
	Intensity float64        // standard deviation of the speed over Mean
	Gust      units.Speed    // whose pressure is Pressure
	Pressure  units.Pressure // peak velocity pressure
}

// airDensity is that of EN 1991-1-4.
const airDensity = 1.25 // kg/m3

// At returns the wind at another height z by EN 1991-1-4:2005, 4.3 to 4.5:
//
//	mean = Mean ln(z/z0)/ln(Height/z0), intensity = 1/ln(z/z0),
//	pressure = (1 + 7 intensity) 0.625 mean^2
//
// with z0 the roughness length and 1.25 kg/m3. Below the least height of the
// terrain all are those at that height. That gust is the peak of a few seconds
// in ten minutes of steady wind; squalls and gusts off high land are stronger.
// Heights are from 0.1 m to 200 m, the mean to 60 m/s.
func (w Wind) At(height units.Length) (Gust, error) {
	var c checker
	z0, least, ok := w.Terrain.roughness()
	if !ok {
		return Gust{}, refuseAs(ErrUnknown, "Wind.Terrain", fmt.Sprintf("%q", w.Terrain), "lake, grass, village, town or none for the open sea")
	}
	between(&c, "Wind.Mean", w.Mean, 0, fastest)
	between(&c, "Wind.Height", w.Height, 0.1*units.Metre, 200*units.Metre)
	between(&c, "height", height, 0.1*units.Metre, 200*units.Metre)
	if c.err != nil {
		return Gust{}, c.err
	}
	known, z := math.Max(least, float64(w.Height)), math.Max(least, float64(height))
	mean := float64(w.Mean) * math.Log(z/z0) / math.Log(known/z0)
	i := 1 / math.Log(z/z0)
	return Gust{
		Mean: units.Speed(mean), Intensity: i,
		Gust:     units.Speed(mean * math.Sqrt(1+7*i)),
		Pressure: units.Pressure((1 + 7*i) * airDensity / 2 * mean * mean),
	}, nil
}

const fastest = 60 * units.MetrePerSecond
