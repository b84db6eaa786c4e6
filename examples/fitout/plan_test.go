package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// anchored is Dunlin's file without canvas and electrics.
var anchored = without("canvas", "electrics")

// without is Dunlin's file without some of its parts.
func without(parts ...string) string {
	var f map[string]json.RawMessage
	if err := json.Unmarshal(dunlin, &f); err != nil {
		panic(err)
	}
	for _, part := range parts {
		delete(f, part)
	}
	data, err := json.MarshalIndent(f, "", " ")
	if err != nil {
		panic(err)
	}
	return string(data)
}

// says fails where a report lacks a text, wherever its lines break.
func (p planned) says(t *testing.T, wants ...string) {
	t.Helper()
	text := strings.Join(strings.Fields(p.text()), " ")
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("the plan does not say %q", want)
		}
	}
}

func (p planned) saysNot(t *testing.T, unwanted string) {
	t.Helper()
	if text := strings.Join(strings.Fields(p.text()), " "); strings.Contains(text, unwanted) {
		t.Errorf("the plan says %q", unwanted)
	}
}

// The wind that full astern proves is counted as every other wind of the plan is:
// its own forecast, planned for, pulls as much as the engine.
func TestProved(t *testing.T) {
	for _, windage := range []string{"0.8", "1", "1.35", "2"} {
		p := planOf(t, change(string(plover), `"propeller": "16 in"`, `"propeller": "16 in", "windage": `+windage))
		ahead, err := p.pulls.in(p.hold.proved.Scale(1 / p.pulls.gust))
		if err != nil {
			t.Fatal(err)
		}
		engine := p.hold.proof.Low.Newtons()
		if got := ahead.low.Newtons() * 1.35 * p.pulls.windage; math.Abs(got-engine) > 1e-6*engine {
			t.Errorf("windage %s: from ahead %v N, the engine %v N", windage, got, engine)
		}
		sheered, err := p.pulls.in(p.hold.provedSheered.Scale(1 / p.pulls.gust))
		if err != nil {
			t.Fatal(err)
		}
		if got := sheered.sheered.Newtons() * p.pulls.windage; math.Abs(got-engine) > 1e-6*engine {
			t.Errorf("windage %s: sheered %v N, the engine %v N", windage, got, engine)
		}
	}
}

// There is chain for the hook, the loop behind it and the wheel, and with the
// snubber in it the rode keeps to the limits; or there is no snubber.
func TestSnubberHasChain(t *testing.T) {
	found := 0
	for _, c := range []struct{ file, chain string }{
		{string(dunlin), `"length": "40 m"`}, {string(plover), `"length": "70 m"`},
	} {
		for _, length := range []string{"15 m", "25 m", "38 m", "41 m", "55 m", "80 m"} {
			var f boatFile
			if err := decode([]byte(change(c.file, c.chain, `"length": "`+length+`"`)), &f); err != nil {
				t.Fatal(err)
			}
			f.fill()
			f.Canvas, f.Electrics = nil, nil
			p, err := f.makePlan(metric)
			if err != nil {
				t.Fatal(err)
			}
			n := p.snubber
			if n == nil {
				continue
			}
			found++
			if chain := n.at + n.spec.Slack + inboard; chain > p.links || n.at <= 0 {
				t.Errorf("%s, %s of chain: hook at %v and %v of slack", f.Name, length, n.at, n.spec.Slack)
			}
			rest := &n.rest
			if rest.Anchor.FromBed > f.Limits.AnchorAngle || rest.Scope < f.Limits.LeastScope {
				t.Errorf("%s, %s of chain: %v at the anchor, scope %v", f.Name, length, rest.Anchor.FromBed, rest.Scope)
			}
		}
	}
	if found < 4 || found == 12 {
		t.Errorf("%d of 12 rodes have chain for the snubber", found)
	}
	p := planOf(t, change(anchored, `"length": "40 m"`, `"length": "25 m"`))
	p.says(t, "In no depth and wind of the plan do 25 m of chain reach for the hook, the loop of 23 m behind it")
	p.saysNot(t, "she lies on bare chain")
	p = planOf(t, change(string(plover), `"length": "70 m"`, `"length": "30 m"`))
	p.says(t, "The chain is too short for the snubber or bridle: she lies on bare chain.")
}

