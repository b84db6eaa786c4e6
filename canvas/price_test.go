package canvas_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

func TestBill(t *testing.T) {
	const m, mm = units.Metre, units.Millimetre
	list := canvas.PriceList{
		Binding: canvas.Ware{Lot: 100 * mm, Low: 2.5, High: 3},
		Thread:  canvas.Ware{Lot: 1000 * m, Low: 18},
		Webbing: canvas.Ware{Lot: 1 * m, Low: 1.25, High: 2},
		Pieces:  map[string]canvas.Ware{"eyelet": {Pack: 25, Low: 6, High: 7}, "snap": {}},
	}
	q := canvas.Quantities{Binding: 2.41 * m, Thread: 1001 * m, Webbing: 3 * m, Zip: 0.7 * m}
	bill, err := list.Bill(q, map[string]int{"eyelet": 26, "snap": 3, "hook": 2, "none": 0})
	if err != nil {
		t.Fatal(err)
	}
	price := func(low, high units.Money) units.Interval[units.Money] {
		return units.Interval[units.Money]{Low: low, High: high}
	}
	want := canvas.Bill{
		Lines: []canvas.BillLine{
			{Name: "Thread", Length: 1001 * m, Lots: 2, Interval: price(36, 36)},
			{Name: "Binding", Length: 2.41 * m, Lots: 25, Interval: price(62.5, 75)},
			{Name: "Webbing", Length: 3 * m, Lots: 3, Interval: price(3.75, 6)},
			{Name: "eyelet", Count: 26, Lots: 2, Interval: price(12, 14)},
		},
		Interval: price(114.25, 131),
		Unpriced: []string{"Zip", "hook", "snap"},
	}
	if d := cmp.Diff(want, bill); d != "" {
		t.Error(d)
	}
	// Ten decimetres that were added up are ten, not eleven.
	var ten units.Length
	for range 10 {
		ten += 100 * mm
	}
	for _, need := range []units.Length{1 * mm, 99.9 * mm, 100 * mm, ten, 1.0001 * m, 37 * m} {
		bill, err := list.Bill(canvas.Quantities{Binding: need}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if n, exact := bill.Lines[0].Lots, math.Ceil(math.Round(need.Millimetres()*10)/1000); float64(n) != exact {
			t.Errorf("%v in lots of 100 mm: %d, want %v", need, n, exact)
		}
	}
	if bill, err := (canvas.PriceList{}).Bill(q, nil); err != nil || bill.High != 0 || len(bill.Unpriced) != 4 {
		t.Errorf("without prices: %+v, %v", bill, err)
	}
}

func TestBillRefuses(t *testing.T) {
	good := canvas.Ware{Lot: 1, Pack: 1, Low: 1}
	nan := math.NaN()
	for _, tt := range []struct {
		field  string
		ware   canvas.Ware
		length units.Length
		count  int
	}{
		{"Rope needed", good, units.Length(nan), 1},
		{"Rope needed", good, -1, 1},
		{"Rope.Low", canvas.Ware{Lot: 1, Low: units.Money(nan)}, 1, 1},
		{"Rope.High", canvas.Ware{Lot: 1, Low: 2, High: 1}, 1, 1},
		{"Rope.High", canvas.Ware{Lot: 1, Low: 2, High: units.Money(math.Inf(1))}, 1, 1},
		{"Rope.Low", canvas.Ware{Lot: 1, High: 1}, 1, 1},
		{"Rope.Lot", canvas.Ware{Pack: 1, Low: 1}, 1, 1},
		{`Pieces["snap"] needed`, good, 1, -1},
		{`Pieces["snap"].Pack`, canvas.Ware{Lot: 1, Low: 1}, 1, 1},
		{`Pieces["snap"].Low`, canvas.Ware{Lot: 1, Pack: 1, Low: -1}, 0, 1},
	} {
		list := canvas.PriceList{Rope: tt.ware, Pieces: map[string]canvas.Ware{"snap": tt.ware}}
		if strings.HasPrefix(tt.field, "Pieces") {
			list.Rope = good
		}
		_, err := list.Bill(canvas.Quantities{Rope: tt.length}, map[string]int{"snap": tt.count})
		var e *canvas.Error
		if !errors.As(err, &e) || !errors.Is(err, canvas.ErrInput) || e.Field != tt.field {
			t.Errorf("%+v: %v, want a refusal of %s", tt, err, tt.field)
		}
	}
}
