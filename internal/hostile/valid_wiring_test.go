package hostile

import (
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	wiringdraw "example.com/forepeak/wiring/draw"
)

func theStock() wiring.Stock {
	s := must(wiring.Metric(wiring.Flexible, wiring.Tinned)).WithInsulation(units.Celsius(90))
	for i := range s {
		s[i].Price = units.Money(1 + 3e5*float64(s[i].Area))
	}
	return s
}

func theConductor() wiring.Conductor { return must(theStock().Find("50 mm²")) }

func theBreaker() wiring.Device {
	return wiring.Device{
		Kind: wiring.Breaker, Rating: 100, Resistance: 0.6e-3, Interrupting: 5000,
		Band: &wiring.Band{Name: "thermal", Points: []wiring.BandPoint{
			{Multiple: 1.05, Earliest: 3600},
			{Multiple: 1.3, Earliest: 40, Latest: 3600},
			{Multiple: 2, Earliest: 6, Latest: 25},
			{Multiple: 4, Earliest: 0.8, Latest: 3},
		}},
	}
}

func theFuse(rating units.Current) wiring.Device {
	band := must(wiring.PublishedBand(wiring.BandBolted, rating))
	return wiring.Device{Kind: wiring.Fuse, Rating: rating, Resistance: 0.3e-3, Interrupting: 4000, Band: &band}
}

func theMotor() wiring.Motor {
	m := must(wiring.FitMotor(wiring.PermanentMagnet, 12,
		wiring.MotorPoint{Current: 12, Speed: 300, NoLoad: true},
		wiring.MotorPoint{Current: 105, Speed: 220, Torque: 3.5}))
	m.Load = 2.6
	return m
}

func theBattery() wiring.Battery {
	return wiring.Battery{
		Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, RatedOver: 20 * units.Hour, Peukert: 1.15,
		Resistance: 3e-3, Charge: 0.9, Temperature: 290,
		Disconnect: &wiring.Disconnect{Resistance: 0.4e-3, Continuous: 350, Peak: 900, PeakTime: 10, LowVoltage: 9, LowTemperature: 250},
	}
}

func theWindlass() wiring.Windlass {
	small := must(wiring.PublishedBand(wiring.BandBlade, 3))
	fuse := theFuse(150)
	return wiring.Windlass{
		Bank: theBattery(), Motor: theMotor(), Cable: wiring.Cable{Conductor: theConductor()},
		ToBreaker: 2.6, OneWay: 9.5, ToMotor: 0.4, Fuse: &fuse, Breaker: theBreaker(),
		Lug: 0.1e-3, Isolator: 0.2e-3, Contacts: 0.3e-3,
		Coil: 12, Control: must(theStock().Find("1.5 mm²")),
		ControlFuse: wiring.Device{Kind: wiring.Fuse, Rating: 3, Resistance: 0.03, Interrupting: 1000, Band: &small},
		Switches:    []wiring.ControlSwitch{{Name: "foredeck", Length: 2}, {Name: "cockpit", Length: 11}},
		Hull:        &wiring.Hull{Positive: 1e6, Negative: 2e6, Bonding: 0.01, Case: 1e6},
	}
}

func theCircuit() wiring.Circuit { return must(theWindlass().Circuit(wiring.Hauling)) }

func theSolution() wiring.Solution {
	return must(wiring.Solve(theCircuit(), wiring.Conditions{Copper: 320}))
}

func theRequirement() wiring.Requirement {
	return wiring.Requirement{
		Stock: theStock(), Parallel: 2, Run: 18, Current: 62.5, System: 24, MaxDrop: 0.05, Copper: 330, Rules: wiring.IEC60092,
		Duty: []wiring.Spell{{Current: 90, For: 600}}, Ambient: 300, Start: 310, Fault: 1500, Clearing: 1, Final: 430,
	}
}

func theReadings() []wiring.Reading {
	return []wiring.Reading{
		{Probes: wiring.Probes{Red: "bank +", Black: "breaker in"}, Volts: 0.118, Current: 78},
		{Probes: wiring.Probes{Red: "breaker in", Black: "breaker out"}, Volts: 0.041, Current: 78},
	}
}