// A bridle is judged by one leg, whose strength and whose cleat carry the boat
// that has sheered.
func TestBridleOnOneLeg(t *testing.T) {
	n := demo(t, "plover").snubber
	if n.option.Snubber.Legs != 1 || n.shared.Snubber.Legs != 2 {
		t.Fatal(n.option.Snubber.Legs, n.shared.Snubber.Legs)
	}
	peak := n.option.Peak.Peak.Tension
	if of := peak.Per(n.rope.Breaking); math.Abs(of-n.option.OfBreaking) > 1e-9 || of < 1.5*n.shared.OfBreaking {
		t.Errorf("%v of a leg's strength, reported %v; shared %v", of, n.option.OfBreaking, n.shared.OfBreaking)
	}
	if of := peak.Per(85 * units.Kilonewton); math.Abs(of-n.cleat.OfStrength) > 1e-9 {
		t.Errorf("%v of the cleat, reported %v", of, n.cleat.OfStrength)
	}
}

// All that is overloaded is named, in the steady pull and at the peak, which is
// also set against what the anchor is sure to hold.
func TestOverloads(t *testing.T) {
	demo(t, "dunlin").says(t,
		"In 45 kn more than its working load is carried by: anchor shackle 10 mm 105 % (fit one of 10.3 kN: half of it is left under side load), swivel 105 % (fit one of 10.3 kN:",
		"At the peak of a surge in 25 kn 4.7 kN reach the anchor at 11° above the bed, and only 1.5 kN are sure there")
	demo(t, "plover").says(t, "At the peak of a surge in 45 kn more than its working load is carried by: anchor shackle 12 mm 246 % (fit one of 36.3 kN: half")
	p := planOf(t, change(string(plover), `"working": "14.7 kN"`, `"working": "80 kN"`))
	p.saysNot(t, "more than its working load")
}

// The steps of the first night are those of the night: what is let out for it and
// the low water it has.
func TestFirstNight(t *testing.T) {
	d := demo(t, "dunlin")
	d.says(t, "The night of 17 May has another wind or depth than this: its 43 m count without the snubber.", "Sounder at the lowest water, 00:05 4.9 m")
	d.saysNot(t, "hook the snubber on at")
	demo(t, "plover").says(t, "hook the bridle on at 56 m,")
	d.saysNot(t, "Sounder at low water over")
	p := planOf(t, change(anchored, `"length": "40 m"`, `"length": "80 m"`))
	p.says(t, "its 43 m count without the snubber", "So rigged she lies to 73 m of chain and rope, where the table has 66 m")
	demo(t, "plover").says(t, "Sounder at low water over 5.0 m")
}

// A night for which the rode is too short costs the night's section, not the plan.
func TestNightTooShort(t *testing.T) {
	p := planOf(t, change(anchored, `"length": "40 m"`, `"length": "4 m"`))
	p.says(t, "On the night of 17 May all 54 m of the rode do not do: wanted is more rode for a pull of 1.58 kN. Go shallower, or find shelter.")
	p.saysNot(t, "anchor alarm")
	if files, err := p.files(p.report); err != nil || files["night.svg"] != nil || files["rode.svg"] == nil {
		t.Errorf("files: %v", err)
	}
}

// So does one in which she may ground on the upper side of the bed.
func TestNightAground(t *testing.T) {
	planOf(t, change(anchored, `"shown": "7.4 m"`, `"shown": "4.4 m"`)).says(t, "On the night of 17 May she may ground: the clearance over the ")
	p := planOf(t, change(anchored, `"slope": "0°"`, `"slope": "-5°"`))
	p.says(t, "On the night of 17 May she may ground: the clearance over the upper side of the bed at 2030-05-18 00:05 is -2.46 m, wanted is at least 0.5 m. Go deeper, or to where the bed is more level.")
	p.saysNot(t, "anchor alarm")
	if files, err := p.files(p.report); err != nil || files["night.svg"] != nil || files["rode.svg"] == nil {
		t.Errorf("files %v, error %v", len(files), err)
	}
}

