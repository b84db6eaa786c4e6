package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the expected output")

// planned is a boat file's plan and its report.
type planned struct {
	*plan
	*report
}

func planOf(t *testing.T, file string) planned {
	t.Helper()
	p, err := read([]byte(file))
	if err != nil {
		t.Fatal(err)
	}
	r, err := p.report()
	if err != nil {
		t.Fatal(err)
	}
	return planned{p, r}
}

// demo is the plan of a demo boat, made once: laying Dunlin's cloth takes seconds.
func demo(t *testing.T, boat string) planned {
	t.Helper()
	if _, made := demos[boat]; !made {
		_, file, err := source("", boat)
		if boat == "curlew" { // who thinks in feet; no demo, but a test
			file, err = os.ReadFile("testdata/curlew.json")
		}
		if err != nil {
			t.Fatal(err)
		}
		demos[boat] = planOf(t, string(file))
	}
	return demos[boat]
}

var demos = map[string]planned{}

// noRolls is Dunlin's file for tests that do not look at how the cloth is laid.
var noRolls = change(string(dunlin), `
    "rolls": [
      {"name": "roll", "width": "1.53 m", "selvedge": "10 mm", "step": "0.1 m"},
      {"name": "offcut of the sail cover", "width": "0.82 m", "length": "1.1 m", "selvedge": "10 mm"}
    ],`, "")

// change replaces texts of a file, all of which have to be there.
func change(file string, pairs ...string) string {
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(file, pairs[i]) {
			panic(pairs[i] + " is not in the file")
		}
		file = strings.Replace(file, pairs[i], pairs[i+1], 1)
	}
	return file
}

func TestDemoBoats(t *testing.T) {
	for _, boat := range []string{"dunlin", "plover", "curlew"} {
		d := demo(t, boat)
		for file, got := range map[string]string{boat + ".txt": d.text(), boat + "-summary.txt": d.summary()} {
			golden := filepath.Join("testdata", file)
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s (-want +got):\n%s", file, diff)
			}
			lines := strings.Split(got, "\n")
			for i, line := range lines {
				if n := len([]rune(line)); n > columns {
					t.Errorf("%s: line %d is %d columns wide", file, i+1, n)
				}
			}
			if n := len(lines); strings.HasSuffix(file, "-summary.txt") && n > 98 {
				t.Errorf("%s: %d lines do not fit two screens", file, n)
			}
		}
	}
}

