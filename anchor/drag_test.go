package anchor_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// track is a synthetic track with a known truth: the boat lies to a wind that
// wanders, sheers to either side of it and is blown back and let forward by
// gusts; the errors of its fixes are those of a first-order Markov process.
type track struct {
	hours     float64
	every     float64 // seconds from fix to fix
	circle    float64 // of the antenna, in a gust
	within    float64 // how much nearer a lull lets the boat lie, as a part of it
	deviation float64 // of the fixes, along each axis
	memory    float64 // of their errors, seconds
	dragFrom  float64 // hours
	drag      float64 // metres in a second, downwind
}

func (k track) fixes(rng *rand.Rand) (fixes []anchor.Fix, dragged []float64) {
	n := int(k.hours * 3600 / k.every)
	rho := math.Exp(-k.every / k.memory)
	kick := k.deviation * math.Sqrt(1-rho*rho)
	east, north := k.deviation*rng.NormFloat64(), k.deviation*rng.NormFloat64()
	wind, gust := 2*math.Pi*rng.Float64(), 0.0
	sheer, phase := 20*math.Pi/180, 2*math.Pi*rng.Float64()
	var anchorEast, anchorNorth, moved float64
	for i := range n {
		t := float64(i) * k.every
		wind += 0.1 * math.Pi / 180 * math.Sqrt(k.every) * rng.NormFloat64()
		gust += (rng.Float64() - gust) * min(1, k.every/30)
		lies := wind + math.Pi + sheer*math.Sin(2*math.Pi*t/75+phase)
		if t >= k.dragFrom*3600 && k.drag > 0 {
			sin, cos := math.Sincos(wind + math.Pi)
			anchorEast += k.drag * k.every * sin
			anchorNorth += k.drag * k.every * cos
			moved += k.drag * k.every
		}
		r := k.circle * (1 - k.within*(1-gust))
		sin, cos := math.Sincos(lies)
		fixes = append(fixes, anchor.Fix{
			At:    time.Unix(int64(t), int64(math.Mod(t, 1)*1e9)).UTC(),
			Place: anchor.Place{East: units.Length(anchorEast + r*sin + east), North: units.Length(anchorNorth + r*cos + north)},
		})
		dragged = append(dragged, moved)
		east = rho*east + kick*rng.NormFloat64()
		north = rho*north + kick*rng.NormFloat64()
	}
	return fixes, dragged
}

func (k track) watch(quiet units.Time) anchor.Watch {
	return anchor.Watch{
		Circle: units.Length(k.circle), Fix: units.Length(k.deviation), Memory: units.Time(k.memory), Quiet: quiet,
	}
}

// A boat at the very edge of its circle, the worst there is, sounds false alarms
// no more often than asked. The threshold is made for independent errors; for
// errors with a memory the mean time is longer by exp(1.46 - 1.166) = 1.34, since
// the boundary of a Markov velocity process acts |zeta(1/2)| = 1.460 of its free
// paths farther out (M. A. Burschka and U. M. Titulaer, Journal of Statistical
// Physics 25, 1981).
func TestWatchIsQuietAtTheEdge(t *testing.T) {
	for _, every := range []float64{2, 10, 60} {
		k := track{hours: 400, every: every, circle: 60, deviation: 1.5, memory: 120}
		watch := k.watch(10 * 3600)
		var total float64
		alarms := 0
		for seed := range uint64(max(3, min(10, every))) {
			fixes, _ := k.fixes(rand.New(rand.NewPCG(seed, 1)))
			for len(fixes) > 0 {
				d, err := watch.Detect(fixes)
				if err != nil {
					t.Fatal(err)
				}
				if !d.Found {
					break
				}
				alarms++
				i, _ := slices.BinarySearchFunc(fixes, d.At, func(f anchor.Fix, at time.Time) int { return f.At.Compare(at) })
				total += float64(i+1) * every / 3600
				fixes = fixes[i+1:]
			}
		}
		mean := total / float64(alarms)
		t.Logf("fix every %v s: %d alarms, mean %.1f h for 10 h asked", every, alarms, mean)
		if mean < 10 || mean > 20 {
			t.Errorf("fix every %v s: mean time between false alarms %.1f h, asked 10 h", every, mean)
		}
	}
}