// The list of what to buy has all that the covers are sewn and closed with.
func TestCanvasShopping(t *testing.T) {
	p := planOf(t, noRolls)
	list, err := p.articles(p.Sections)
	if err != nil {
		t.Fatal(err)
	}
	need := map[string]float64{}
	for _, a := range list {
		need[a.what] = a.need
	}
	// The box's top goes round 1.922 m. Bound are the valve's hole of 120 mm, and with
	// both lips of their slits of 0.27 and more than 0.5 m those of the hose, 30 mm, and
	// the stay, 57 mm. Four straps are drawn at least as long as their patches and loops.
	for what, least := range map[string]float64{
		"draw cord for a hem of 25 mm, and 2 eyelets to let it out": 1.922 + 0.3, "binding tape for edges of cloth": math.Pi*(0.12+0.03+0.057) + 2*(0.27+0.5),
		"strap webbing, breaking at 12 kN": 4 * 0.3, "snap or toggle to close a slit": 2 + 4, "buckle that holds 15 kN, where a slit cuts the tape": 1,
		"webbing of 40 mm, breaking at 15 kN": 7, "thread of 90 tex": 50,
	} {
		if need[what] < least-1e-3 || need[what] > 3*least {
			t.Errorf("%s: %v, want %v or some more", what, need[what], least)
		}
	}
	p.says(t, "No roll of cloth is named")
	demo(t, "dunlin").saysNot(t, "No roll of cloth is named")
	if _, ok := need["zip"]; ok {
		t.Error("a zip, and nothing has one")
	}
}

// An awning that holds water, or whose set alone is too much, is not called good.
func TestAwningWarns(t *testing.T) {
	p := planOf(t, change(noRolls, `"pitch": "15°"`, `"pitch": "3°"`))
	p.says(t, "Rain stands in the awning", "water stands in it: take it down for rain")
	p.saysNot(t, "rain runs off")
	p = planOf(t, change(noRolls, `"fixing": "3 kN"`, `"fixing": "100 N"`))
	p.says(t, "Do not set the awning: the pull of the calm alone is too much for the fixing of corner 1")
	p.saysNot(t, "Strike the awning at")
	p.saysNot(t, "Awning set in a calm")
}

// The stages that are named are those that have steps.
func TestStages(t *testing.T) {
	demo(t, "plover").says(t, "of the order of work: measure, dry fit, test lay, first night.")
	demo(t, "dunlin").says(t, "of the order of work: measure, dry fit, test lay, first run, first night.")
}

// What is printed as moved is printed with two values that differ.
func TestApart(t *testing.T) {
	for _, c := range []struct {
		format    string
		low, high float64
		want      string
	}{
		{"%.0f kn", 17.1, 17.4, "17.1 kn 17.4 kn"},
		{"%.0f kn", 15, 21, "15 kn 21 kn"},
		{"%.1f %%", 0.111, 0.1149, "0.111 % 0.115 %"},
		{"%.2f m", 0.617, 0.623, "0.617 m 0.623 m"},
	} {
		if low, high := apart(c.format, c.low, c.high); low+" "+high != c.want {
			t.Errorf("%s: %s to %s, want %s", c.format, low, high, c.want)
		}
	}
}

// Rope under the chain takes of its fall, and one that fills the locker all of it.
func TestLockerWithRope(t *testing.T) {
	with := func(pairs ...string) *chainwork {
		var f boatFile
		if err := decode([]byte(change(anchored, pairs...)), &f); err != nil {
			t.Fatal(err)
		}
		f.fill()
		f.Night = nil
		p, err := f.makePlan(metric)
		if err != nil {
			t.Fatal(err)
		}
		return p.chainwork
	}
	low := `"fall": "0.6 m"`
	short := with(`"fall": "0.95 m"`, low, `"length": "50 m"`, `"length": "40 m"`)
	long := with(`"fall": "0.95 m"`, low)
	if !(short.below > 0 && long.below > short.below && long.stowage.Stows < short.stowage.Stows && short.stowage.Stows < short.length) {
		t.Errorf("below %v and %v, chain that stows %v and %v", short.below, long.below, short.stowage.Stows, long.stowage.Stows)
	}
	full := with(`"fall": "0.95 m"`, low, `"length": "50 m"`, `"length": "500 m"`)
	if full.stowage.Stows != 0 {
		t.Errorf("%v stow above %v of rope", full.stowage.Stows, full.below)
	}
}

