package anchor

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/forepeak/units"
)

// RideResult is what a boat felt in one realisation of gusts and waves.
type RideResult struct {
	Bow    Felt // tension at the roller
	Cleat  Felt // what of it reaches the cleat
	Anchor Felt // tension at the anchor
	// Static is the bow tension of the same boat and rode in the mean wind, current and
	// drift without motion, head to wind, and Amplification the peak at the bow over that.
	Static        units.Force
	Amplification float64
	// Lift is the greatest angle of the pull above the bed at the anchor, and
	// LiftedFor the part of the time in which it was above 0.
	Lift      units.Angle
	LiftedFor float64
	// Sheer is the greatest angle of the heading off the mean wind, Farthest that of
	// the roller from the anchor.
	Sheer    units.Angle
	Farthest units.Length
	Slack    float64 // part of the time without pull
	// Snatch is the greatest speed of the roller, to and fro along the rode and up
	// and down together, over the speed at which the lowest piece of the rode sinks
	// sideways, as it must to follow. Trusted is whether that is at most 0.3. Beyond,
	// inertia and drag of the rode make the peaks higher than those of a static
	// rode: those of a chain of lumped masses, its bow moved evenly, were the same to
	// 2 % or lower up to 0.3, and higher by up to 10 % at 0.4, 30 % at 0.6 and 75 %
	// at 0.8. The peaks here are then not on the safe side.
	Snatch  float64
	Trusted bool
	Track   []RideMoment `json:",omitempty"`
}

// Felt sums up a load in time. Significant is the mean of the highest third of
// its peaks, one between each two crossings of its mean.
type Felt struct{ Mean, Deviation, Significant, Peak units.Force }

// RideMoment is the state at one time.
type RideMoment struct {
	At               units.Time
	Wind             units.Speed  // along the mean wind
	Downwind, Across units.Length // midships from the anchor; across is to the right, facing the wind
	Heading          units.Angle  // of the bow to the right of the wind
	Bow, Anchor      units.Force
	Lift             units.Angle
}

// run is the room that one realisation needs. It is used again.
type run struct {
	s                  *system
	r                  *Ride
	wind, waves        *maker
	along, across      []float64
	sea                seaway
	bow, anchor, cleat []float64
	steps, settle      int
}

func newRun(s *system, r *Ride) *run {
	n := &run{s: s, r: r}
	n.steps = int(math.Ceil(r.duration()/s.step - 1e-9))
	n.settle = int(math.Ceil(r.settle()/s.step - 1e-9))
	seconds := float64(n.steps+n.settle+2) * s.step
	n.wind = newMaker(seconds+gustStep, gustStep)
	if r.Waves.Height > 0 {
		n.waves = newMaker(seconds, s.step)
	}
	n.bow, n.anchor, n.cleat = make([]float64, n.steps), make([]float64, n.steps), make([]float64, n.steps)
	return n
}

// gustStep is the time between the entries of the gusts' series.
const gustStep = 0.25

// weather draws gusts and waves of a realisation.
func (n *run) weather(number uint64) {
	rng := rand.New(rand.NewPCG(n.r.Seed, number))
	density := n.r.Gusts.density(n.r.Wind)
	gust := func(f float64) float64 {
		if f < 1.0/3600 {
			return 0 // a slower change is one of the hourly mean
		}
		return density(f)
	}
	n.wind.draw(rng, gust)
	n.along = n.wind.series(room(n.along, n.wind.n), nil)
	n.wind.draw(rng, gust)
	n.across = n.wind.series(room(n.across, n.wind.n), nil)
	share := or(n.r.Gusts.Across, 0.75)
	for i := range n.across {
		n.across[i] *= share
	}
	if n.waves != nil {
		w := n.r.waves()
		n.sea.fill(n.waves, rng, &w, n.r.Regular, float64(n.r.Below.Length), n.s.ahead)
	}
}

