package rode

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// Lay is one test: a length of rode paid out or heaved in, read from the counter
// and measured with a tape.
//
// Read it at the instant the display changes, at both ends: stop there, mark the
// chain, and enter the value that has just appeared. The number of pulses between
// the marks is then known exactly, and only the tape is left to err. A display
// that is read while the wheel stands anywhere hides up to a pulse at each end.
type Lay struct {
	// From and To are what the display shows at the marks. It pays out where To is
	// more than From and heaves in where it is less. From zero, unless
	// FromAtChange, is a counter set to zero there.
	From, To units.Length
	// Taped is the rode between the marks.
	Taped units.Length
	// FromAtChange and ToAtChange: the mark was made at the instant the display
	// changed to that value.
	FromAtChange bool `json:",omitempty"`
	ToAtChange   bool `json:",omitempty"`
}

// LayErrors are the standard uncertainties of a lay besides the rounding of the
// counter, which is known.
type LayErrors struct {
	// Tape is that of one length taken with the tape, for instance a third of the
	// most that you would be surprised to be wrong by.
	Tape units.Length `json:",omitempty"`
	// TapeScale is the relative uncertainty of the tape itself, which all lays
	// have in common and no number of them averages out.
	TapeScale float64 `json:",omitempty"`
	// Repeat is how much a lay of one length differs from time to time: slack
	// links, a twisted chain, a wet rope. Zero is not known: it is then judged
	// from the scatter of the lays.
	Repeat units.Length `json:",omitempty"`
}

func (e *LayErrors) check(c *checker) {
	between(c, "Tape", e.Tape, 0, 100)
	between(c, "TapeScale", e.TapeScale, 0, 0.1)
	between(c, "Repeat", e.Repeat, 0, 100)
}

// random is what differs from lay to lay, without the rounding.
func (e *LayErrors) random() float64 { return math.Hypot(float64(e.Tape), float64(e.Repeat)) }

// travel is what a lay says of the wheel, in pulses: it turned by something
// between least and most.
type travel struct {
	least, most float64
	start, end  float64 // width in pulses of what is known of either end
	taped       float64 // m
	inward      bool
}

func (t *travel) mid() float64 { return (t.least + t.most) / 2 }

// variance of the travel about its middle: two ends, each as likely here as there.
func (t *travel) variance() float64 { return (t.start*t.start + t.end*t.end) / 12 }

// travel unrounds the readings. Pulses are where the wheel passes whole numbers,
// and an end is known to lie between two of them, or on one.
func (c *Counter) travel(k *checker, field string, l Lay) travel {
	between(k, field+"Taped", l.Taped, 1e-3, mostOut)
	if k.err == nil && l.From == l.To {
		k.err = refuse(field+"To", l.To, "a reading other than From")
	}
	t := travel{taped: float64(l.Taped), inward: l.To < l.From}
	end := func(field string, shown units.Length, atChange, zeroed bool) (lo, hi float64) {
		if zeroed {
			return 0, 1
		}
		lo, hi = c.counts(k, field, shown)
		switch {
		case !atChange:
			return lo, hi
		case t.inward:
			return hi, hi
		default:
			return lo, lo
		}
	}
	a1, a2 := end(field+"From", l.From, l.FromAtChange, l.From == 0 && !l.FromAtChange)
	b1, b2 := end(field+"To", l.To, l.ToAtChange, false)
	if t.inward {
		a1, a2, b1, b2 = b1, b2, a1, a2
	}
	t.start, t.end = a2-a1, b2-b1
	t.least, t.most = b1-a2, b2-a1
	if k.err == nil && t.least < 1 {
		k.err = refuse(field+"To", l.To, "at least two pulses from From, after rounding")
	}
	return t
}

func (c *Counter) travels(k *checker, lays []Lay) []travel {
	if k.err == nil && (len(lays) == 0 || len(lays) > 1e5) {
		k.err = refuse("lays", strconv.Itoa(len(lays))+" lays", "from 1 to 100000")
	}
	if k.err != nil {
		return nil
	}
	ts := make([]travel, len(lays))
	for i := range lays {
		ts[i] = c.travel(k, "lays["+strconv.Itoa(i)+"].", lays[i])
	}
	return ts
}
