package rode_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Bad input is refused with the name of what is bad.
func TestCounterRefusals(t *testing.T) {
	nan, inf := units.Length(math.NaN()), units.Length(math.Inf(1))
	wheel := rode.ChainWheel{Pockets: 6, Pitch: 0.028, Wire: 0.01}
	chain := rode.Chain{Pitch: 0.028, Wire: 0.01}
	counter := rode.Counter{Setting: 0.33}
	scale := rode.Scale{Chain: 0.336}
	good := []rode.Lay{{To: 9.9, Taped: 10}, {To: 19.8, Taped: 20}}
	plan := rode.MarkPlan{Every: 5, Chain: 40, Pitch: 0.024}
	locker := rode.Locker{Length: 0.6, Width: 0.4, Fall: 1.2}
	lay := func(l rode.Lay) error {
		_, err := rode.Calibrate(counter, []rode.Lay{l}, rode.LayErrors{})
		return err
	}
	second := func(_ any, err error) error { return err }
	third := func(_, _ any, err error) error { return err }
	for i, c := range []struct {
		field string
		err   error
	}{
		{"Pockets", second(rode.ChainWheel{Pitch: 0.028}.Payout())},
		{"Pitch", second(rode.ChainWheel{Pockets: 6}.Payout())},
		{"Pitch", second(rode.ChainWheel{Pockets: 6, Pitch: nan}.Payout())},
		{"Pitch", second(rode.ChainWheel{Pockets: 6, Pitch: -1}.PitchDiameter())},
		{"Wire", second(rode.ChainWheel{Pockets: 6, Pitch: 0.028}.PitchDiameter())},
		{"Wire", second(rode.ChainWheel{Pockets: 6, Pitch: 0.028, Wire: 0.02}.PitchDiameter())},
		{"links", second(rode.MeasuredPitch(1, 0))},
		{"length", second(rode.MeasuredPitch(inf, 10))},
		{"chain.Pitch", second(wheel.Fit(rode.Chain{Wire: 0.01}))},
		{"chain.Wire", second(wheel.Fit(rode.Chain{Pitch: 0.028, Wire: nan}))},
		{"chain.OutsideWidth", second(wheel.Fit(rode.Chain{Pitch: 0.028, Wire: 0.01, OutsideWidth: -1}))},
		{"Wrap", second(rode.ChainWheel{Pockets: 6, Pitch: 0.028, Wire: 0.01, Wrap: 9}.Fit(chain))},
		{"Play", second(rode.ChainWheel{Pockets: 6, Pitch: 0.028, Wire: 0.01, Play: nan}.Fit(chain))},
		{"splice", second(wheel.FitRope(0.014, 0.012))},
		{"RopeLeast", second(rode.ChainWheel{RopeLeast: 1}.FitRope(0.014, 0.022))},
		{"payout", second(rode.CounterError(0, 0.33))},
		{"setting", second(rode.CounterError(0.336, nan))},
		{"Chain", second(rode.Scale{}.Turns(1))},
		{"Splice", second(rode.Scale{Chain: 0.3, Splice: 3}.Turns(1))},
		{"Splice", second(rode.Scale{Chain: 0.3, Rope: 0.3}.Turns(1))},
		{"Splice", second(rode.Scale{Rope: 0.3, Splice: 3}.Turns(1))},
		{"RopeU", second(rode.Scale{Rope: 0.3, RopeU: -1}.Turns(1))},
		{"out", second(scale.Turns(inf))},
		{"turns", third(toAny(scale.Out(math.NaN())))},
		{"Setting", second(rode.Counter{}.Reading(scale, 0, 1))},
		{"Pulses", second(rode.Counter{Setting: 0.33, Pulses: -1}.Reading(scale, 0, 1))},
		{"Step", second(rode.Counter{Setting: 0.33, Step: 1e-9}.Reading(scale, 0, 1))},
		{"Missed", second(rode.Counter{Setting: 0.33, Missed: 1}.Reading(scale, 0, 1))},
		{"phase", second(counter.Reading(scale, 1, 1))},
		{"phase", second(counter.Reading(scale, math.NaN(), 1))},
		{"moves[1]", second(counter.Reading(scale, 0, 1, -2))},
		{"moves[0]", second(counter.Reading(scale, 0, nan))},
		{"shown", second(counter.Length(scale, nan))},
		{"shown", second(rode.Counter{Setting: 0.33, Step: 1}.Length(scale, 0.5))},
		{"shown", second(rode.Counter{Setting: 0.33, Step: 0.1}.Length(scale, 0.1))}, // jumped over
		{"lays", second(rode.Calibrate(counter, nil, rode.LayErrors{}))},
		{"lays[0].Taped", lay(rode.Lay{To: 9.9})},
		{"lays[0].Taped", lay(rode.Lay{To: 9.9, Taped: inf})},
		{"lays[0].To", lay(rode.Lay{From: 9.9, To: 9.9, Taped: 1})},
		{"lays[0].To", lay(rode.Lay{To: nan, Taped: 1})},
		{"lays[0].To", lay(rode.Lay{To: 0.33, Taped: 1})}, // a pulse, which may be none
		{"lays[0].From", lay(rode.Lay{From: -1, To: 9.9, Taped: 1})},
		{"lays: payout", lay(rode.Lay{To: 3.3, Taped: 1e5})},
		{"Tape", second(rode.Calibrate(counter, good, rode.LayErrors{Tape: nan}))},
		{"TapeScale", second(rode.Calibrate(counter, good, rode.LayErrors{TapeScale: -1}))},
		{"Repeat", second(rode.Calibrate(counter, good, rode.LayErrors{Repeat: inf}))},
		{"Tape", second(rode.Calibrate(counter, []rode.Lay{good[0], {From: 0.33, To: 9.9, FromAtChange: true, ToAtChange: true, Taped: 10}}, rode.LayErrors{}))},
		{"Payout", second(rode.Calibration{}.Predict(counter, 9.9))},
		{"Correlation", third(toAny(rode.LayLine{Correlation: 2}.At(1)))},
		{"turns", third(toAny(rode.LayLine{}.At(math.Inf(1))))},
		{"a", second(rode.LayToTell(counter, 0, 0.33, rode.LayErrors{}))},
		{"b", second(rode.LayToTell(counter, 0.33, 0, rode.LayErrors{}))},
		{"measured", second(rode.Chain{Wire: 8e-3, Pitch: 24e-3, Mass: 1.4}.Worn(0))},
		{"b", second(rode.LayToTell(counter, 0.33, 0.33, rode.LayErrors{}))},
		{"b", second(rode.LayToTell(counter, 0.33, 0.33000001, rode.LayErrors{}))},
		{"TapeScale", second(rode.LayToTell(counter, 0.33, 0.336, rode.LayErrors{TapeScale: 0.01}))},
		{"LayGoal.Half", second(rode.ProposeLays(counter, rode.LayGoal{Payout: 0.336, Longest: 40}))},
		{"LayGoal.Longest", second(rode.ProposeLays(counter, rode.LayGoal{Payout: 0.336, Half: 0.001, Longest: 0.5}))},
		{"Every", second(rode.MarkRode(rode.MarkPlan{Chain: 40, Pitch: 0.024}))},
		{"Every", second(rode.MarkRode(rode.MarkPlan{Every: 1e-4, Rope: 40}))},
		{"Pitch", second(rode.MarkRode(rode.MarkPlan{Every: 5, Chain: 40}))},
		{"Chain", second(rode.MarkRode(rode.MarkPlan{Every: 5}))},
		{"AtZero", second(rode.MarkRode(rode.MarkPlan{Every: 5, Rope: 40, AtZero: 41}))},
		{"Scheme[0]", second(rode.MarkRode(rode.MarkPlan{Every: 0.05, Chain: 4, Pitch: 0.024, Scheme: [][]string{{"a", "b", "c"}}}))},
		{"Fall", second(rode.Locker{Length: 1, Width: 1}.Stow(rode.OfChain, 10, 0.01))},
		{"Slope", second(rode.Locker{Length: 1, Width: 1, Fall: 1, Slope: 90 * units.Degree}.Stow(rode.OfChain, 10, 0.01))},
		{"kind", second(locker.Stow(7, 10, 0.01))},
		{"length", second(locker.Stow(rode.OfChain, 0, 0.01))},
		{"diameter", second(locker.Stow(rode.OfChain, 10, nan))},
		{"Divisor", second(rode.LockerRule{}.Volume(1, 0.01))},
	} {
		var e *rode.Error
		if !errors.As(c.err, &e) || !errors.Is(c.err, rode.ErrInput) {
			t.Errorf("%d, %s: %v", i, c.field, c.err)
			continue
		}
		if e.Field != c.field || e.Want == "" {
			t.Errorf("%d: %v, want one about %s", i, c.err, c.field)
		}
	}
	marks, err := rode.MarkRode(plan)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := marks.Table("furlong"); !errors.Is(err, rode.ErrUnknown) {
		t.Error(err)
	}
}

