package hostile

import (
	"time"

	"example.com/forepeak/anchor"
	anchordraw "example.com/forepeak/anchor/draw"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func hour(h int) time.Time { return time.Date(2030, 5, 17, h, 0, 0, 0, time.UTC) }

func theWind() anchor.Wind { return anchor.Wind{Speed: 13, Height: 10, Exponent: 0.11} }

func theCurrent() anchor.Current { return anchor.Current{Speed: 0.5, Depth: 6} }

func theWaves() anchor.Waves { return anchor.Waves{Height: 0.4, Period: 2.8, Depth: 5} }

func theWindage() anchor.Windage {
	return anchor.Windage{Parts: []anchor.Part{
		{Name: "hull", Front: 3, Side: 10.5, Top: 1.1, Length: 10, DragFront: 0.8},
		{Name: "mast", Shape: anchor.Round, Front: 1.9, Side: 1.9, Bottom: 1.5, Top: 14, Station: 1},
	}}
}

func theUnderwater() anchor.Underwater {
	return anchor.Underwater{
		Length: 9, Beam: 3.2, Draught: 0.75, Mass: 7200,
		Fins:       []anchor.Fin{{Name: "keel", Side: 2.4, Chord: 3}},
		Propellers: []anchor.Propeller{{Diameter: 0.43}},
	}
}

func theSwing() anchor.Swing {
	return anchor.Swing{Rode: rode.Rode{Pieces: []rode.Piece{theChain().Piece(35)}}, Site: rode.Site{Depth: 6, Roller: 1.4, Friction: 0.6}, Stern: 10.4, Antenna: 9, Beam: 3.3}
}

func theTide() anchor.Tide {
	return anchor.Tide{Turns: []anchor.Turn{{At: hour(17), Height: 4.9}, {At: hour(24), Height: 0.7}, {At: hour(30), Height: 4.7}}}
}

func theNight() anchor.Night {
	return anchor.Night{
		From: hour(20), To: hour(28), Tide: theTide(), Sounding: anchor.Sounding{At: hour(19), Shown: 6.1, Offset: 0.5},
		Rode: rode.Rode{Pieces: []rode.Piece{theChain().Piece(60)}}, Roller: 1.4, Friction: 0.6,
		Winds:    []anchor.NightWind{{From: hour(18), Pull: 600}, {From: hour(26), Pull: 1800}},
		Steepest: 0.14, Wave: 0.4, TideError: 0.2, Draught: 1.5, UnderKeel: 0.3, Stern: 10.4, Antenna: 9,
		Step: units.Hour,
	}
}

func theDrive() anchor.Drive {
	return anchor.Drive{Voltage: 12, Points: []anchor.DrivePoint{{Pull: 1000, Speed: 0.4, Current: 80}, {Pull: 2500, Speed: 0.22, Current: 170}}}
}

func theWatch() anchor.Watch {
	return anchor.Watch{Circle: 25, Fix: 3, Memory: 600, Quiet: 30 * units.Day}
}

func theFixes() []anchor.Fix {
	var list []anchor.Fix
	for i := range 30 {
		list = append(list, anchor.Fix{At: hour(20).Add(time.Duration(i) * time.Minute), Place: anchor.Place{East: 10, North: units.Length(i)}})
	}
	return list
}

func theRide() anchor.Ride {
	return anchor.Ride{
		Above: theWindage(), Below: theUnderwater(), Ahead: 4.9, Surging: 120, Swaying: 60, Yawing: 60,
		Rode: theSnubbed(), Site: rode.Site{Depth: 5, Roller: 1.4, Friction: 0.6},
		Wind: theWind(), Current: anchor.Current{Depth: 5}, Waves: anchor.Waves{Height: 0.2, Period: 2.8},
		Duration: 60, Settle: 10, Seed: 1,
	}
}

func init() {
	add := addType
	add(func() any { return anchor.Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1, Rig: anchor.Sloop} })
	add(func() any { return theWind() })
	add(func() any { return []anchor.Wind{theWind()} })
	add(func() any { return theCurrent() })
	add(func() any { return theWaves() })
	add(func() any { return theWindage() })
	add(func() any { return theUnderwater() })
	add(func() any { return theSwing() })
	add(func() any { return anchor.Neighbour{Name: "Teal", Bearing: 1.4, Distance: 60, Swing: theSwing()} })
	add(func() any { return theTide() })
	add(func() any { return theNight() })
	add(func() any { return anchor.Sounding{At: hour(19), Shown: 6.1, Offset: 0.5} })
	add(func() any { return theDrive() })
	add(func() any { return anchor.Supply{Voltage: 12.6, Resistance: 0.01} })
	add(func() any { return anchor.Windlass{Drive: theDrive()} })
	add(func() any {
		return anchor.Haul{
			Rode: rode.Rode{Pieces: []rode.Piece{theChain().Piece(40)}}, Site: rode.Site{Depth: 8, Roller: 1.4},
			Anchor: 16, Pull: 300, Breakout: 1200, Supply: anchor.Supply{Voltage: 12.6, Resistance: 0.01},
		}
	})
	add(func() any { return theWatch() })
	add(func() any { return must(anchor.NewWatcher(theWatch())) })
	add(func() any { return theFixes() })
	add(func() any { return theFixes()[0] })
	add(func() any { return anchor.AlarmBudget{Circle: 25, Aft: 8, Mark: 2, Fix: 3, Set: 2, Chance: 0.001} })
	add(func() any { return theRide() })
	add(func() any { return anchor.Gusts{Roughness: 0.05} })
	add(func() any { return anchor.Gumbel{Mode: 4000, Scale: 500, N: 12} })
	add(func() any { return must(anchor.Holding(anchor.PlateHinged, anchor.Sand, 16)) })
	add(func() any { return anchor.Bottoms()[1] })
	add(func() any { return anchor.LatLon{Lat: 0.9, Lon: -0.1} })
	add(func() any { return anchor.Air{Temperature: 290, Pressure: 101325, Humidity: 0.5} })
	add(func() any { return anchor.Soil(anchor.Sand) })
	add(func() any { return anchor.PlateHinged })
	add(func() any { return anchordraw.WindPolar{Boat: theWindage(), Winds: []anchor.Wind{theWind()}} })
	add(func() any { return anchordraw.NightPlot{Night: theNight(), Plan: must(anchor.PlanNight(theNight()))} })
	add(func() any { return anchordraw.SwingPlan{Night: theNight(), Plan: must(anchor.PlanNight(theNight()))} })

	valid["anchor.ConstituentSpeed name"] = "M2"
	valid["anchor.EquipmentGear number"] = 100.0
	valid["anchor.SmallVesselGear mean"] = 9.7
	valid["anchor.HoldingLeft fluke"] = 0.52
	valid["anchor.MinimumWindlass diameter"] = 0.014
	valid["anchor.MinimumWindlass depth"] = 120
	valid["anchor.FrictionCoefficient reynolds"] = 1e7
	valid["anchor.FitGumbel peaks"] = []units.Force{4100, 3650, 5200, 3900, 4480, 3720, 4020, 4900, 3580, 4260, 6010, 3840}
	valid["anchor.Lie apart"] = 0.5
	valid["anchor.GustFactor gust"] = 3
	valid["anchor.GustFactor mean"] = 600
	valid["anchor.Exposure.GustFactor 1"] = 3
	valid["anchor.Exposure.GustFactor 2"] = 600
	valid["anchor.HangingWeight r"] = rode.Rode{Pieces: []rode.Piece{theChain().Piece(40)}}
	valid["anchor.HangingWeight out"] = 11
	valid["anchor.Tide.Height 1"] = hour(20)
	valid["anchor.Tide.Between 1"] = hour(18)
	valid["anchor.Tide.Between 2"] = hour(29)
	valid["anchor.Sounding.DepthAt 2"] = hour(24)
	valid["anchor.Ride.Realise 2"] = 10
	valid["anchor.Drive.Run 1"] = 1500
	valid["anchor.Watch.Detect 1"] = theFixes()
	for k, v := range map[string]string{
		"Exposure": "at-sea", "Kind": "claw", "Rig": "sloop", "TideRule": "cosine", "Shape": "round", "Soil": "sand", "Spectrum": "sea", "Winding": "permanent magnet",
	} {
		valid["anchor."+k+".UnmarshalText 1"] = []byte(v)
	}
	costly["anchor.Ride.Simulate"] = 100
	costly["anchor.Ride.Realise"] = 40
}