// outside is what acts at half steps.
func (n *run) outside(half int) outside {
	t := float64(half) * n.s.step / 2 / gustStep
	i := int(t)
	f := t - float64(i)
	o := outside{
		along:  n.along[i] + f*(n.along[i+1]-n.along[i]),
		across: n.across[i] + f*(n.across[i+1]-n.across[i]),
	}
	if n.waves != nil {
		j := half / 2
		o.bow, o.stream, o.forward = n.sea.bow[j], n.sea.stream[j], n.sea.forward[j]
		if half%2 == 1 {
			o.bow = (o.bow + n.sea.bow[j+1]) / 2
			o.stream = (o.stream + n.sea.stream[j+1]) / 2
			o.forward = (o.forward + n.sea.forward[j+1]) / 2
		}
	}
	return o
}

// start is the boat at rest in the mean wind, head to it, where the rode holds her.
func (n *run) start() (motion, lineState, error) {
	s := n.s
	sin, cos := math.Sincos(0)
	rest := motion{u: -s.current[0], v: -s.current[1]}
	x, _, _ := s.forces(&rest, &outside{}, sin, cos)
	pull := math.Max(0, -x)
	// The distance at that pull, by bisection in the table.
	lo, hi := 0.0, s.line.distance[len(s.line.pulls)-1]
	for i := range s.line.heights {
		hi = math.Min(hi, s.line.distance[(i+1)*len(s.line.pulls)-1])
	}
	hint := 0
	for range 100 {
		middle := (lo + hi) / 2
		if p, ok := s.line.pullAt(middle, s.roller, &hint); ok && p < pull {
			lo = middle
		} else {
			hi = middle
		}
	}
	st, ok := s.line.at(lo, s.roller, &hint)
	if !ok {
		return motion{}, lineState{}, refuseAs(ErrParted, "pull", units.Force(pull), "what the rode can hold")
	}
	rest.x = -lo - s.ahead
	return rest, st, nil
}

// progressEvery is the number of steps between looks at the context.
const progressEvery = 4096

// realise follows one realisation.
func (n *run) realise(ctx context.Context, number uint64, progress func(part float64)) (RideResult, error) {
	n.weather(number)
	m, static, err := n.start()
	if err != nil {
		return RideResult{}, err
	}
	s := n.s
	var out RideResult
	out.Static = units.Force(math.Hypot(static.pull, static.vertical))
	var lifted, slack int
	var lift, sheer, farthest, speed, last float64
	every := int(math.Round(float64(n.r.Every) / s.step))
	if n.r.Every > 0 {
		every = max(every, 1)
		out.Track = make([]RideMoment, 0, n.steps/every+1)
	}
	total := n.settle + n.steps
	hint := 0
	from := n.outside(0)
	for k := range total {
		if k%progressEvery == 0 {
			if err := ctx.Err(); err != nil {
				return RideResult{}, err
			}
			if progress != nil {
				progress(float64(k) / float64(total))
			}
		}
		middle, to := n.outside(2*k+1), n.outside(2*k+2)
		if !s.advance(&m, &from, &middle, &to, &hint) {
			return RideResult{}, n.parted(float64(k-n.settle) * s.step)
		}
		moved := to.bow - from.bow
		from = to
		i := k - n.settle
		if i < 0 {
			continue
		}
		sin, cos := math.Sincos(m.heading)
		bx, by := m.x+s.ahead*cos, m.y+s.ahead*sin
		d := math.Hypot(bx, by)
		if i > 0 {
			speed = math.Max(speed, math.Hypot(d-last, moved)/s.step)
		}
		last = d
		st, ok := s.line.at(d, s.roller+to.bow, &hint)
		if !ok || !finite(m.u+m.v+m.r) {
			return RideResult{}, n.parted(float64(i) * s.step)
		}
		n.bow[i], n.anchor[i] = math.Hypot(st.pull, st.vertical), st.anchor
		n.cleat[i] = n.bow[i]
		if s.fairlead > 0 {
			n.cleat[i] *= math.Exp(-s.fairlead * math.Atan2(math.Max(0, st.vertical), st.pull))
		}
		if st.lift > 0 {
			lifted++
			lift = math.Max(lift, st.lift)
		}
		if st.pull == 0 {
			slack++
		}
		sheer = math.Max(sheer, math.Abs(math.Remainder(m.heading, 2*math.Pi)))
		farthest = math.Max(farthest, d)
		if every > 0 && i%every == 0 {
			out.Track = append(out.Track, RideMoment{
				At: units.Time(float64(i) * s.step), Wind: units.Speed(s.speed + to.along),
				Downwind: units.Length(-m.x), Across: units.Length(m.y), Heading: units.Angle(math.Remainder(m.heading, 2*math.Pi)),
				Bow: units.Force(n.bow[i]), Anchor: units.Force(st.anchor), Lift: units.Angle(st.lift),
			})
		}
	}
	out.Bow, out.Cleat, out.Anchor = sumUp(n.bow), sumUp(n.cleat), sumUp(n.anchor)
	out.Lift, out.LiftedFor = units.Angle(lift), float64(lifted)/float64(n.steps)
	out.Sheer, out.Farthest, out.Slack = units.Angle(sheer), units.Length(farthest), float64(slack)/float64(n.steps)
	if out.Static > 0 {
		out.Amplification = out.Bow.Peak.Per(out.Static)
	}
	if s.fall > 0 {
		out.Snatch = speed / s.fall
	}
	out.Trusted = out.Snatch <= trusted
	if progress != nil {
		progress(1)
	}
	return out, nil
}

