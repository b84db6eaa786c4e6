package wiring_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

// Whatever is wrong with a circuit, the error names the field.
func TestSolveRefuses(t *testing.T) {
	battery := func() *wiring.Battery {
		return &wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 0.005}
	}
	cable := func() *wiring.Cable {
		return &wiring.Cable{Conductor: wiring.Conductor{Area: 1e-5, Resistance: 2e-3}, Length: 5}
	}
	motor := func() *wiring.Motor {
		return &wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 0.03, Flux: 0.05, Efficiency: 0.9, Load: 4}
	}
	for name, k := range map[string]struct {
		change func(*wiring.Circuit)
		at     wiring.Conditions
		field  string
		err    error
	}{
		"empty":         {func(c *wiring.Circuit) { c.Elements = nil }, wiring.Conditions{}, "Elements", wiring.ErrInput},
		"no name":       {func(c *wiring.Circuit) { c.Elements[1].Name = "" }, wiring.Conditions{}, "Elements[1] ().Name", wiring.ErrInput},
		"same name":     {func(c *wiring.Circuit) { c.Elements[1].Name = "bank" }, wiring.Conditions{}, "Name", wiring.ErrInput},
		"no node":       {func(c *wiring.Circuit) { c.Elements[1].From = "" }, wiring.Conditions{}, "From", wiring.ErrInput},
		"loop":          {func(c *wiring.Circuit) { c.Elements[1].To = c.Elements[1].From }, wiring.Conditions{}, "To", wiring.ErrInput},
		"nothing in it": {func(c *wiring.Circuit) { c.Elements[1].Cable = nil }, wiring.Conditions{}, "Elements[1] (out)", wiring.ErrInput},
		"two in one":    {func(c *wiring.Circuit) { c.Elements[1].Battery = battery() }, wiring.Conditions{}, "Elements[1] (out)", wiring.ErrInput},
		"reference":     {func(c *wiring.Circuit) { c.Reference = "keel" }, wiring.Conditions{}, "Reference", wiring.ErrInput},
		"chemistry":     {func(c *wiring.Circuit) { c.Elements[0].Battery.Chemistry = "potato" }, wiring.Conditions{}, "Battery.Chemistry", wiring.ErrInput},
		"charge":        {func(c *wiring.Circuit) { c.Elements[0].Battery.Charge = 1.1 }, wiring.Conditions{}, "Battery.Charge", wiring.ErrInput},
		"charge NaN":    {func(c *wiring.Circuit) { c.Elements[0].Battery.Charge = nan }, wiring.Conditions{}, "Battery.Charge", wiring.ErrInput},
		"flat flooded": {func(c *wiring.Circuit) {
			c.Elements[0].Battery.Chemistry, c.Elements[0].Battery.Charge = wiring.Flooded, 0
		}, wiring.Conditions{}, "Battery.Charge", wiring.ErrRange},
		"cells":         {func(c *wiring.Circuit) { c.Elements[0].Battery.Cells = -6 }, wiring.Conditions{}, "Battery.Cells", wiring.ErrInput},
		"ideal battery": {func(c *wiring.Circuit) { c.Elements[0].Battery.Resistance = 0 }, wiring.Conditions{}, "Battery.Resistance", wiring.ErrInput},
		"frozen":        {func(c *wiring.Circuit) { c.Elements[0].Battery.Temperature = 1 }, wiring.Conditions{}, "Battery.Temperature", wiring.ErrInput},
		"disconnect": {func(c *wiring.Circuit) {
			c.Elements[0].Battery.Disconnect = &wiring.Disconnect{Resistance: 1e-3, Continuous: 200, Peak: 100}
		}, wiring.Conditions{}, "Disconnect.Peak", wiring.ErrInput},
		"length":            {func(c *wiring.Circuit) { c.Elements[1].Cable.Length = -1 }, wiring.Conditions{}, "Cable.Length", wiring.ErrInput},
		"length inf":        {func(c *wiring.Circuit) { c.Elements[1].Cable.Length = units.Length(inf) }, wiring.Conditions{}, "Cable.Length", wiring.ErrInput},
		"area":              {func(c *wiring.Circuit) { c.Elements[1].Cable.Conductor.Area = 0 }, wiring.Conditions{}, "Cable.Conductor.Area", wiring.ErrInput},
		"parallel":          {func(c *wiring.Circuit) { c.Elements[1].Cable.Parallel = -2 }, wiring.Conditions{}, "Cable.Parallel", wiring.ErrInput},
		"melting":           {func(c *wiring.Circuit) { c.Elements[1].Cable.Temperature = 2000 }, wiring.Conditions{}, "Cable.Temperature", wiring.ErrInput},
		"ideal contact":     {func(c *wiring.Circuit) { c.Elements[2].Contact.Resistance = 0 }, wiring.Conditions{}, "Contact.Resistance", wiring.ErrInput},
		"negative contact":  {func(c *wiring.Circuit) { c.Elements[2].Contact.Resistance = -1 }, wiring.Conditions{}, "Contact.Resistance", wiring.ErrInput},
		"load of two kinds": {func(c *wiring.Circuit) { c.Elements[3].Load.Power = 10 }, wiring.Conditions{}, "Load", wiring.ErrInput},
		"negative load":     {func(c *wiring.Circuit) { c.Elements[3].Load.Current = -10 }, wiring.Conditions{}, "Load.Current", wiring.ErrInput},
		"motor type":        {func(c *wiring.Circuit) { c.Elements[4].Motor.Type = "steam" }, wiring.Conditions{}, "Motor.Type", wiring.ErrInput},
		"perpetual motor":   {func(c *wiring.Circuit) { c.Elements[4].Motor.Efficiency = 1.5 }, wiring.Conditions{}, "Motor.Efficiency", wiring.ErrInput},
		"weak magnet":       {func(c *wiring.Circuit) { c.Elements[4].Motor.Flux = 0 }, wiring.Conditions{}, "Motor.Flux", wiring.ErrInput},
		"runaway": {func(c *wiring.Circuit) {
			*c.Elements[4].Motor = wiring.Motor{Type: wiring.SeriesWound, Resistance: 0.03, Slope: 1e-3, Efficiency: 1}
		}, wiring.Conditions{}, "Motor.Load", wiring.ErrInput},
		"next to no load": {func(c *wiring.Circuit) {
			*c.Elements[4].Motor = wiring.Motor{Type: wiring.SeriesWound, Resistance: 0.03, Slope: 1e-3, Efficiency: 1, Load: 5e-324}
		}, wiring.Conditions{}, "Motor.Load", wiring.ErrInput},
		"useless motor":      {func(c *wiring.Circuit) { c.Elements[4].Motor.Efficiency = 5e-324 }, wiring.Conditions{}, "Motor.Efficiency", wiring.ErrInput},
		"device":             {func(c *wiring.Circuit) { c.Elements[5].Device.Rating = -5 }, wiring.Conditions{}, "Device.Rating", wiring.ErrInput},
		"alternator":         {func(c *wiring.Circuit) { c.Elements[6].Alternator.Limit = units.Current(nan) }, wiring.Conditions{}, "Alternator.Limit", wiring.ErrInput},
		"hot copper":         {func(*wiring.Circuit) {}, wiring.Conditions{Copper: units.Celsius(400)}, "Copper", wiring.ErrInput},
		"unknown open":       {func(*wiring.Circuit) {}, wiring.Conditions{Open: []string{"bilge"}}, "Open[0]", wiring.ErrUnknown},
		"standing no motor":  {func(*wiring.Circuit) {}, wiring.Conditions{Standing: []string{"out"}}, "Standing[0]", wiring.ErrUnknown},
		"more than there is": {func(c *wiring.Circuit) { *c.Elements[3].Load = wiring.Load{Power: 50000} }, wiring.Conditions{}, "Load.Power", wiring.ErrCollapse},
	} {
		c := wiring.Circuit{Elements: []wiring.Element{
			{Name: "bank", From: "-", To: "+", Battery: battery()},
			{Name: "out", From: "+", To: "a", Cable: cable()},
			{Name: "lug", From: "a", To: "b", Contact: &wiring.Contact{Role: wiring.Lug, Resistance: 1e-4}},
			{Name: "lamp", From: "b", To: "-", Load: &wiring.Load{Current: 2}},
			{Name: "windlass", From: "b", To: "-", Motor: motor()},
			{Name: "fuse", From: "b", To: "c", Device: &wiring.Device{Kind: wiring.Fuse, Rating: 10, Resistance: 1e-3}},
			{Name: "alternator", From: "-", To: "+", Alternator: &wiring.Alternator{Voltage: 14, Limit: 60, Resistance: 0.01}},
		}}
		if _, err := wiring.Solve(c, wiring.Conditions{}); err != nil {
			t.Fatal(err)
		}
		k.change(&c)
		_, err := wiring.Solve(c, k.at)
		refused(t, name, err, k.err, k.field)
	}
}