func toAny[A, B any](a A, b B, err error) (any, any, error) { return a, b, err }

// FuzzCalibrate reads lays as a person may type them: from, to, taped, with ! for a
// mark at the change of the display, one lay a line. Whatever they are, there is
// an error with a sentinel or a result that JSON takes, with its payout inside its
// interval.
func FuzzCalibrate(f *testing.F) {
	f.Add(0.33, 1, 0.0, 0.01, 0.0, 0.0, "0 9.9 10.1\n0 19.8 20.1\n")
	f.Add(0.336, 2, 0.1, 0.0, 0.001, 0.3, "0 10 10\n20.1! 3.1! 17\n")
	f.Add(0.33, 1, 1.0, 0.02, 0.0, 1e-7, "1! 20! 19.4\n0 20! 20\n20 0 20.1\n")
	f.Add(0.33, 1, 0.0, 0.0, 0.0, 1e-300, "0 9.9 10\n0 19.8 40\n")
	f.Add(1.0, 1000, 0.0, 0.0, 0.0, 0.0, "1! 2! 1\n1! 3! 2\n1! 4! 3\n")
	f.Fuzz(func(t *testing.T, setting float64, pulses int, step, tape, scale, repeat float64, text string) {
		c := rode.Counter{Setting: units.Length(setting), Pulses: pulses, Step: units.Length(step)}
		var lays []rode.Lay
		for line := range strings.Lines(text) {
			var from, to, taped string
			if n, _ := fmt.Sscan(line, &from, &to, &taped); n < 3 || len(lays) > 20 {
				continue
			}
			var l rode.Lay
			from, l.FromAtChange = strings.CutSuffix(from, "!")
			to, l.ToAtChange = strings.CutSuffix(to, "!")
			fmt.Sscan(from, &l.From)
			fmt.Sscan(to, &l.To)
			fmt.Sscan(taped, &l.Taped)
			lays = append(lays, l)
		}
		r, err := rode.Calibrate(c, lays, rode.LayErrors{Tape: units.Length(tape), TapeScale: scale, Repeat: units.Length(repeat)})
		if err != nil {
			var e *rode.Error
			if !errors.As(err, &e) || errors.Unwrap(e) == nil {
				t.Fatalf("error without a sentinel: %v", err)
			}
			return
		}
		if !marshals(r) || !(r.Interval.Low <= r.Payout && r.Payout <= r.Interval.High) {
			t.Fatalf("%+v", r)
		}
		b, err := r.Predict(c, lays[0].To)
		if err == nil && (!marshals(b) || !(b.Low <= b.Length && b.Length <= b.High)) {
			t.Fatalf("%+v", b)
		}
	})
}
