package anchor

import (
	"math"
	"time"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Fix is where the antenna was.
type Fix struct {
	At    time.Time
	Place Place
}

// Watch decides from fixes whether the anchor drags.
type Watch struct {
	Anchor Place // as marked
	// Circle is what the antenna keeps within unless the anchor moves: the swing
	// circle of the antenna, and what the mark may be wrong by.
	Circle units.Length
	// Fix is the deviation of each fix along each axis (see Deviation).
	Fix units.Length
	// Memory is the time in which the error of a fix falls to 1/e of itself. Errors
	// of satellite positions last for minutes; a memory set too short makes false
	// alarms.
	Memory units.Time
	// Quiet is the mean time between false alarms that is accepted of a boat that
	// lies at the edge of the circle all the time. One that swings inside gives far
	// fewer.
	Quiet units.Time
}

// Drag is what a Watch has found.
type Drag struct {
	Found bool
	// Since is when the fixes began to leave the circle, At when that was certain
	// enough, and Beyond how far outside the circle the fix was then.
	Since, At time.Time
	Beyond    units.Length
}

// Watcher takes fixes one at a time.
type Watcher struct {
	w         Watch
	threshold float64
	score     float64
	last      time.Time
	started   bool
	drag      Drag
}

// slack is taken off every excess. A half makes the test quickest for a shift of
// one deviation.
const slack = 0.5

// NewWatcher checks a Watch and begins it.
//
// The test is a cumulative sum (E. S. Page, Biometrika 41, 1954) of the excess e
// of each fix over the circle in deviations s, weighted by the time since the
// last fix in units of twice the memory T, which is the time in which an
// independent error comes:
//
//	S = max(0, S + min(1, dt/(2 T)) (e/s - 1/2)),  alarm when S > h
//
// h follows from Quiet by the mean time to a false alarm of a Brownian motion
// with a drift of -1/2, 2 (exp(h) - 1 - h) in units of 2 T. No single fix adds
// more than h/2, so that a wild one cannot sound the alarm.
func NewWatcher(w Watch) (*Watcher, error) {
	var c checker
	checkPlace(&c, "Anchor.", w.Anchor)
	between(&c, "Circle", w.Circle, 0, 1e5)
	between(&c, "Fix", w.Fix, 0.001, 1000)
	between(&c, "Memory", w.Memory, 0.001, 86400)
	between(&c, "Quiet", w.Quiet, 60, 1e10)
	runs := w.Quiet.Per(w.Memory.Scale(2))
	c.must(runs >= 10, "Quiet", w.Quiet, "at least twenty times the memory")
	if c.err != nil {
		return nil, c.err
	}
	h, err := root.Find(func(h float64) (float64, error) { return 2*(math.Expm1(h)-h) - runs, nil }, 0, 60, 1e-9)
	if err != nil {
		return nil, err
	}
	return &Watcher{w: w, threshold: h}, nil
}

func checkPlace(c *checker, field string, p Place) {
	between(c, field+"East", p.East, -1e6, 1e6)
	between(c, field+"North", p.North, -1e6, 1e6)
}

// Add takes the next fix and tells what has been found so far. After the first
// alarm it stays found. A fix that is not later than the one before is refused,
// and so is one without a place; the watch goes on without it.
func (w *Watcher) Add(f Fix) (Drag, error) {
	var c checker
	checkPlace(&c, "Fix.Place.", f.Place)
	if c.err == nil {
		c.err = checkTime("Fix.At", f.At)
	}
	c.must(!w.started || f.At.After(w.last), "Fix.At", f.At, "later than the fix before it, "+w.last.String())
	if c.err != nil {
		return w.drag, c.err
	}
	weight := 0.0
	if w.started {
		weight = min(1, f.At.Sub(w.last).Seconds()/(2*w.w.Memory.Seconds()))
	}
	w.started, w.last = true, f.At
	if w.drag.Found {
		return w.drag, nil
	}
	beyond := f.Place.From(w.w.Anchor) - w.w.Circle
	was := w.score
	w.score = max(0, was+min(w.threshold/2, weight*(beyond.Per(w.w.Fix)-slack)))
	switch {
	case w.score == 0:
		w.drag.Since = time.Time{}
	case was == 0:
		w.drag.Since = f.At
	}
	if w.score > w.threshold {
		w.drag.Found, w.drag.At, w.drag.Beyond = true, f.At, beyond
	}
	return w.drag, nil
}

// Detect runs a Watch over a track.
func (w Watch) Detect(track []Fix) (Drag, error) {
	watch, err := NewWatcher(w)
	if err != nil {
		return Drag{}, err
	}
	for _, f := range track {
		d, err := watch.Add(f)
		if err != nil || d.Found {
			return d, err
		}
	}
	return watch.drag, nil
}