// refused checks the kind of an error and the field it names.
func refused(t *testing.T, name string, err, kind error, field string) {
	t.Helper()
	var e *wiring.Error
	if !errors.Is(err, kind) || !errors.As(err, &e) {
		t.Errorf("%s: error %v, want %v", name, err, kind)
		return
	}
	if !strings.Contains(e.Field, field) || e.Want == "" {
		t.Errorf("%s: %v does not name %s and what would be accepted", name, err, field)
	}
}

func TestCableCalculationsRefuse(t *testing.T) {
	c := wiring.Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3, Insulation: units.Celsius(85)}
	with := func(change func(*wiring.Conductor)) wiring.Conductor {
		x := c
		change(&x)
		return x
	}
	room := units.Celsius(30)
	for name, k := range map[string]struct {
		call  func() error
		kind  error
		field string
	}{
		"class":       {func() error { _, err := wiring.Metric(6, wiring.Plain); return err }, wiring.ErrInput, "class"},
		"finish":      {func() error { _, err := wiring.Metric(wiring.Flexible, "gold"); return err }, wiring.ErrInput, "finish"},
		"AWG finish":  {func() error { _, err := wiring.AWG(""); return err }, wiring.ErrInput, "finish"},
		"SAE finish":  {func() error { _, err := wiring.SAE(""); return err }, wiring.ErrInput, "finish"},
		"gauge":       {func() error { _, err := wiring.GaugeArea("5/0"); return err }, wiring.ErrUnknown, "gauge"},
		"gauge -1":    {func() error { _, err := wiring.GaugeArea("-1"); return err }, wiring.ErrUnknown, "gauge"},
		"stock":       {func() error { _, err := wiring.NewStock([]wiring.Conductor{{}}); return err }, wiring.ErrInput, "conductors[0].Area"},
		"size":        {func() error { _, err := wiring.Stock{c}.Find("36 mm²"); return err }, wiring.ErrUnknown, "size"},
		"cold copper": {func() error { _, err := wiring.CopperFactor(units.Celsius(-100)); return err }, wiring.ErrInput, "t"},
		"annex":       {func() error { _, err := wiring.TemperatureCorrection(units.Celsius(101)); return err }, wiring.ErrInput, "t"},
		"rules":       {func() error { _, err := wiring.Ampacity("club rules", c, wiring.Installation{}); return err }, wiring.ErrUnknown, "rules"},
		"no insulation": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, with(func(x *wiring.Conductor) { x.Insulation = 0 }), wiring.Installation{})
			return err
		}, wiring.ErrInput, "Insulation"},
		"cool insulation": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, with(func(x *wiring.Conductor) { x.Insulation = units.Celsius(50) }), wiring.Installation{})
			return err
		}, wiring.ErrRange, "Insulation"},
		"too thin": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, with(func(x *wiring.Conductor) { x.Area = 0.5e-6 }), wiring.Installation{})
			return err
		}, wiring.ErrRange, "Area"},
		"too thick": {func() error {
			_, err := wiring.Ampacity(wiring.CFR, with(func(x *wiring.Conductor) { x.Area = 150e-6 }), wiring.Installation{})
			return err
		}, wiring.ErrRange, "Area"},
		"60 °C engine": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, with(func(x *wiring.Conductor) { x.Insulation = units.Celsius(60) }), wiring.Installation{EngineSpace: true})
			return err
		}, wiring.ErrRange, "Insulation"},
		"hot engine": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, c, wiring.Installation{EngineSpace: true, Ambient: units.Celsius(60)})
			return err
		}, wiring.ErrRange, "Ambient"},
		"no factor": {func() error {
			_, err := wiring.Ampacity(wiring.IEC60092, c, wiring.Installation{EngineSpace: true})
			return err
		}, wiring.ErrRange, "EngineSpace"},
		"hot air": {func() error {
			_, err := wiring.Ampacity(wiring.ISO, c, wiring.Installation{Ambient: units.Celsius(90)})
			return err
		}, wiring.ErrInput, "Actual"},
		"bundle": {func() error {
			_, err := wiring.Ampacity(wiring.IEC60092, c, wiring.Installation{Bundled: 38})
			return err
		}, wiring.ErrRange, "Bundled"},
		"bundle -1": {func() error {
			_, err := wiring.Ampacity(wiring.IEC60092, c, wiring.Installation{Bundled: -1})
			return err
		}, wiring.ErrInput, "Bundled"},
		"run":            {func() error { _, err := wiring.Drop(c, -1, 10, room); return err }, wiring.ErrInput, "run"},
		"current":        {func() error { _, err := wiring.MetricDrop(units.Current(nan), 1, 1e-6); return err }, wiring.ErrInput, "current"},
		"area":           {func() error { _, err := wiring.CircularMilDrop(1, 1, 0); return err }, wiring.ErrInput, "area"},
		"no run":         {func() error { _, err := wiring.CompareDrop(c, 0, 10, room); return err }, wiring.ErrInput, "run"},
		"steady ambient": {func() error { _, err := wiring.SteadyCurrent(c, units.Celsius(85)); return err }, wiring.ErrInput, "Insulation"},
		"burning":        {func() error { _, err := wiring.SteadyTemperature(c, room, 2000); return err }, wiring.ErrRange, "current"},
		"diameter": {func() error {
			_, err := wiring.SteadyCurrent(with(func(x *wiring.Conductor) { x.Diameter = 1e-3 }), room)
			return err
		}, wiring.ErrInput, "Diameter"},
		"start cold": {func() error { _, err := wiring.TemperatureAfter(c, room, units.Celsius(20)); return err }, wiring.ErrInput, "start"},
		"spell": {func() error {
			_, err := wiring.TemperatureAfter(c, room, room, wiring.Spell{Current: -1, For: 1})
			return err
		}, wiring.ErrInput, "spells[0].Current"},
		"spell inf": {func() error {
			_, err := wiring.TemperatureAfter(c, room, room, wiring.Spell{Current: 1, For: units.Time(inf)})
			return err
		}, wiring.ErrInput, "spells[0].For"},
		"burning spell": {func() error {
			_, err := wiring.TemperatureAfter(c, room, room, wiring.Spell{Current: 5000, For: 60})
			return err
		}, wiring.ErrRange, "spells[0].Current"},
		"start hot":  {func() error { _, err := wiring.CarriedFor(c, room, units.Celsius(90), 60); return err }, wiring.ErrInput, "Insulation"},
		"no time":    {func() error { _, err := wiring.CarriedFor(c, room, room, 0); return err }, wiring.ErrInput, "duration"},
		"no spells":  {func() error { _, err := wiring.EquivalentCurrent(); return err }, wiring.ErrInput, "spells"},
		"surface":    {func() error { _, err := wiring.SurfaceLoss(0.01, 1, 290, 300, 0.9); return err }, wiring.ErrInput, "surface"},
		"emissivity": {func() error { _, err := wiring.SurfaceLoss(0.01, 1, 310, 300, 1.1); return err }, wiring.ErrInput, "emissivity"},
		"exponent": {func() error {
			_, err := wiring.PeukertExponent(wiring.Spell{Current: 5, For: 3600}, wiring.Spell{Current: 10, For: 7200})
			return err
		}, wiring.ErrInput, "b.Current"},
		"capacity": {func() error { _, err := wiring.Battery{}.RunTime(5); return err }, wiring.ErrInput, "Capacity"},
		"peukert":  {func() error { _, err := wiring.Battery{Capacity: 3600, Peukert: 0.9}.RunTime(5); return err }, wiring.ErrInput, "Peukert"},
		"step":     {func() error { _, err := wiring.ResistanceFromStep(12, 13, 5); return err }, wiring.ErrInput, "before"},
		"cranking": {func() error { _, err := wiring.ResistanceFromCranking(0, 5); return err }, wiring.ErrInput, "cells"},
	} {
		refused(t, name, k.call(), k.kind, k.field)
	}
}