// The figures that the doc comment of Watch states: nights of a boat that
// sheers and surges inside its circle, and drags found.
func TestWatchRates(t *testing.T) {
	base := track{hours: 8, every: 10, circle: 60, within: 0.1, deviation: 1.5, memory: 120}
	const nights = 400
	quiet := units.Time(30 * 8 * 3600)

	plain := func(fixes []anchor.Fix) (time.Time, bool) { // one fix beyond the radius that AlarmRadius gives
		for _, f := range fixes {
			if f.Place.From(anchor.Place{}).Metres() > base.circle+3.09*base.deviation {
				return f.At, true
			}
		}
		return time.Time{}, false
	}
	alarms, plainAlarms := 0, 0
	for seed := range uint64(nights) {
		fixes, _ := base.fixes(rand.New(rand.NewPCG(seed, 2)))
		d, err := base.watch(quiet).Detect(fixes)
		if err != nil {
			t.Fatal(err)
		}
		if d.Found {
			alarms++
		}
		if _, found := plain(fixes); found {
			plainAlarms++
		}
	}
	t.Logf("false alarms in %d nights: %d, of the plain radius %d", nights, alarms, plainAlarms)
	if alarms > 0 || plainAlarms > 5 {
		t.Errorf("false alarms: %d, of the plain radius %d; stated none and 5", alarms, plainAlarms)
	}

	for _, stated := range []struct{ metresAMinute, minutes, metres, late, far float64 }{
		{0.3, 28, 9, 33, 10},
		{1, 11, 11, 13, 13},
		{3, 4, 12, 5, 15},
		{10, 1.34, 15, 1.67, 19},
		{30, 0.67, 25, 0.84, 25},
	} {
		metresAMinute := stated.metresAMinute
		k := base
		k.dragFrom, k.drag = 2, metresAMinute/60
		k.hours = 2 + 40/metresAMinute/60 + 1
		var delays, distances, plains []float64
		for seed := range uint64(nights) {
			fixes, dragged := k.fixes(rand.New(rand.NewPCG(seed, 3)))
			d, err := k.watch(quiet).Detect(fixes)
			if err != nil {
				t.Fatal(err)
			}
			after := d.At.Sub(fixes[0].At).Hours() - k.dragFrom
			if !d.Found || after < 0 {
				t.Fatalf("drag at %v m/min not found: %+v", metresAMinute, d)
			}
			delays = append(delays, after*60)
			i, _ := slices.BinarySearchFunc(fixes, d.At, func(f anchor.Fix, at time.Time) int { return f.At.Compare(at) })
			distances = append(distances, dragged[i])
			if at, found := plain(fixes); found {
				i, _ = slices.BinarySearchFunc(fixes, at, func(f anchor.Fix, at time.Time) int { return f.At.Compare(at) })
				plains = append(plains, dragged[i])
			}
		}
		slices.Sort(delays)
		slices.Sort(distances)
		slices.Sort(plains)
		t.Logf("%4.1f m/min: found after %.1f min and %.1f m (median), %.1f min and %.1f m (95 %%); plain radius %.1f m, %.1f m",
			metresAMinute, delays[nights/2], distances[nights/2], delays[nights*19/20], distances[nights*19/20],
			plains[len(plains)/2], plains[len(plains)*19/20])
		for _, v := range []struct{ is, stated float64 }{
			{delays[nights/2], stated.minutes},
			{distances[nights/2], stated.metres},
			{delays[nights*19/20], stated.late},
			{distances[nights*19/20], stated.far},
		} {
			if v.is > 1.05*v.stated {
				t.Errorf("drag at %v m/min: %.2f where %v is stated", metresAMinute, v.is, v.stated)
			}
		}
	}
}

func TestWildFixDoesNotSoundTheAlarm(t *testing.T) {
	k := track{hours: 8, every: 10, circle: 60, within: 0.1, deviation: 1.5, memory: 120}
	fixes, _ := k.fixes(rand.New(rand.NewPCG(1, 1)))
	watch := k.watch(30 * 8 * 3600)
	for i := 100; i < len(fixes); i += 600 {
		fixes[i].Place.East += 5000
	}
	if d, err := watch.Detect(fixes); err != nil || d.Found {
		t.Errorf("wild fixes: %+v, %v", d, err)
	}
	for i := 100; i < 103; i++ {
		fixes[i].Place.East += 5000
	}
	if d, err := watch.Detect(fixes); err != nil || !d.Found || !d.At.Equal(fixes[102].At) {
		t.Errorf("three in a row: %+v, %v", d, err)
	}
}