// A cover or an awning alone is enough of canvas, and brings nothing of the others.
func TestCanvasParts(t *testing.T) {
	all := map[string][]string{ // what only this part brings
		"deckBox":   {"DECK BOX", "draw cord for a hem"},
		"gasBottle": {"GAS BOTTLE", "CAUTION, GAS"},
		"awning":    {"FOREDECK AWNING", "CAUTION, WIND", "Strike the awning", "webbing of 40 mm", "flutter of the awning", "lashings of the awning", "Webbing is turned in", "buckle that holds"},
	}
	files := map[string]string{"deckBox": "deck-box.pdf", "gasBottle": "gas-bottle.pdf", "awning": "awning-offsets.txt"}
	for keep := range all {
		var f map[string]any
		if err := json.Unmarshal([]byte(noRolls), &f); err != nil {
			t.Fatal(err)
		}
		for _, part := range []string{"electrics", "snubber", "night"} {
			delete(f, part)
		}
		c := f["canvas"].(map[string]any)
		for part := range all {
			if part != keep {
				delete(c, part)
			}
		}
		data, err := json.Marshal(f)
		if err != nil {
			t.Fatal(err)
		}
		p := planOf(t, string(data))
		made, err := p.files(p.report)
		if err != nil {
			t.Fatal(err)
		}
		for part, brings := range all {
			if part == keep {
				p.says(t, brings...)
			} else {
				for _, unwanted := range brings {
					p.saysNot(t, unwanted)
				}
			}
			if made[files[part]] != nil != (part == keep) {
				t.Errorf("%s alone: %s is there: %v", keep, files[part], made[files[part]] != nil)
			}
		}
		if paper := "Paper pattern of each cover"; keep == "awning" {
			p.saysNot(t, paper)
		} else {
			p.says(t, paper)
		}
		if !strings.Contains(string(made["pieces.svg"]), "<svg ") {
			t.Errorf("%s alone: no picture", keep)
		}
	}
	var f map[string]any
	if err := json.Unmarshal([]byte(noRolls), &f); err != nil {
		t.Fatal(err)
	}
	for part := range all {
		delete(f["canvas"].(map[string]any), part)
	}
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := read(data); err == nil || err.Error() != "canvas: found no deckBox, gasBottle or awning; accepted: at least one of the three" {
		t.Error(err)
	}
}

// How patches are cut is said, and a slit that spoils a corner is warned of.
func TestPatchesAndSlits(t *testing.T) {
	p := planOf(t, change(noRolls, `"x": "0 m", "y": "1.4 m", "diameter": "7 mm", "lean": "65°", "clearance": "25 mm", "overlap": "80 mm", "edge": "fore"`,
		`"x": "0.43 m", "y": "2 m", "diameter": "7 mm", "lean": "65°", "clearance": "5 mm", "overlap": "20 mm", "edge": "fore"`))
	p.says(t, "! CAUTION, CORNER: the slit of stay runs through the patch of corner 3", "Patches have no turn of their own: hot-cut them, or where the cloth frays all the same add 10 mm and turn it under.",
		"those of the corners have its allowance, and go under the webbing with it")
	demo(t, "dunlin").saysNot(t, "CAUTION, CORNER")
	demo(t, "plover").saysNot(t, "Patches have no turn")
}

// The night keeps the least scope too, and says when that asks for more than the pull does.
func TestNightKeepsScope(t *testing.T) {
	n := demo(t, "curlew")
	high := n.overnight.plan.Moments[n.overnight.plan.High]
	if high.Scope < 4 || high.Scope > 4.2 || n.overnight.least != n.overnight.plan.Out || n.overnight.plan.Needed >= n.overnight.least {
		t.Errorf("scope %v with %v out, of which the pull needs %v", high.Scope, n.overnight.plan.Out, n.overnight.plan.Needed)
	}
	n.says(t, "a scope of 4 at high water for 125 ft")
	demo(t, "dunlin").saysNot(t, "The pull on the anchor asks for")
	p := planOf(t, change(without("canvas", "electrics", "snubber"), `"leastScope": 4`, `"leastScope": 10`))
	p.says(t, "only 9", "with the whole rode out: go shallower")
}

