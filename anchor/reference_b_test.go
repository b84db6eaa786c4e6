package anchor_test

import (
	"math"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

// handlersOfTide compute the rows of tide.csv and position.csv.
func handlersOfTide() map[string]refcheck.Handler {
	clock := func(in refcheck.Inputs, key string) time.Time {
		at, err := time.Parse("15:04", in.Text(key))
		if err != nil {
			return time.Time{} // refused by the tide
		}
		return at.AddDate(2030, 0, 0)
	}
	arc := func(in refcheck.Inputs) units.Angle { return units.Degree.Scale(in.Float("seconds") / 3600) }
	return map[string]refcheck.Handler{
		"anchor.Tide.Height": func(in refcheck.Inputs) (any, error) {
			var tide anchor.Tide
			if err := tide.Rule.UnmarshalText([]byte(in.Text("rule"))); err != nil {
				return nil, err
			}
			tide.Turns = []anchor.Turn{
				{At: clock(in, "from"), Height: in.Length("low")},
				{At: clock(in, "to"), Height: in.Length("high")},
			}
			return tide.Height(clock(in, "at"))
		},
		"anchor.TideRule.Risen#twelfths": func(in refcheck.Inputs) (any, error) {
			part, err := anchor.Twelfths.Risen(in.Float("hours") / 6)
			return 12 * part, err
		},
		"anchor.TideRule.Risen#cosine": func(in refcheck.Inputs) (any, error) {
			return anchor.Cosine.Risen(in.Float("hours") / 6)
		},
		"anchor.Sounding.DepthAt": func(in refcheck.Inputs) (any, error) {
			low, high := at(6, 0), at(12, 0)
			tide := anchor.Tide{Turns: []anchor.Turn{{At: low, Height: 1}, {At: high, Height: 1 + in.Length("range")}}}
			when := low
			if in.Text("at") == "high" {
				when = high
			}
			return anchor.Sounding{At: at(9, 0), Shown: in.Length("shown")}.DepthAt(tide, when)
		},
		"anchor.ConstituentSpeed": func(in refcheck.Inputs) (any, error) {
			v, err := anchor.ConstituentSpeed(in.Text("name"))
			return v.DegreesPerSecond() * 3600, err
		},
		"anchor.PlaceOf#north": func(in refcheck.Inputs) (any, error) {
			p, err := anchor.PlaceOf(
				anchor.LatLon{Lat: in.Angle("lat") - arc(in)/2},
				anchor.LatLon{Lat: in.Angle("lat") + arc(in)/2},
			)
			return p.North, err
		},
		"anchor.PlaceOf#east": func(in refcheck.Inputs) (any, error) {
			p, err := anchor.PlaceOf(
				anchor.LatLon{Lat: in.Angle("lat")},
				anchor.LatLon{Lat: in.Angle("lat"), Lon: arc(in)},
			)
			return p.East, err
		},
		"anchor.FixDeviation#2drms": func(in refcheck.Inputs) (any, error) {
			d, err := anchor.FixDeviation(in.Length("radius"), in.Float("fraction"))
			return d.Scale(2 * math.Sqrt2), err
		},
		// The fraction whose deviation is that of a radius of so many root mean square distances.
		"anchor.FixDeviation#held": func(in refcheck.Inputs) (any, error) {
			radius := units.Length(in.Float("drms") * math.Sqrt2)
			lo, hi := 0.5, 1-1e-12
			for range 60 {
				d, err := anchor.FixDeviation(radius, (lo+hi)/2)
				if err != nil {
					return nil, err
				}
				if d > 1 {
					lo = (lo + hi) / 2
				} else {
					hi = (lo + hi) / 2
				}
			}
			return lo, nil
		},
		"anchor.FixDeviation#radius": func(in refcheck.Inputs) (any, error) {
			d, err := anchor.FixDeviation(1, in.Float("fraction"))
			return units.Length(1 / d.Metres()), err
		},
		"anchor.AlarmRadius": func(in refcheck.Inputs) (any, error) {
			a, err := anchor.AlarmRadius(anchor.AlarmBudget{
				Circle: in.Length("circle"), Fix: in.Length("fix"), Chance: in.Float("chance"),
			})
			return a.Radius, err
		},
		"anchor.Watch.Threshold": func(in refcheck.Inputs) (any, error) {
			return anchor.Watch{Fix: 1, Memory: 30, Quiet: units.Time(60 * in.Float("runs"))}.Threshold()
		},
	}
}
