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

// Watch decides from fixes whether the anchor drags. Compared with the radius of
// [AlarmRadius], which a single fix can cross, it takes longer and is quieter.
//
// What to expect, from synthetic nights with a known truth: 8 hours, a circle of
// 60 m, a boat that sheers by 20° and lies up to 6 m inside it, a fix every 10 s
// with a deviation of 1.5 m and a memory of 2 min, Quiet 240 h. In 400 nights
// without a drag there was no false alarm, where a radius set for a chance of 1 in
// 1000 had 5. A drag was found
//
//	at 0.3 m/min after 28 min,  9 m dragged (median; 95 % within 33 min, 10 m)
//	at 1   m/min after 11 min, 11 m                             (13 min, 13 m)
//	at 3   m/min after  4 min, 12 m                              (5 min, 15 m)
//	at 10  m/min after 80 s,   15 m                            (100 s,   19 m)
//	at 30  m/min after 40 s,   25 m                             (50 s,   25 m)
//
// Real errors have rarer and larger leaps, after multipath and a loss of signal,
// and a boat that lies well inside its circle drags unseen until she leaves it.
// A watch by instruments does not replace one by eye.
type Watch struct {
	// Anchor is where the anchor lies, as marked. The position of the antenna as it went
	// down is not that: see AlarmBudget.Aft.
	Anchor Place
	// Circle is what the antenna keeps within of that mark unless the anchor moves: the
	// swing circle of the antenna, and what the mark may be wrong by. It is
	// AlarmLimit.Circle.
	Circle units.Length
	// Fix is the deviation of each fix along each axis (see [FixDeviation]).
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

// Dragging is what a Watch has found.
type Dragging struct {
	Found bool
	// Since is when the fixes began to leave the circle, zero while they are inside,
	// At when that was certain enough, and Beyond how far outside the fix was then.
	Since, At time.Time
	Beyond    units.Length
}

// The test for a drag adds up what fixes lie outside the circle.
const (
	// slack is taken off every excess, in deviations. A half makes the test
	// quickest for a shift of one.
	slack = 0.5
	// overshoot is by how much a sum of independent terms behaves as if its
	// threshold were higher (D. Siegmund, Sequential Analysis, 1985): 2 times
	// 0.583. For errors with a memory it is up to 1.46, which makes the test quieter.
	overshoot = 1.166
	// A fix this many deviations outside is not the errors' work, unless it is wild:
	// so many in a row settle it.
	farOutside  = 5
	farInARow   = 3
	largestPart = 0.5 // of the threshold that one fix may add
)

// Threshold is the h above which the cumulative sum of [NewWatcher] sounds the
// alarm. It follows from Quiet and Memory by Siegmund's approximation of the mean
// time to a false alarm,
//
//	Quiet / (2 Memory) = 2 (exp(b) - 1 - b),  b = h + 1.166
func (w Watch) Threshold() (float64, error) {
	var c checker
	checkPlace(&c, "Anchor.", w.Anchor)
	between(&c, "Circle", w.Circle, 0, 1e5)
	between(&c, "Fix", w.Fix, 0.001, 1000)
	between(&c, "Memory", w.Memory, 0.001, 86400)
	between(&c, "Quiet", w.Quiet, 60, 1e10)
	runs := w.Quiet.Per(w.Memory.Scale(2))
	c.must(runs >= 10, "Quiet", w.Quiet, "at least twenty times the memory")
	if c.err != nil {
		return 0, c.err
	}
	b, err := root.Find(func(b float64) (float64, error) { return 2*(math.Expm1(b)-b) - runs, nil }, 0, 60, 1e-9)
	return b - overshoot, err
}

// Watcher takes fixes one at a time.
type Watcher struct {
	watch     Watch
	threshold float64
	score     float64
	far       int
	last      time.Time
	started   bool
	drag      Dragging
}

// NewWatcher checks a Watch and begins it.
//
// The test is a cumulative sum (E. S. Page, Biometrika 41, 1954) of the excess e
// of each fix over the circle in deviations s, weighted by the time since the
// last fix in units of twice the memory T, which is the time in which an
// independent error comes:
//
//	S = max(0, S + min(1, dt/(2 T)) (e/s - 1/2)),  alarm when S > h
//
// No single fix adds more than h/2, so that a wild one cannot sound the alarm.
// Three fixes in a row more than 5 deviations outside sound it at once.
func NewWatcher(w Watch) (*Watcher, error) {
	h, err := w.Threshold()
	if err != nil {
		return nil, err
	}
	return &Watcher{watch: w, threshold: h}, nil
}

func checkPlace(c *checker, field string, p Place) {
	between(c, field+"East", p.East, -1e6, 1e6)
	between(c, field+"North", p.North, -1e6, 1e6)
}

// Add takes the next fix and tells what has been found so far. After the first
// alarm it stays found. A fix that is not later than the one before is refused,
// and so is one without a place; the watch goes on without it.
func (w *Watcher) Add(f Fix) (Dragging, error) {
	var c checker
	checkPlace(&c, "Fix.Place.", f.Place)
	if c.err == nil {
		c.err = checkTime("Fix.At", f.At)
	}
	if c.err == nil && w.started && !f.At.After(w.last) {
		c.err = refuse("Fix.At", f.At, "later than the fix before it, "+w.last.String())
	}
	if c.err != nil {
		return w.drag, c.err
	}
	weight := 0.0
	if w.started {
		weight = min(1, f.At.Sub(w.last).Seconds()/(2*w.watch.Memory.Seconds()))
	}
	w.started, w.last = true, f.At
	if w.drag.Found {
		return w.drag, nil
	}
	beyond := f.Place.From(w.watch.Anchor) - w.watch.Circle
	was := w.score
	excess := beyond.Per(w.watch.Fix)
	w.score = max(0, was+min(largestPart*w.threshold, weight*(excess-slack)))
	w.far++
	if excess <= farOutside {
		w.far = 0
	}
	switch {
	case w.score == 0:
		w.drag.Since = time.Time{}
	case was == 0:
		w.drag.Since = f.At
	}
	if w.score > w.threshold || w.far == farInARow {
		w.drag.Found, w.drag.At, w.drag.Beyond = true, f.At, beyond
	}
	return w.drag, nil
}

// Detect runs a Watch over a track.
func (w Watch) Detect(track []Fix) (Dragging, error) {
	watch, err := NewWatcher(w)
	if err != nil {
		return Dragging{}, err
	}
	for _, f := range track {
		d, err := watch.Add(f)
		if err != nil || d.Found {
			return d, err
		}
	}
	return watch.drag, nil
}