func init() {
	add := addType
	add(func() any { return theStock() })
	add(func() any { return theConductor() })
	add(func() any { return []wiring.Conductor{theConductor(), must(theStock().Find("70 mm²"))} })
	add(func() any { return theBreaker() })
	add(func() any { return *theBreaker().Band })
	add(func() any { return theMotor() })
	add(func() any { return theBattery() })
	add(func() any { return theWindlass() })
	add(func() any { return theCircuit() })
	add(func() any { c := theCircuit(); return &c })
	add(func() any { return theSolution() })
	add(func() any { return must(wiring.NewSolver(theCircuit())) })
	add(func() any { return theRequirement() })
	add(func() any { return theReadings() })
	add(func() any { return wiring.Conditions{Copper: 320} })
	add(func() any { return []wiring.Phase{{Name: "haul", At: wiring.Conditions{Copper: 320}, For: 600}} })
	add(func() any { return wiring.Cable{Conductor: theConductor(), Length: 5} })
	add(func() any { return wiring.Voltmeter{Share: 0.005, Fixed: 0.002} })
	add(func() any { return wiring.Ammeter{Share: 0.02, Fixed: 0.5} })
	add(func() any { return wiring.TypicalSpread() })
	add(func() any { return wiring.Place{Length: 2.6, Battery: true} })
	add(func() any { return wiring.Installation{Ambient: 310, Bundled: 2} })
	add(func() any { return must(wiring.PreferredRatings(wiring.SeriesNEC)) })
	add(func() any { return wiring.Ambients{Conductor: 360, Rated: 303, Actual: 310} })
	add(func() any { return units.Interval[units.Resistance]{Low: 0.09, High: 0.11} })
	add(func() any { return units.Interval[units.Current]{Low: 1200, High: 2000} })
	add(func() any {
		return []wiring.Probes{{Red: "bank +", Black: "bank -"}, {Red: "breaker in", Black: "breaker out"}}
	})
	add(func() any {
		return wiring.HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 1e5, Noticed: 0.1}
	})
	add(func() any {
		return wiring.FaultStudy{HotCopper: 350, WeakCharge: 0.5, ColdBank: 270, Final: 430, Within: 5}
	})
	add(func() any {
		return wiring.Shop{Slack: 0.1, Ends: 0.2, SoldBy: 1, Stud: "M8", Shrink: 0.05, Stick: 1, MainClip: 0.4, Clip: 0.3, Spares: 1}
	})
	add(func() any {
		return wiring.SecondFuse{
			Breaker: theBreaker(), Cable: wiring.Cable{Conductor: theConductor(), Length: 2.6}, Rules: wiring.ISO, Ampacity: 210, System: 12,
			Series: must(wiring.PreferredRatings(wiring.SeriesNEC)), Band: wiring.BandBolted, Interrupting: 4000, Resistance: 0.3e-3,
			Stall: 300, Near: 2000, Far: 1200, Final: 430,
		}
	})
	add(func() any {
		r := theRequirement()
		r.Parallel = 0
		return []wiring.Run{{Name: "feeder", Requirement: r}, {Name: "lights", After: "feeder", Requirement: r}}
	})
	add(func() any { return wiringdraw.Diagram{Circuit: theCircuit(), Solution: new(theSolution())} })
	add(func() any { return wiringdraw.Bars{Report: must(theSolution().DropTo("motor"))} })

	valid["wiring.PublishedBand name"] = wiring.BandBolted
	valid["wiring.PublishedBand rating"] = 100
	valid["wiring.PreferredRatings name"] = wiring.SeriesNEC
	valid["wiring.GaugeArea gauge"] = "2/0"
	valid["wiring.GaugeDiameter gauge"] = "2/0"
	valid["wiring.TellTrip stall"] = units.Interval[units.Current]{Low: 280, High: 330}
	valid["wiring.FaultCurrents plus"] = "bank +"
	valid["wiring.FaultCurrents minus"] = "bank -"
	valid["wiring.CarriedFor ambient"] = 303
	valid["wiring.CarriedFor start"] = 320
	valid["wiring.CarriedFor duration"] = 300
	valid["wiring.TimeConstant ambient"] = 303
	valid["wiring.WithstandCurrent area"] = 35e-6
	valid["wiring.WithstandCurrent initial"] = 333
	valid["wiring.WithstandCurrent final"] = 430
	valid["wiring.Withstand area"] = 35e-6
	valid["wiring.Withstand initial"] = 333
	valid["wiring.Withstand final"] = 430
	valid["wiring.WithstandTime area"] = 35e-6
	valid["wiring.WithstandTime fault"] = 2000
	valid["wiring.WithstandTime initial"] = 333
	valid["wiring.WithstandTime final"] = 430
	valid["wiring.ResistanceFromStep before"] = 12.6
	valid["wiring.ResistanceFromStep under"] = 12.1
	valid["wiring.ResistanceFromStep current"] = 100
	valid["wiring.ResistanceFromCranking cells"] = 6
	valid["wiring.ResistanceFromCranking cranking"] = 600
	valid["wiring.PeukertExponent a"] = wiring.Spell{Current: 5, For: 72000}
	valid["wiring.PeukertExponent b"] = wiring.Spell{Current: 25, For: 10080}
	valid["wiring.MetricDrop area"] = 35e-6
	valid["wiring.CircularMilDrop area"] = 35e-6
	valid["wiring.CopperResistance area"] = 35e-6
	valid["wiring.InterruptingRule system"] = 12
	valid["wiring.InterruptingRule cranking"] = 600
	valid["wiring.InterruptingRule capacity"] = 230 * units.AmpereHour
	valid["wiring.ChooseRating load"] = 80
	valid["wiring.ChooseRating ampacity"] = 200
	valid["wiring.ChooseRating system"] = 12
	valid["wiring.LargestRating ampacity"] = 200
	valid["wiring.LargestRating system"] = 12
	valid["wiring.Ratings.AtLeast 1"] = 80
	valid["wiring.Ratings.AtMost 1"] = 80
	for _, k := range []string{"Ampacity rules", "CheckPlacement r", "ChooseRating r", "LargestRating r"} {
		valid["wiring."+k] = wiring.ISO
	}
	for _, k := range []string{"AWG finish", "SAE finish", "Metric finish"} {
		valid["wiring."+k] = wiring.Tinned
	}
	valid["wiring.Metric class"] = wiring.Flexible
	valid["wiring.FitMotor kind"] = wiring.PermanentMagnet
	valid["wiring.FitMotor at"] = 12
	valid["wiring.FitMotor points"] = []wiring.MotorPoint{{Current: 12, Speed: 300, NoLoad: true}, {Current: 105, Speed: 220, Torque: 3.5}}
	valid["wiring.PlanHunt sections"] = []wiring.Section{{Name: "a", Likelihood: 2}, {Name: "b", Likelihood: 3}, {Name: "c", Likelihood: 3}}
	valid["wiring.PlanHunt joints"] = []wiring.Joint{{Name: "j", Effort: 900}, {Name: "k", Effort: 3600}}
	valid["wiring.PlanHunt by"] = wiring.ByResistance
	valid["wiring.Selective upper"] = theFuse(250)
	valid["wiring.Selective prospective"] = 1000
	valid["wiring.RideThrough spells"] = []wiring.Spell{{Current: 330, For: 0.3}, {Current: 95, For: 240}}
	valid["wiring.SizeRuns least"] = wiring.LeastMass
	valid["wiring.Circuit.Element 1"] = "bank"
	valid["wiring.Solution.Branch 1"] = "motor"
	valid["wiring.Solution.DropTo 1"] = "motor"
	valid["wiring.Stock.Find 1"] = "50 mm²"
	valid["wiring.Windlass.Circuit 1"] = wiring.Hauling
	valid["wiring.Band.Opening 1"] = 100
	valid["wiring.Band.Opening 2"] = 300
	valid["wiring.Conductor.ResistanceAt 1"] = 320
	valid["wiring.Motor.Running 1"] = 12
	valid["wiring.LetThrough.UnmarshalText 1"] = []byte("1000 A² s")
	valid["wiring.TemperatureAfter ambient"] = 303
	valid["wiring.TemperatureAfter start"] = 310
	valid["wiring.SurfaceLoss surface"] = 350
	valid["wiring.SurfaceLoss diameter"] = 0.02
	valid["wiring.FindBadJoint readings"] = theReadings()
	costly["wiring.SizeRuns"] = 100
	costly["wiring.StudyFaults"] = 150
}