// A circuit and its solution survive JSON, with units in it.
func TestJSON(t *testing.T) {
	c, err := windlassCircuit()
	if err != nil {
		t.Fatal(err)
	}
	st, err := wiring.Solve(c, wiring.Conditions{Copper: units.Celsius(60), Standing: []string{"windlass"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range []struct{ in, out any }{{&c, new(wiring.Circuit)}, {&st, new(wiring.Solution)}} {
		text, err := json.Marshal(v.in)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, v.out); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(v.in, v.out); d != "" {
			t.Error(d)
		}
		if !strings.Contains(string(text), " Ω") {
			t.Errorf("no unit in %s", text)
		}
	}
}

func TestPhasesRefuse(t *testing.T) {
	c := twoBanks()
	phase := func(p wiring.Phase) []wiring.Phase { return []wiring.Phase{{}, p} }
	for name, k := range map[string]struct {
		phase wiring.Phase
		field string
		kind  error
	}{
		"negative": {wiring.Phase{For: -1}, "phases[1].For", wiring.ErrInput},
		"NaN":      {wiring.Phase{For: units.Time(nan)}, "phases[1].For", wiring.ErrInput},
		"endless":  {wiring.Phase{For: units.Time(inf)}, "phases[1].For", wiring.ErrInput},
		"unknown":  {wiring.Phase{For: 1, At: wiring.Conditions{Open: []string{"kettle"}}}, "Open[0]", wiring.ErrUnknown},
	} {
		_, err := wiring.CheckDisconnects(c, phase(k.phase))
		refused(t, name+", disconnects", err, k.kind, k.field)
		_, err = wiring.Withdraw(c, phase(k.phase))
		refused(t, name+", retrieval", err, k.kind, k.field)
	}
	c.Elements[0].Battery.Capacity = 0
	_, err := wiring.Withdraw(c, nil)
	refused(t, "no capacity", err, wiring.ErrInput, "Elements[0] (lithium).Battery.Capacity")
	_, err = wiring.CheckDisconnects(wiring.Circuit{}, nil)
	refused(t, "empty", err, wiring.ErrInput, "Elements")
}

// What Motor and DropTo are asked.
func TestQuestionsRefuse(t *testing.T) {
	c := twoBanks()
	st, err := wiring.Solve(c, wiring.Conditions{Open: []string{"plotter"}})
	if err != nil {
		t.Fatal(err)
	}
	_, err = st.DropTo("kettle")
	refused(t, "drop to nothing", err, wiring.ErrUnknown, "load")
	_, err = st.DropTo("plotter")
	refused(t, "drop to what is off", err, wiring.ErrInput, "load")
	_, err = st.Branch("kettle")
	refused(t, "branch", err, wiring.ErrUnknown, "name")
	_, err = c.Element("kettle")
	refused(t, "element", err, wiring.ErrUnknown, "name")
	_, _, err = c.Elements[2].Motor.Running(units.Voltage(nan))
	refused(t, "motor at NaN", err, wiring.ErrInput, "at")
	_, err = wiring.Motor{}.StallCurrent(12)
	refused(t, "no motor", err, wiring.ErrInput, "motor.Type")
}