// Every mistake in a boat file gives exit status 2, one line that names the
// field, and writes nothing.
func TestMistakes(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"waterline": "9.1 m"`, `"waterline": "9.1"`, `boat.waterline: found "9.1" (the unit is missing: write for example 9.1 m or 9.1 ft); accepted: a length`},
		{`"waterline": "9.1 m"`, `"waterline": 9.1`, `boat.waterline: found 9.1; accepted: text in quotes, such as "9.1 m"`},
		{`"waterline": "9.1 m"`, `"waterline": "9.1 kg"`, `boat.waterline: found "9.1 kg" ("kg" is a unit of mass); accepted: a length in m, `},
		{`"waterline": "9.1 m"`, `"waterline": "91 m"`, `boat.waterline: found 91.00 m; accepted: 5.20 m to 10.4 m`},
		{`"waterline": "9.1 m"`, `"waterlin": "9.1 m"`, `boat.waterlin: found a field that is not known; accepted: hulls, length, waterline,`},
		{`"waterline": "9.1 m",`, ``, `boat.waterline: found nothing; accepted: the field is needed`},
		{`"waterline": "9.1 m",`, `"waterline": "9.1 m", "waterline": "9 m",`, `boat.waterline: found the field twice; accepted: once`},
		{`"thread": "90 tex"`, `"thread": 90`, `canvas.thread: found 90; accepted: text in quotes, such as "90 tex"`},
		{`"thread": "90 tex"`, `"thread": "90"`, `canvas.thread: found "90" (the unit is missing); accepted: a linear density, such as "90 tex"`},
		{`"worn": "7.7 mm"`, `"worn": 7.7`, `rode.pieces[0].worn: found 7.7; accepted: text in quotes, such as "7.7 mm"`},
		{`"ease": "12 mm"`, `"ease": 12`, `canvas.gasBottle.ease: found 12; accepted: text in quotes, such as "12 mm"`},
		{`"metalHull": true`, `"metalHull": true, "carries": 200`, `electrics.carries: found 200; accepted: text in quotes, such as "1 A"`},
		{`"hulls": 1`, `"hulls": 1.5`, `boat.hulls: found 1.5; accepted: a whole number`},
		{`"hulls": 1`, `"hulls": 3`, `boat.hulls: found 3; accepted: 1 to 2`},
		{`"hulls": 1`, `"hulls": null`, `boat.hulls: found null; accepted: a whole number`},
		{`"name": "Dunlin"`, `"name": ""`, `name: found ""; accepted: a name`},
		{`"name": "Dunlin"`, `"name": 7`, `name: found 7; accepted: text in quotes`},
		{`"boat": {`, `"boat": [{`, `line `},
		{`"lowWater": ["4 m",`, `"lowWater": ["2 m",`, `place.lowWater[0]: found 2.00 m, which leaves 250 mm under the keel at low water; accepted: at least 2.25 m`},
		{`"lowWater": ["4 m",`, `"lowWater": ["-4 m",`, `place.lowWater[0]: found -4.000 m; accepted: 500 mm to 60.0 m`},
		{`"lowWater": ["4 m", "6 m", "8 m", "10 m", "12 m"]`, `"lowWater": []`, `place.lowWater: found an empty list; accepted: at least one entry`},
		{`"lowWater": ["4 m", "6 m", "8 m", "10 m", "12 m"]`, `"lowWater": "4 m"`, `place.lowWater: found "4 m"; accepted: a list in [ ]`},
		{`"anchorIn": "6 m"`, `"anchorIn": "7 m"`, `place.anchorIn: found 7.00 m; accepted: one of the depths in place.lowWater`},
		{`"chain": "DIN 766 8 mm G30"`, `"chain": "DIN 766 9 mm G30"`, `rode.pieces[0].chain: found "DIN 766 9 mm G30"; accepted: DIN 766 6 mm G30, `},
		{`"chain": "DIN 766 8 mm G30"`, `"chain": "ASTM A413 5/16 in G70"`, `rode.pieces[0].chain: found "ASTM A413 5/16 in G70", whose mass no source gives`},
		{`"chain": "DIN 766 8 mm G30", `, ``, `rode.pieces[0].chain: found chain and rope, or neither; accepted: one of the two`},
		{`"worn": "7.7 mm"`, `"worn": "9 mm"`, `rode.pieces[0].worn: found 9.00 mm; accepted: more than 0 mm, up to the 8.00 mm of new chain`},
		{`"rope": "polyamide eight-strand 14 mm"`, `"rope": "string"`, `rode.pieces[1].rope: found "string"; accepted: fibre, construction and size`},
		{`"strengthLeft": 0.8`, `"strengthLeft": 80`, `rode.pieces[1].strengthLeft: found 80; accepted: 0 to 1`},
		{`"length": "40 m"`, `"length": "-40 m"`, `rode.pieces[0].length: found -40.00 m; accepted: 100 mm to 500 m`},
		{`"length": "40 m"`, `"length": "4e400 m"`, `rode.pieces[0].length: found "4e400 m" (`},
		{`{"wind": "25 kn"}`, `{"wind": "10 kn"}`, `winds[1].wind: found 10 kn; accepted: 15 kn to 120 kn`},
		{`{"wind": "25 kn"}`, `{"wind": "25 kn", "pull": "-1 N"}`, `winds[1].pull: found -1.000 N; accepted: 0.00 N to 200 kN`},
		{`"rig": "cutter"`, `"rig": "junk"`, `boat.rig: found "junk"; accepted: sloop, cutter, ketch, motor`},
		{`"from": "2030-05-17T20:00:00Z"`, `"from": 20`, `night.from: found 20; accepted: text in quotes, such as "2030-05-17T20:00:00Z"`},
		{`"from": "2030-05-17T20:00:00Z"`, `"from": "20:00"`, `night.from: found "20:00"; accepted: a time such as "2030-05-17T20:00:00Z"`},
		{`"length": "20 m",
    "inner"`, `"length": "20 m",
    "spread": "2 m",
    "inner"`, `snubber.spread: found 2.00 m with legs: 1; accepted: a spread for two legs, none for one`},
		{`"chemistry": "AGM lead-acid"`, `"chemistry": "potato"`, `electrics: Battery.Chemistry: found "potato" (value not accepted); accepted: AGM lead-acid, flooded lead-acid, `},
		{`"bed": "firm sand"`, `"bed": "sand"`, `place.bed: found "sand"; accepted: "stiff, dense clay", "firm sand", `},
		{`"bearing": "70°"`, `"bearing": "700°"`, `night.shoals[0].bearing: found 700.0°; accepted: 0.00° to 360°`},
		{`"down": "8 m"`, `"down": "80 m"`, `rode.kellet: down: found 80 m (value not accepted); accepted: from 0 m to 57 m`},
		{`"system": "12 V"`, `"system": "13 V"`, `electrics.system: found 13.0 V; accepted: 12, 24, 32 or 48 V`},
		{`"cells": 6`, `"cells": 5`, `electrics.cells: found 5, which make 10.0 V; accepted: as many in series as make 12.0 V`},
		{`"radius": "60 mm"`, `"radius": "300 mm"`, `canvas.deckBox.radius: found 0.3 m; accepted: less than half the width`},
		{`"clearance": "40 mm"`, `"clearance": "0 mm"`, `canvas.gasBottle.clearance: found 0 m; accepted: 10 mm or more between the foot and the open lower edge`},
		{`"girth": "945 mm"`, `"girth": "94.5 mm"`, `canvas.gasBottle.girth: found 94.50 mm; accepted: 300 mm to 2.00 m`},
		{`"valve": "120 mm"`, `"valve": "290 mm"`, `canvas.gasBottle.valve: found 0.29 m; accepted: at most nine tenths of the diameter of 312 mm`},
		{`"lean": "65°"`, `"lean": "5°"`, `canvas.awning.stay.lean: found 5°; accepted: from 10° to 90°`},
		{`"width": "1.53 m", "selvedge"`, `"width": "0.3 m", "selvedge"`, `canvas.awning: found 2.15 m across the roll`},
		{`"valve": "120 mm"`, `"valve": "20 mm"`, `canvas.gasBottle.valve: found 0.02 m; accepted: `},
		{`"thread": "90 tex"`, `"thread": "900 tex"`, `canvas.thread: found `},
		{`"hollow": 0.08`, `"hollow": 0`, `canvas.awning.corners[0].hollow: found 0; accepted: from 0.02 to 0.25`},
		{`"fixing": "2 kN"`, `"fixing": "0 kN"`, `canvas.awning.corners[2].fixing: found 0 N; accepted: from 1 N`},
		{`"flutter": 1.5`, `"flutter": 0.5`, `canvas.awning.flutter: found 0.5; accepted: from 1 to 5`},
		{`"sag": "45 mm"`, `"sag": "300 mm"`, `canvas.awning.sag: found 0.3 m; accepted: at most the `},
		{`"pitch": "15°"`, `"pitch": "45°"`, `canvas.awning.pitch: found `},
		{`"overlap": "80 mm", "edge": "fore"`, `"overlap": "80 mm", "edge": "bow"`, `canvas.awning.stay.edge: found "bow"; accepted: an edge of the panel`},
		{`"y": "2.1 m"`, `"y": "-2.1 m"`, `canvas.awning.corners: found `},
		{`"lean": "65°"`, `"lean": "0°"`, `canvas.awning.stay.lean: found `},
		{`"up": "220 mm"`, `"up": "900 mm"`, `canvas.deckBox.latch: found a hole across the edge`},
		{`"warp": -0.01`, `"warp": -1`, `canvas.warp: found -1; accepted: -0.1 to 0.1`},
		{`"width": "1.53 m"`, `"width": "15.3 m"`, `canvas.rolls[0].width: found 15.30 m; accepted: 300 mm to 5.00 m`},
		{`"width": "1.53 m"`, `"width": "0.3 m"`, `canvas`},
		{`"name": "roll"`, `"name": ""`, `canvas.rolls[0].name: found ""; accepted: a name`},
		{`"breaker": "110 A"`, `"breaker": "90 A"`, `electrics.breaker: found 90.0 A; accepted: at least the 100 A that the motor draws`},
		{`"sheathed": false`, `"sheathed": "no"`, `electrics.sheathed: found "no"; accepted: true or false`},
		{`"system": "12 V"`, `"system": "12"`, `electrics.system: found "12" (the unit is missing`},
		{`"wind": "25 kn"`, `"wind": "25 kN"`, `winds[1].wind: found "25 kN" (`},
		{`"friction": 0.7`, `"friction": "0.7"`, `place.friction: found "0.7"; accepted: a number`},
		{`"slope": "0°"`, `"slope": "40°"`, `place.slope: found 40.00°; accepted: -15.0° to 15.0°`},
		{`"mass": "12 kg"`, `"mass": "12 lbf"`, `rode.kellet.mass: found "12 lbf" (`},
		{`"working": "9.8 kN", "breaking": "58.8 kN"`, `"working": "98 kN", "breaking": "58.8 kN"`, `rode.connectors[0].breaking: found 58.80 kN; accepted: 98.0 kN to `},
	} {
		file := noRolls
		if !strings.Contains(file, c.old) { // a mistake in a roll
			file = string(dunlin)
		}
		file = change(file, c.old, c.new)
		dir := t.TempDir()
		name := filepath.Join(dir, "boat.json")
		if err := os.WriteFile(name, []byte(file), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		report := filepath.Join(dir, "report")
		code := run([]string{"-boat", name, "-out", report}, &out, &errs)
		if want := "fitout: " + name + ": " + c.want; code != 2 || !strings.HasPrefix(errs.String(), want) || strings.Count(errs.String(), "\n") != 1 {
			t.Errorf("%s: exit status %d, %q\nwant 2, %q", c.new, code, &errs, want)
		}
		if _, err := os.Stat(report); out.Len() > 0 || !os.IsNotExist(err) {
			t.Errorf("%s: wrote something", c.new)
		}
	}
}

// Each mistake of several has a line.
func TestSeveralMistakes(t *testing.T) {
	for _, c := range []struct {
		old  []string
		want []string
	}{
		{[]string{`"waterline": "9.1 m"`, `"waterline": "9.1 kg"`, `"hulls": 1`, `"hulls": "one"`}, []string{"boat.hulls: found \"one\"", "boat.waterline: found \"9.1 kg\""}},
		{[]string{`"waterline": "9.1 m",`, ``, `"mass": "20 kg",`, ``}, []string{"boat.waterline: found nothing", "anchor.mass: found nothing"}},
		{[]string{`"waterline": "9.1 m"`, `"waterline": "91 m"`, `"hulls": 1`, `"hulls": 3`, `"wind": "25 kn"`, `"wind": "10 kn"`}, []string{"boat.hulls: found 3", "boat.waterline: found 91.00 m", "winds[1].wind: found 10 kn"}},
		{[]string{`"lowWater": ["4 m", "6 m"`, `"lowWater": ["4", 6`}, []string{"place.lowWater[0]: found \"4\"", "place.lowWater[1]: found 6"}},
		{[]string{`"locker": {`, `"locker": {"_why": 1, "_why": "both notes",`}, []string{"locker._why: found 1; accepted: text in quotes: names that begin with _ are notes"}},
		{[]string{"{", "\xff\xfe{"}, []string{"the file: found text in UTF-16; accepted: UTF-8: save it so"}},
		{[]string{`  "limits": {`, `  "prices": {"currency": "€", "items": [{"of": "gold", "low": 1, "high": 2}]}, "limits": {`}, []string{`prices.items[0].of: found "gold"; accepted: an item of the shopping list, or its kind: `}},
		{[]string{`  "limits": {`, `  "prices": {"currency": "", "items": [{"of": "rope", "low": 3, "high": 2}]}, "limits": {`}, []string{`prices.currency: found ""`, `prices.items[0].high: found 2; accepted: 3 to `}},
		{[]string{`"step": "1 m"`, `"step": "1 m", "ropeLeast": "14 mm", "ropeMost": "12 mm"`}, []string{`windlass.ropeMost: found 12.00 mm; accepted: 14.0 mm to `}},
		{[]string{`"rated": "2.3 kN"`, `"rated": "2.3 kN", "most": "2 kN", "roller": 1.2`}, []string{`windlass.roller: found 1.2; accepted: 0.2 to 1`, `windlass.most: found 2.000 kN; accepted: 2.30 kN to `}},
		{[]string{`"propeller": "17 in"`, `"propeller": "17 in", "windage": 10`, `"friction": 0.7`, `"friction": 0.7, "gust": 0.5`}, []string{`boat.windage: found 10; accepted: 0.3 to 3`, `place.gust: found 0.5; accepted: 1 to 2.5`}},
		{[]string{`"metalHull": true`, `"metalHull": true, "copper": "150 °C", "lug": "1 Ω"`}, []string{`electrics.copper: found `, `electrics.lug: found `}},
	} {
		file := change(noRolls, c.old...)
		name := filepath.Join(t.TempDir(), "boat.json")
		if err := os.WriteFile(name, []byte(file), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		code := run([]string{"-boat", name}, &out, &errs)
		lines := strings.Split(strings.TrimSuffix(errs.String(), "\n"), "\n")
		if code != 2 || out.Len() > 0 || len(lines) != len(c.want) {
			t.Errorf("%q: exit status %d, %q, want %d lines", c.old, code, &errs, len(c.want))
			continue
		}
		for i, want := range c.want {
			if !strings.HasPrefix(lines[i], "fitout: "+name+": "+want) {
				t.Errorf("%q: %q, want %q", c.old, lines[i], want)
			}
		}
	}
}

// What is not in a file is left out of the plan, which says so; a mark of the
// byte order is no mistake.
func TestLeftOut(t *testing.T) {
	var f map[string]any
	if err := json.Unmarshal(dunlin, &f); err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"windlass", "locker", "marks", "snubber", "electrics", "canvas", "night"} {
		delete(f, part)
	}
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	p, err := read(append([]byte("\ufeff"), data...))
	if err != nil {
		t.Fatal(err)
	}
	r, err := p.report()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(r.text()), " ")
	for _, want := range []string{"no windlass", "no locker", "no marks", "no snubber", "no electrics", "no canvas", "no night", "Nothing to buy"} {
		if !strings.Contains(text, want) {
			t.Errorf("the plan does not say %q", want)
		}
	}
	if files, err := p.files(r); err != nil || files["marks.txt"] != nil || files["rode.svg"] == nil {
		t.Errorf("files: %v", err)
	}
}

// Prices are added up, that of an item before that of its kind, and what two
// sections want of one thing is one line.
func TestShopping(t *testing.T) {
	p := planOf(t, change(noRolls, `  "limits": {`, `  "prices": {"currency": "crowns", "items": [
		{"of": "rope", "low": 1, "high": 2}, {"of": "polyester three-strand 8 mm", "low": 3, "high": 3}]}, "limits": {`))
	list, err := p.articles(p.Sections)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]article{}
	for _, a := range list {
		if _, twice := seen[a.what]; twice {
			t.Errorf("%s is on the list twice", a.what)
		}
		seen[a.what] = a
		if over := a.buy - a.need; over < -1e-9 || over >= a.step {
			t.Errorf("%s: buy %v for a need of %v, sold by %v", a.what, a.buy, a.need, a.step)
		}
	}
	cord, leg := seen["polyester three-strand 8 mm"], seen["polyamide eight-strand 10 mm"]
	if len(cord.why) != 2 || cord.buy != 12 || cord.priced.Low != 3 || leg.priced.Low != 1 {
		t.Errorf("cord %+v\nleg %+v", cord, leg)
	}
	// 12 m at 3; 23 m and 2.5 m of draw cord at 1 to 2.
	if text := strings.Join(strings.Fields(p.text()), " "); !strings.Contains(text, ": 62 to 87 crowns, and ") {
		t.Errorf("no sum of prices in %s", text[:3000])
	}
}

// Each doubt is about something: its range holds what is planned, and of the
// answers of a plan that has everything only those that cannot move do not.
func TestDoubts(t *testing.T) {
	p := planOf(t, noRolls)
	moved := 0
	for _, d := range doubtsOf(p.boat, p.in) {
		if !(d.low <= d.planned+1e-9 && d.planned <= d.high+1e-9 && d.low < d.high) {
			t.Errorf("%s: %v planned, %v to %v", d.name, d.planned, d.low, d.high)
		}
		q, err := p.with(d, d.planned)
		if err != nil {
			t.Fatal(d.name, err)
		}
		// as planned, nothing moves
		for _, a := range q.answers() {
			for _, b := range p.answers() {
				if a.name == b.name && (math.Abs(a.value-b.value) > 1e-6*math.Abs(b.value) || a.words != b.words) {
					t.Errorf("%s as planned: %+v, was %+v", d.name, a, b)
				}
			}
		}
		if e := p.try(d); e.moved > 0.005 {
			moved++
		}
	}
	if moved < 10 {
		t.Errorf("%d doubts move something", moved)
	}
}

func TestCommandLine(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"-demo", "heron"}, 2, "fitout: -demo heron: accepted: dunlin, plover"},
		{[]string{"-boat", "no-such-file.json"}, 2, "fitout: open no-such-file.json: "},
		{[]string{"boat.json"}, 2, `fitout: "boat.json" is not understood: boat files are given with -boat`},
		{[]string{"-bout", "x"}, 2, "flag provided but not defined: -bout"},
		{[]string{"-h"}, 0, "Usage of fitout:"},
		{[]string{"-out", "main.go"}, 1, "fitout: -out main.go: is not a folder"},
		{[]string{"-demo", "plover", "-out", "testdata"}, 1, "fitout: -out testdata: holds curlew"},
		{[]string{"-new", "main.go"}, 1, "fitout: open main.go: "},
		{[]string{"-new", "no/such/folder.json"}, 1, "fitout: open no/such/folder.json: "},
	} {
		var out, errs bytes.Buffer
		if code := run(c.args, &out, &errs); code != c.code || !strings.HasPrefix(errs.String(), c.want) {
			t.Errorf("%q: exit status %d, %q; want %d, %q", c.args, code, &errs, c.code, c.want)
		}
		if out.Len() > 0 {
			t.Errorf("%q: printed %q", c.args, &out)
		}
	}
}

// What is printed is the report, and a word on what else there is.
func TestPrint(t *testing.T) {
	d := demo(t, "plover")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-demo", "plover", "-full"}, d.text()},
		{[]string{"-demo", "plover"}, d.summary() + "\nThe reasons and the order of work: -full. As a page with pictures: -out DIR.\n"},
	} {
		var out, errs bytes.Buffer
		if code := run(c.args, &out, &errs); code != 0 || errs.Len() > 0 || out.String() != c.want {
			t.Errorf("%q: exit status %d, %s\n%s", c.args, code, &errs, cmp.Diff(c.want, out.String()))
		}
	}
}

// A folder may be written to again, but no file of another plan or of the crew
// is left among those of the new one.
func TestFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plan")
	args := []string{"-demo", "plover", "-out", dir}
	var out, errs bytes.Buffer
	for range 2 {
		if code := run(args, &out, &errs); code != 0 {
			t.Fatal(code, &errs)
		}
	}
	other := filepath.Join(dir, "awning.pdf")
	if err := os.WriteFile(other, []byte("another boat's"), 0o644); err != nil {
		t.Fatal(err)
	}
	out.Reset()
	if code, want := run(args, &out, &errs), "fitout: -out "+dir+": holds awning.pdf, which is not of this plan: "; code != 1 || !strings.HasPrefix(errs.String(), want) || out.Len() > 0 {
		t.Errorf("exit status %d, %s", code, &errs)
	}
	if data, err := os.ReadFile(other); err != nil || string(data) != "another boat's" {
		t.Error(string(data), err)
	}
}

func TestFiles(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "folder")
	var out, errs bytes.Buffer
	if code := run([]string{"-out", dir}, &out, &errs); code != 0 {
		t.Fatal(code, &errs)
	}
	for file, want := range map[string]string{
		"rode.svg": "<svg", "marks.txt": "tie + tie", "plan.txt": "Order of work", "index.html": "Sallow Sound", "awning.svg": "kN", "pieces.svg": "gore", "awning-offsets.csv": ",0,", "roll-1.svg": "<svg", "roll-2.svg": "<svg",
		"deck-box.pdf": "%PDF", "gas-bottle.pdf": "%PDF", "awning.pdf": "%PDF",
	} {
		data, err := os.ReadFile(filepath.Join(dir, file))
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%s: %v, want %q in it", file, err, want)
		}
	}
}

// What one wind or depth cannot have does not keep the others from being drawn: a
// kellet farther down than the rode is out, and a rode that does not reach the bed.
func TestFilesOfOddPlans(t *testing.T) {
	deep := strings.NewReplacer(`["3 m", "5 m", "7 m", "9 m"]`, `["60 m"]`, `"anchorIn": "5 m"`, `"anchorIn": "60 m"`, `"length": "70 m"`, `"length": "60 m"`)
	for name, file := range map[string]string{
		"kellet 50 m down": change(noRolls, `"down": "8 m"`, `"down": "50 m"`),
		"60 m deep":        deep.Replace(string(plover)),
	} {
		p := planOf(t, file)
		if _, err := p.files(p.report); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// lines sees that each mistake has a line.
func lines(t *testing.T, err error) {
	if all, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range all.Unwrap() {
			lines(t, e)
		}
	} else if err != nil && strings.Contains(err.Error(), "\n") {
		t.Errorf("more than one line: %q", err)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(dunlin)
	f.Add(plover)
	f.Add([]byte(`{"name": "x", "boat": {"hulls": 1e9}}`))
	f.Add([]byte(`{"rode": {"kellet": null}}`))
	f.Add([]byte(`{"two\nlines": 1}`))
	f.Add(bytes.ReplaceAll(plover, []byte("9.4 t"), []byte("9.4 g"))) // one mistake
	f.Add(bytes.ReplaceAll(plover, []byte("9"), []byte("0")))         // several
	f.Fuzz(func(t *testing.T, data []byte) {
		var b boatFile
		err := decode(data, &b)
		if err == nil {
			err = b.check()
		}
		lines(t, err)
	})
}
