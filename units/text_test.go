package units_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

// All quantities have the same text form; what holds for one is checked for all.
func TestTextOfEveryQuantity(t *testing.T) {
	for _, k := range kinds {
		v := k.of(2.5)
		want := v.(fmt.Stringer).String()
		if got := fmt.Sprint(v); got != want {
			t.Errorf("%s: Sprint gives %q, String %q", k.name, got, want)
		}

		text, err := v.(encoding.TextMarshaler).MarshalText()
		if err != nil || string(text) != want {
			t.Errorf("%s: MarshalText gives %q, %v; want %q", k.name, text, err, want)
		}
		text, err = v.(encoding.TextAppender).AppendText([]byte("x="))
		if err != nil || string(text) != "x="+want {
			t.Errorf("%s: AppendText gives %q, %v", k.name, text, err)
		}
		p := k.zero()
		if err := p.(encoding.TextUnmarshaler).UnmarshalText([]byte(want)); err != nil || fmt.Sprint(p) != want {
			t.Errorf("%s: UnmarshalText(%q) gives %v, %v", k.name, want, p, err)
		}
		if err := p.(encoding.TextUnmarshaler).UnmarshalText([]byte("2.5")); !errors.Is(err, units.ErrParse) {
			t.Errorf("%s: UnmarshalText of a bare number: %v", k.name, err)
		}
		if fmt.Sprint(p) != want {
			t.Errorf("%s: UnmarshalText with an error changed the value to %v", k.name, p)
		}

		j, err := json.Marshal(map[string]any{"q": v})
		if err != nil || string(j) != `{"q":"`+want+`"}` {
			t.Errorf("%s: JSON is %s, %v", k.name, j, err)
		}

		for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			text, err := k.of(x).(encoding.TextMarshaler).MarshalText()
			var ve *units.ValueError
			if !errors.Is(err, units.ErrValue) || !errors.As(err, &ve) || len(text) != 0 {
				t.Errorf("%s: MarshalText of %v gives %q, %v; want a *ValueError", k.name, x, text, err)
			}
			text, err = k.of(x).(encoding.TextAppender).AppendText([]byte("x="))
			if !errors.Is(err, units.ErrValue) || string(text) != "x=" {
				t.Errorf("%s: AppendText of %v gives %q, %v", k.name, x, text, err)
			}
			if _, err := json.Marshal(k.of(x)); !errors.Is(err, units.ErrValue) {
				t.Errorf("%s: JSON of %v: %v", k.name, x, err)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	type rode struct {
		Chain  units.Length
		Weight units.LinearDensity
		Loads  map[units.Speed]units.Force
	}
	in := `{"Chain":"40 m","Weight":"1.4 kg/m","Loads":{"10 m/s":"1.45 kN"}}`
	want := rode{40 * units.Metre, 1.4 * units.KilogramPerMetre, map[units.Speed]units.Force{10 * units.MetrePerSecond: 1450 * units.Newton}}
	var got rode
	if err := json.Unmarshal([]byte(in), &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	out, err := json.Marshal(got)
	if err != nil {
		t.Fatal(err)
	}
	if want := `{"Chain":"40 m","Weight":"1.4 kg/m","Loads":{"10 m/s":"1450 N"}}`; string(out) != want {
		t.Errorf("got %s, want %s", out, want)
	}

	for _, bad := range []string{`{"Chain":40}`, `{"Chain":true}`, `{"Chain":["40 m"]}`, `{"Chain":"40"}`, `{"Chain":"40 kg"}`, `{"Loads":{"10":"1 N"}}`} {
		if err := json.Unmarshal([]byte(bad), &got); err == nil {
			t.Errorf("%s is accepted", bad)
		}
	}
}

func TestFlag(t *testing.T) {
	var depth units.Length
	set := flag.NewFlagSet("test", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.TextVar(&depth, "depth", 4*units.Metre, "depth at low water")
	if err := set.Parse(nil); err != nil || depth != 4 {
		t.Errorf("default: %v, %v", depth, err)
	}
	if err := set.Parse([]string{"-depth", "11ft 6in"}); err != nil || depth != 3.5052 {
		t.Errorf("got %v, %v", depth, err)
	}
	if err := set.Parse([]string{"-depth", "12"}); err == nil || !strings.Contains(err.Error(), "the unit is missing") {
		t.Errorf("bare number: %v", err)
	}
	if got := set.Lookup("depth").DefValue; got != "4 m" {
		t.Errorf("default is shown as %q", got)
	}
}

func TestValueErrorText(t *testing.T) {
	_, err := units.Mass(math.Inf(1)).MarshalText()
	want := &units.ValueError{Quantity: "mass", Value: "+Inf kg", Reason: "only finite values have a text form"}
	if diff := cmp.Diff(want, err); diff != "" {
		t.Error(diff)
	}
	if got := err.Error(); got != "units: mass +Inf kg: only finite values have a text form" {
		t.Error(got)
	}
}
