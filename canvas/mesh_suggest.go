package canvas

import (
	"container/heap"
	"fmt"
	"math"
	"strings"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Suggest returns a row of points along which to cut a mesh further, as another
// of its Lines: from one outline to another where a part has several, through a
// closed part, and otherwise the shortest way from the point with the greatest
// angle defect to the outline. It is empty where there is nothing to gain, and for
// parts with a handle, whose cut across it must be chosen by hand.
func (m Mesh) Suggest() ([]int, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	sheets, _, err := m.split()
	if err != nil {
		return nil, err
	}
	for i := range sheets {
		if !sheets[i].disk && sheets[i].loops != 1 {
			return m.cut(&sheets[i]), nil
		}
	}
	var worst *sheet
	most := units.Angle(flatDefect)
	for i := range sheets {
		if _, d, _ := m.defect(&sheets[i]); sheets[i].disk && d.Abs() > most {
			worst, most = &sheets[i], d.Abs()
		}
	}
	if worst == nil {
		return nil, nil
	}
	return m.cut(worst), nil
}

// cutFor is a cut in words.
func (m *Mesh) cutFor(h *sheet) string {
	row := m.cut(h)
	if row == nil {
		return ""
	}
	words := make([]string, len(row))
	for i, p := range row {
		words[i] = fmt.Sprint(p)
	}
	return ", as after a cut along points " + strings.Join(words, " ")
}

// defect is the point inside a sheet that lacks the largest angle, without regard
// to sign, -1 if there is none inside; that angle, and the sum over all points inside.
func (m *Mesh) defect(h *sheet) (at int, angle, total units.Angle) {
	around := make([]float64, len(h.from))
	for i, t := range h.tri {
		for k, p := range t {
			around[p] += m.angle(m.Triangles[h.of[i]], k)
		}
	}
	at = -1
	for p, sum := range around {
		if !h.interior[p] {
			continue
		}
		d := units.Angle(2*math.Pi - sum)
		total += d
		if at < 0 || plane.Clearly(float64(d.Abs()), float64(angle.Abs())) { // of points that are alike the first
			at, angle = p, d
		}
	}
	return at, angle, total
}

func (m *Mesh) cut(h *sheet) []int {
	beside := make([][]int, len(h.from))
	for _, t := range h.tri {
		for k := range 3 {
			beside[t[k]] = append(beside[t[k]], t[(k+1)%3], t[(k+2)%3])
		}
	}
	var from []int
	end := make([]bool, len(h.from))
	worst, _, _ := m.defect(h)
	switch {
	case h.loops > 1:
		for p := range end {
			end[p] = !h.interior[p]
		}
		for _, s := range h.outline {
			from, end[s.a] = append(from, s.a), false
		}
	case h.loops == 0:
		from = []int{worst} // to the farthest point
	case h.disk && worst >= 0:
		from = []int{worst}
		for p := range end {
			end[p] = !h.interior[p]
		}
	default:
		return nil
	}
	distance, before := make([]float64, len(h.from)), make([]int, len(h.from))
	for p := range distance {
		distance[p], before[p] = math.Inf(1), -1
	}
	var row queue
	for _, p := range from {
		distance[p] = 0
		row = append(row, visit{p, 0})
	}
	last := -1
	for len(row) > 0 {
		v := heap.Pop(&row).(visit)
		if v.distance > distance[v.point] {
			continue
		}
		last = v.point
		if end[last] {
			break
		}
		for _, q := range beside[last] {
			if d := v.distance + m.side(h.from[last], h.from[q]); d < distance[q] {
				distance[q], before[q] = d, last
				heap.Push(&row, visit{q, d})
			}
		}
	}
	var out []int
	for p := last; p >= 0; p = before[p] {
		out = append(out, h.from[p])
	}
	return out
}

// visit is a point that has been reached, and how far it was.
type visit struct {
	point    int
	distance float64
}

// queue gives the nearest first.
type queue []visit

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, j int) bool { return q[i].distance < q[j].distance }
func (q queue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)        { *q = append(*q, x.(visit)) }
func (q *queue) Pop() any {
	last := len(*q) - 1
	x := (*q)[last]
	*q = (*q)[:last]
	return x
}