// trusted is the Snatch up to which a lumped-mass line agrees with the static one.
const trusted = 0.3

func (n *run) parted(t float64) error {
	return refuseAs(ErrParted, "load of the rode", fmt.Sprintf("beyond its curve at %.1f s", t), "a stronger or longer rode, or less wind")
}

// sumUp tells mean, deviation and peaks of a series.
func sumUp(v []float64) Felt {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	mean := sum / float64(len(v))
	squares, peak := 0.0, v[0]
	var peaks []float64
	above, top := false, 0.0
	for i, x := range v {
		squares += (x - mean) * (x - mean)
		peak = math.Max(peak, x)
		switch {
		case x > mean && !above:
			above, top = i > 0, x
		case x > mean:
			top = math.Max(top, x)
		case above:
			peaks = append(peaks, top)
			above = false
		}
	}
	f := Felt{Mean: units.Force(mean), Deviation: units.Force(math.Sqrt(squares / float64(len(v)))), Peak: units.Force(peak)}
	f.Significant = f.Peak
	if len(peaks) > 0 {
		slices.Sort(peaks)
		third := peaks[len(peaks)-max(1, len(peaks)/3):]
		sum = 0
		for _, p := range third {
			sum += p
		}
		f.Significant = units.Force(sum / float64(len(third)))
	}
	return f
}

// Simulate follows the boat through one realisation of gusts and waves: surge,
// sway and yaw with the water's added mass, the loads of [Windage] and [Underwater] at
// the apparent wind and the flow past the hull, strip by strip when she turns,
// and the static pull of the rode at the distance and the height of the bow,
// which rides the waves as a raft does. progress, if not nil, is told the part done.
//
// In waves the water past the hull goes to and fro itself, as fast as it does at the
// surface on the average along the boat, and drag is that of the speed through it. So a boat
// on a slack rode moves with the water as [Waves.Surge] says, within 0.1 %; a rode that
// holds her makes it less.
//
// The pull of the rode comes from a table that is checked to be within 1 % of
// [rode.SolveDistance]; the tension at the anchor is within 2 % of the pull. An hour
// takes about a tenth of a second.
//
// It stops with the context's error when the context ends, and with one that
// wraps [ErrParted] when the rode is loaded beyond its curve.
//
// Gusts strike the whole boat at once, waves are of small height and come from
// ahead, the rode has no inertia and no drag (see RideResult.Trusted), the anchor
// does not move, and the helm is left alone. A boat's own habits of sheering come
// from details that areas do not tell: compare with what she does, and trust
// differences between two rodes more than the loads themselves.
func (r Ride) Simulate(ctx context.Context, progress func(part float64)) (RideResult, error) {
	s, err := newSystem(&r)
	if err != nil {
		return RideResult{}, err
	}
	return newRun(s, &r).realise(ctx, 0, progress)
}
