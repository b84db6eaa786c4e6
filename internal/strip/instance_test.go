package strip

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// instance is a published problem.
type instance struct {
	name    string
	width   float64 // nominal
	mean    float64 // published mean length, see published
	rate    float64 // million places that a worker tries in a second, for results.csv
	scale   float64 // units of the problem in one of the instance
	area    float64 // of all pieces
	problem Problem
}

// published are nominal widths, and mean used lengths of 50 runs of 1,200 s with
// three threads: Gardeyn, Vanden Berghe and Wauters, arXiv 2509.13329 (2025),
// from the run logs published with it.
var published = []instance{
	{name: "albano", width: 4900, mean: 9731.081, rate: 5},
	{name: "dagli", width: 60, mean: 56.679, rate: 4.5},
	{name: "fu", width: 38, mean: 30.892, rate: 4.5},
	{name: "jakobs1", width: 40, mean: 11.000, rate: 2.5},
	{name: "shapes0", width: 40, mean: 58.180, rate: 4.5},
	{name: "shirts", width: 40, mean: 60.188, rate: 3.8},
	{name: "trousers", width: 79, mean: 237.296, rate: 4},
}

// read reads the pieces of an instance. They are scaled by the largest power of
// ten that the search holds, which makes all their coordinates whole numbers.
func read(t testing.TB, in instance) instance {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "canvas", "esicup", in.name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Items []struct {
			Demand       int       `json:"demand"`
			Orientations []float64 `json:"allowed_orientations"`
			Shape        struct {
				Data [][2]float64 `json:"data"`
			} `json:"shape"`
		} `json:"items"`
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	extent := 0.0
	for _, item := range file.Items {
		x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, v := range item.Shape.Data {
			x0, y0, x1, y1 = min(x0, v[0]), min(y0, v[1]), max(x1, v[0]), max(y1, v[1])
		}
		extent += max(x1-x0, y1-y0) * float64(item.Demand)
	}
	in.scale = math.Pow10(int(math.Floor(math.Log10(maxExtent / extent))))
	in.problem.Width = int64(in.width * in.scale)
	for k, item := range file.Items {
		ring := make([]int64, 0, 2*len(item.Shape.Data))
		for _, v := range item.Shape.Data {
			for _, c := range v {
				whole := math.Round(c * in.scale)
				if math.Abs(whole-c*in.scale) > 1e-6 {
					t.Fatalf("%s: item %d: %v is not whole in units of 1/%v", in.name, k, c, in.scale)
				}
				ring = append(ring, int64(whole))
			}
		}
		shape := Shape{Count: item.Demand}
		for _, deg := range item.Orientations {
			shape.Turns = append(shape.Turns, quarterTurns(ring, int(deg)/90))
			if math.Mod(deg, 90) != 0 {
				t.Fatalf("%s: item %d: %v degrees", in.name, k, deg)
			}
		}
		in.area += ringArea(ring) * float64(item.Demand) / in.scale / in.scale
		in.problem.Shapes = append(in.problem.Shapes, shape)
	}
	return in
}

// quarterTurns turns a ring counter-clockwise.
func quarterTurns(ring []int64, quarters int) []int64 {
	r := append([]int64(nil), ring...)
	for range quarters {
		for k := 0; k < len(r); k += 2 {
			r[k], r[k+1] = -r[k+1], r[k]
		}
	}
	return r
}

// ringArea is the area inside a ring.
func ringArea(ring []int64) float64 {
	twice := 0.0
	n := len(ring)
	for k := 0; k < n; k += 2 {
		twice += float64(ring[k])*float64(ring[(k+3)%n]) - float64(ring[(k+2)%n])*float64(ring[k+1])
	}
	return math.Abs(twice) / 2
}

// TestInstances compares what was read with the published sizes.
func TestInstances(t *testing.T) {
	want := map[string]struct {
		pieces int
		area   float64
	}{
		"albano": {24, 42656785}, "dagli": {30, 3034.5}, "fu": {12, 1083}, "jakobs1": {25, 392},
		"shapes0": {43, 1596}, "shirts": {99, 2160}, "trousers": {64, 17206.5},
	}
	for _, in := range published {
		in = read(t, in)
		if err := in.problem.Check(); err != nil {
			t.Errorf("%s: %v", in.name, err)
		}
		w := want[in.name]
		if n := in.problem.pieces(); n != w.pieces || math.Abs(in.area-w.area) > 0.05 {
			t.Errorf("%s: %d pieces of area %v, want %d of %v", in.name, n, in.area, w.pieces, w.area)
		}
	}
}