// A loop of chain that comes taut before the rope has stretched is made longer, where there is chain for it.
func TestSlackIsEnough(t *testing.T) {
	p := demo(t, "curlew")
	n := p.snubber
	if least := n.far.LeastSlack(); n.spec.Slack < least || p.boat.Snubber.Slack >= least || n.at+n.spec.Slack+inboard > p.links {
		t.Errorf("%v of slack, %v wanted, hook at %v", n.spec.Slack, least, n.at)
	}
	p.says(t, "The boat file's 40 ft of slack would come taut", "51 ft more for the loop")
	p.saysNot(t, "chain slack behind the hook")
	little := change(without("canvas", "electrics", "night"), `"slack": "23 m"`, `"slack": "2 m"`)
	planOf(t, change(little, `"length": "40 m"`, `"length": "45 m"`)).says(t, "The boat file's 2 m of slack would come taut", "26 m more for the loop")
	p = planOf(t, change(little, `"length": "40 m"`, `"length": "25 m"`))
	p.says(t, "Leave more than 23.4 m of chain slack behind the hook, not 2 m", "2 m more for the loop")
	p.saysNot(t, "slack would come taut")
}

// Marks that look alike are said to.
func TestMarksAlike(t *testing.T) {
	demo(t, "dunlin").saysNot(t, "they begin again")
	demo(t, "curlew").says(t, "After 3 marks they begin again: those at 25 and 100 ft are alike.")
}

// What is under the keel is rounded down.
func TestUnderKeelIsRoundedDown(t *testing.T) {
	p := demo(t, "plover") // 3 m of water, 1.15 m of keel
	if got := p.lengthTable().Rows[0][3]; got != "1.8" {
		t.Errorf("%s m under the keel", got)
	}
}

// Peaks are those of rope in cycles of seconds; how she lies before, and the longest
// way, are those of rope pulled slowly.
func TestSnubberInCycles(t *testing.T) {
	n := demo(t, "plover").snubber
	whole, err := n.hook.Snub(n.spec.rigged(n.rope, 2))
	if err != nil {
		t.Fatal(err)
	}
	surge := rode.Surge{Mass: 9.4 * 1.1 * units.Tonne, Rest: n.cell.pull, Gust: n.gust.pull, Speed: n.spec.Speed}
	slow, err := rode.SolveSurge(whole, n.site, surge)
	if err != nil {
		t.Fatal(err)
	}
	if peak := n.shared.Peak.Peak.Tension; peak < slow.Peak.Tension.Scale(1.05) {
		t.Errorf("peak %v, with rope pulled slowly %v", peak, slow.Peak.Tension)
	}
	if n.rest.HookHeight() != slow.Rest.HookHeight() || n.far.LeastSlack() <= n.option.Peak.LeastSlack() {
		t.Errorf("hook at %v, slack %v", n.rest.HookHeight(), n.far.LeastSlack())
	}
	demo(t, "plover").says(t, "ring for two thimbles, working", "up to three times stiffer than in a slow pull")
	demo(t, "dunlin").saysNot(t, "ring for two")
	p := planOf(t, change(without("canvas", "electrics", "night"), `"rope": "polyamide eight-strand 10 mm"`, `"rope": "polyester eight-strand 12 mm"`))
	p.says(t, "In a surge polyester rope is as stiff as in a slow pull: no curve of cycles is known of it.")
}

// Worn chain is longer: what the wheel and the counter make of it, and the marks.
func TestWornChainIsLonger(t *testing.T) {
	demo(t, "dunlin").says(t, "a link loses that at both ends and grows by up to 0.6 mm inside", "a turn pays out 34.4 cm, and a counter set to 33.6 cm reads -2.4 %",
		"Chain worn all along like its thinnest link may jump the wheel", "creeps 4.2 mm over the 7 links", "the mark of 30 m comes when 30.8 m are out", "122.1 cm")
	p := planOf(t, change(without("canvas", "electrics", "night"), `"worn": "7.7 mm"`, `"worn": "7.9 mm"`))
	p.says(t, "Links so long still lie in the wheel: end to end they creep 1.4 mm of the 3.0 mm of play")
	p.saysNot(t, "may jump the wheel")
	demo(t, "plover").saysNot(t, "the wire has worn")
}
