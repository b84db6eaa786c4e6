package rode

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/forepeak/units"
)

// MarkPlan is a rode to be marked at equal intervals.
type MarkPlan struct {
	// Every is the interval between marks.
	Every units.Length
	// AtAnchor is the length of what joins anchor and chain: shackle, swivel.
	AtAnchor units.Length `json:",omitempty"`
	// Chain is the length of the chain and Pitch that of its links. Zero is a rode
	// of rope alone.
	Chain units.Length `json:",omitempty"`
	Pitch units.Length `json:",omitempty"`
	// Rope is the length of the rope above the chain, 0 for none.
	Rope units.Length `json:",omitempty"`
	// AtZero is how much rode, from the anchor's ring, has passed the place where
	// the marks are read when the counter reads zero. For a counter set to zero with
	// the anchor at the waterline that is the way from the waterline over the
	// roller to that place; for one set to zero with the anchor home on the roller,
	// from its ring to that place.
	AtZero units.Length `json:",omitempty"`
	// Scheme are the markers of the first mark, the second, and so on; after the
	// last it begins again. A mark of several markers has them on neighbouring
	// links, the first on the link counted. Any words will do that stand in one line
	// of a table: no tabs, ends of lines or other control characters, and valid UTF-8.
	// None marks without telling which.
	Scheme [][]string `json:",omitempty"`
}

// Mark is one mark.
type Mark struct {
	// At is what a counter should read when the mark is at the place where it is read.
	At   units.Length
	Kind Kind // OfChain or OfRope
	// Link is the link to mark, counted from the anchor's shackle, which joins the
	// first; 0 on rope.
	Link int `json:",omitempty"`
	// Links counts on from the link marked before, or from the shackle.
	Links int `json:",omitempty"`
	// FromSplice is the length of rope from the end of the chain, hand taut; 0 on chain.
	FromSplice units.Length `json:",omitempty"`
	// Off is how far the middle of the link lies from where the mark should be,
	// positive where it comes out late. At most half a pitch.
	Off     units.Length
	Markers []string `json:",omitempty"`
}

// MarkerCount is how many markers of one sort are needed.
type MarkerCount struct {
	Marker string
	Count  int
}

// Marks is where to mark a rode and with what.
type Marks struct {
	Marks []Mark
	// Buy are the markers of all marks, in the order of their first use.
	Buy []MarkerCount `json:",omitempty"`
}

// mostMarks is more than anybody makes.
const mostMarks = 10000

// MarkRode finds the marks. The n-th link has its middle at
//
//	AtAnchor + (n - 1/2) Pitch
//
// from the anchor's ring, and the mark for a reading belongs at reading + AtZero;
// the nearest link gets it. Chain's Pitch should be measured (MeasuredPitch): a
// link that is 0.3 mm longer than the catalogue says puts a mark at 50 m out by
// more than half a metre. Rope is marked slack, and a mark on it comes later under
// load, by the rope's stretch.
//
// No mark is made for zero, nor where shackle and swivel are. A mark that falls on
// the joint of chain and rope goes to the last link.
func MarkRode(p MarkPlan) (Marks, error) {
	if err := p.check(); err != nil {
		return Marks{}, err
	}
	pitch := float64(p.Pitch)
	links := 0.0
	if p.Chain > 0 {
		links = math.Max(1, math.Round(float64(p.Chain)/pitch))
	}
	var m Marks
	top := float64(p.AtAnchor) + links*pitch // where the chain ends
	end := top + float64(p.Rope)
	buy := map[string]int{} // where a marker is in m.Buy
	last := 0
	for i := 1; ; i++ {
		at := p.Every.Scale(float64(i))
		along := float64(at + p.AtZero)
		if along > end+1e-9 {
			break
		}
		if along < float64(p.AtAnchor) {
			continue
		}
		k := Mark{At: at}
		if len(p.Scheme) > 0 {
			k.Markers = slices.Clone(p.Scheme[(i-1)%len(p.Scheme)])
		}
		if along <= top && links > 0 {
			n := math.Round((along-float64(p.AtAnchor))/pitch + 0.5)
			n = math.Max(1, math.Min(links, n))
			k.Link = int(n)
			k.Links = k.Link - last
			k.Off = p.AtAnchor + p.Pitch.Scale(n-0.5) - units.Length(along)
			last = k.Link
		} else {
			k.Kind = OfRope
			k.FromSplice = units.Length(along - top)
		}
		for _, name := range k.Markers {
			i, known := buy[name]
			if !known {
				i = len(m.Buy)
				buy[name] = i
				m.Buy = append(m.Buy, MarkerCount{Marker: name})
			}
			m.Buy[i].Count++
		}
		m.Marks = append(m.Marks, k)
	}
	return m, nil
}

func (p *MarkPlan) check() error {
	var c checker
	positive(&c, "Every", p.Every)
	between(&c, "AtAnchor", p.AtAnchor, 0, 100)
	between(&c, "Chain", p.Chain, 0, mostOut)
	between(&c, "Rope", p.Rope, 0, mostOut)
	if p.Chain > 0 || p.Pitch != 0 {
		between(&c, "Pitch", p.Pitch, 1e-3, 1)
		between(&c, "Every", p.Every, p.Pitch, mostOut)
	}
	if c.err == nil && p.Chain == 0 && p.Rope == 0 {
		c.err = refuse("Chain", p.Chain, "more than 0, or a Rope that is")
	}
	whole := p.AtAnchor + p.Chain + p.Rope
	between(&c, "AtZero", p.AtZero, 0, whole)
	if c.err == nil && whole.Per(p.Every) > mostMarks {
		c.err = refuse("Every", p.Every, fmt.Sprintf("at least %v: more than %d marks", whole.Scale(1.0/mostMarks), mostMarks))
	}
	// A mark may not run into the next one.
	room := mostMarks
	if p.Chain > 0 && c.err == nil {
		room = int(math.Min(mostMarks, math.Floor(p.Every.Per(p.Pitch))))
	}
	for i, markers := range p.Scheme {
		if c.err == nil && len(markers) > room {
			c.err = refuse("Scheme["+strconv.Itoa(i)+"]", strconv.Itoa(len(markers))+" markers", fmt.Sprintf("at most %d, one a link between marks", room))
		}
		for j, name := range markers {
			if c.err == nil && !oneLine(name) {
				c.err = refuse(fmt.Sprintf("Scheme[%d][%d]", i, j), strconv.Quote(name), wordsOfOneLine)
			}
		}
	}
	return c.err
}

const wordsOfOneLine = "words of one line: valid UTF-8 without control characters"

// oneLine is whether words stay in their cell of a table.
func oneLine(words string) bool {
	return utf8.ValidString(words) && !strings.ContainsFunc(words, func(r rune) bool {
		return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' // separators of lines and paragraphs
	})
}
