package rode_test

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

// Walk along the chain link by link and measure to the middle of each.
func TestMarksAgainstWalk(t *testing.T) {
	p := rode.MarkPlan{
		Every: 5, AtAnchor: 0.11, Chain: 40, Pitch: 0.024, Rope: 30, AtZero: 2.3,
		Scheme: [][]string{{"red"}, {"white"}, {"red", "white"}},
	}
	m, err := rode.MarkRode(p)
	if err != nil {
		t.Fatal(err)
	}
	links := 0
	chainEnd := float64(p.AtAnchor)
	for links*24 < 40000-12 {
		links++
		chainEnd += 0.024
	}
	for i, k := range m.Marks {
		want := 5*float64(i+1) + 2.3
		if float64(k.At) != 5*float64(i+1) || cmp.Diff(k.Markers, p.Scheme[i%3]) != "" {
			t.Errorf("mark %d: %+v", i+1, k)
		}
		if k.Kind == rode.OfRope {
			if math.Abs(chainEnd+float64(k.FromSplice)-want) > 1e-9 || want <= chainEnd {
				t.Errorf("mark %d: %+v, %v m along", i+1, k, want)
			}
			continue
		}
		nearest, off := 0, math.Inf(1)
		at := float64(p.AtAnchor) + 0.012
		for n := 1; n <= links; n++ {
			if math.Abs(at-want) < math.Abs(off) {
				nearest, off = n, at-want
			}
			at += 0.024
		}
		if k.Link != nearest || math.Abs(float64(k.Off)-off) > 1e-9 {
			t.Errorf("mark %d: %+v, want link %d off by %v", i+1, k, nearest, off)
		}
	}
	// 70.12 m in all: the mark for 65 is 67.3 m along, that for 70 would be 72.3.
	if n := len(m.Marks); n != 13 || m.Marks[n-1].At != 65 {
		t.Errorf("%d marks: %+v", len(m.Marks), m.Marks)
	}
	want := []rode.MarkerCount{{Marker: "red", Count: 9}, {Marker: "white", Count: 8}}
	if diff := cmp.Diff(want, m.Buy); diff != "" {
		t.Error(diff)
	}
	// Counting on from mark to mark leads to the same links.
	at := 0
	for _, k := range m.Marks {
		if at += k.Links; k.Kind == rode.OfChain && at != k.Link {
			t.Errorf("%+v: counted %d", k, at)
		}
	}
}

func TestMarksOfAllChainAndAllRope(t *testing.T) {
	chain, err := rode.MarkRode(rode.MarkPlan{Every: 10, Chain: 50, Pitch: 0.028})
	if err != nil || len(chain.Marks) != 5 || chain.Buy != nil {
		t.Errorf("%+v, %v", chain, err)
	}
	rope, err := rode.MarkRode(rode.MarkPlan{Every: units.Fathom.Scale(5), Rope: 50})
	if err != nil || len(rope.Marks) != 5 || rope.Marks[0].FromSplice != units.Fathom.Scale(5) {
		t.Errorf("%+v, %v", rope, err)
	}
	text, err := rope.Table("fathom")
	if err != nil || !strings.Contains(text, "25.0") {
		t.Errorf("%q, %v", text, err)
	}
	if _, err := rope.Table("ell"); err == nil {
		t.Error("a unit that does not exist is accepted")
	}
}

// A marker is words of one line, whatever the language.
func TestMarkersAreWords(t *testing.T) {
	p := rode.MarkPlan{Every: 10, Rope: 30}
	for name, good := range map[string]bool{
		"two bands": true, "": true, "rød × 2": true, "赤": true, "a|b": true, "a\u00a0b": true,
		"a\tb": false, "a\nb": false, "\r": false, "a\x00": false, "a\x7f": false, "a\u0085b": false, "a\u2028b": false, "a\xff": false, "\xe8\xb5": false,
	} {
		p.Scheme = [][]string{{"red"}, {"blue", name}}
		m, err := rode.MarkRode(p)
		if !good {
			wants(t, err, rode.ErrInput, "Scheme[1][1]")
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		if text, err := m.Table("m"); err != nil || strings.Count(text, "\n") != 6 {
			t.Errorf("%q: %q, %v", name, text, err)
		}
	}
}
