package canvas

import (
	"container/heap"
	"fmt"
	"math"
	"strings"
)

// Suggest returns a row of points along which to cut a mesh further, as another
// of its Lines: from one outline to another where a part has several, through a
// closed part, and otherwise the shortest way from the point with the greatest
// angle defect to the outline. It is empty where there is nothing to gain.
func (m Mesh) Suggest() ([]int, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	sheets, _, err := m.split()
	if err != nil {
		return nil, err
	}
	for i := range sheets {
		if !sheets[i].disk {
			return m.cut(&sheets[i]), nil
		}
	}
	var worst *sheet
	most := flatDefect
	for i := range sheets {
		if _, d := m.defect(&sheets[i]); d > most {
			worst, most = &sheets[i], d
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

// defect is the point inside a sheet that lacks or has in excess the largest
// angle, -1 if there is none inside, and that angle.
func (m *Mesh) defect(h *sheet) (at int, angle float64) {
	around := make([]float64, len(h.from))
	for i, t := range h.tri {
		for k, p := range t {
			around[p] += m.angle(m.Triangles[h.of[i]], k)
		}
	}
	at = -1
	for p, sum := range around {
		if d := math.Abs(2*math.Pi - sum); h.interior[p] && (at < 0 || d > angle) {
			at, angle = p, d
		}
	}
	return at, angle
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
	worst, _ := m.defect(h)
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