// What was found stays as it was found, and a suspicion that passes leaves no time.
func TestWatchKeepsWhatItFound(t *testing.T) {
	w, err := anchor.NewWatcher(anchor.Watch{Circle: 40, Fix: 2, Memory: 30, Quiet: 20 * units.Hour})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2030, 5, 17, 1, 0, 0, 0, time.UTC)
	add := func(east units.Length) anchor.Dragging {
		at = at.Add(10 * time.Second)
		d, err := w.Add(anchor.Fix{At: at, Place: anchor.Place{East: east}})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	add(30)
	if d := add(44); d.Since != at || d.Found {
		t.Errorf("a fix outside: %+v", d)
	}
	suspected := at
	if d := add(43); d.Since != suspected {
		t.Errorf("another: %+v, want it since %v", d, suspected)
	}
	for range 20 {
		add(10)
	}
	if d := add(10); !d.Since.IsZero() {
		t.Errorf("back inside: %+v", d)
	}
	var found anchor.Dragging
	for i := 0; !found.Found && i < 100; i++ {
		found = add(60)
	}
	if !found.Found || found.At != at || found.Beyond != 20 {
		t.Fatalf("%+v", found)
	}
	for _, east := range []units.Length{90, 10, 60} {
		if d := add(east); d != found {
			t.Errorf("after %+v: %+v", found, d)
		}
	}
}

// The memory may be a twentieth of the quiet time, not more.
func TestWatchQuietForTwentyMemories(t *testing.T) {
	if _, err := anchor.NewWatcher(anchor.Watch{Circle: 40, Fix: 2, Memory: 30, Quiet: 600}); err != nil {
		t.Error(err)
	}
	_, err := anchor.NewWatcher(anchor.Watch{Circle: 40, Fix: 2, Memory: 30, Quiet: 599})
	refused(t, err, "Quiet")
}

func TestWatchRefuses(t *testing.T) {
	good := anchor.Watch{Circle: 50, Fix: 1.5, Memory: 120, Quiet: 86400}
	for field, w := range map[string]anchor.Watch{
		"Circle":      {Circle: units.Length(math.NaN()), Fix: 1.5, Memory: 120, Quiet: 86400},
		"Fix":         {Circle: 50, Memory: 120, Quiet: 86400},
		"Memory":      {Circle: 50, Fix: 1.5, Quiet: 86400},
		"Quiet":       {Circle: 50, Fix: 1.5, Memory: 120, Quiet: 130},
		"Anchor.East": {Anchor: anchor.Place{East: units.Length(math.Inf(1))}, Circle: 50, Fix: 1.5, Memory: 120, Quiet: 86400},
	} {
		_, err := w.Detect(nil)
		refused(t, err, field)
	}
	watch, err := anchor.NewWatcher(good)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2030, 5, 1, 0, 0, 0, 0, time.UTC)
	if _, err := watch.Add(anchor.Fix{At: at}); err != nil {
		t.Fatal(err)
	}
	_, err = watch.Add(anchor.Fix{At: at})
	refused(t, err, "Fix.At")
	_, err = watch.Add(anchor.Fix{At: at.Add(time.Second), Place: anchor.Place{North: units.Length(math.NaN())}})
	refused(t, err, "Fix.Place.North")
	if d, err := watch.Add(anchor.Fix{At: at.Add(2 * time.Second)}); err != nil || d.Found {
		t.Errorf("the watch did not go on: %+v, %v", d, err)
	}
}

// refused checks that an error names a field and wraps ErrInput.
func refused(t *testing.T, err error, field string) {
	t.Helper()
	var e *anchor.Error
	if !errors.As(err, &e) || !errors.Is(err, anchor.ErrInput) || e.Field != field {
		t.Errorf("error %v, want one about %s", err, field)
	}
}
