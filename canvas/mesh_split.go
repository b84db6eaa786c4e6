package canvas

import (
	"fmt"
	"slices"
	"strconv"
)

// sheet is a connected part of a mesh after it was cut along its lines. Points
// on a cut appear once for each side.
type sheet struct {
	of       []int    // triangles of the mesh
	tri      [][3]int // the same in points of the sheet
	from     []int    // point of the mesh of each point
	outline  []half   // anticlockwise when it is a disk
	loops    int
	disk     bool
	interior []bool // of each point
}

// half is a side of a triangle that is on the outline, from one point of the
// sheet to another, which the next half begins with.
type half struct {
	a    int
	part int // of the lines, -1 where none is marked
	back bool
}

// part is a piece of a line between two places where lines meet or end.
type part struct {
	name   string
	points []int
	finish Finish
	inner  bool
}

// pair is a side of a triangle, in its direction.
type pair [2]int

func (p pair) back() pair { return pair{p[1], p[0]} }

// sides finds, for each side in its direction, the triangle to its left.
func (m *Mesh) sides() (map[pair]int, error) {
	left := make(map[pair]int, 3*len(m.Triangles))
	for i, t := range m.Triangles {
		for k := range 3 {
			s := pair{t[k], t[(k+1)%3]}
			if j, twice := left[s]; twice {
				return nil, refuseAs(ErrMesh, fmt.Sprintf("Triangles[%d]", i), fmt.Sprintf("to the left of %d-%d, as triangle %d is", s[0], s[1], j),
					"one triangle on each side of a line, all anticlockwise seen from the right side of the cloth")
			}
			left[s] = i
		}
	}
	return left, nil
}

// parts divides the lines where they meet others or, inside, the outline.
func (m *Mesh) parts(left map[pair]int) ([]part, error) {
	rim := make([]bool, len(m.Points))
	for _, t := range m.Triangles {
		for k := range 3 {
			s := pair{t[k], t[(k+1)%3]}
			if _, two := left[s.back()]; !two {
				rim[s[0]], rim[s[1]] = true, true
			}
		}
	}
	visits := make([]int, len(m.Points))
	marked := map[pair]bool{}
	inner := make([]bool, len(m.Lines))
	for i, l := range m.Lines {
		for k := 1; k < len(l.Points); k++ {
			field := fmt.Sprintf("Lines[%d].Points[%d]", i, k)
			s := pair{l.Points[k-1], l.Points[k]}
			_, there := left[s]
			_, back := left[s.back()]
			switch {
			case !there && !back:
				return nil, refuse(field, l.Points[k], fmt.Sprintf("a point that a side of a triangle joins to point %d", s[0]))
			case k > 1 && (there && back) != inner[i]:
				return nil, refuse(field, l.Points[k], "a line that is either on the outline or inside")
			case marked[s] || marked[s.back()]:
				return nil, refuse(field, l.Points[k], "a side that no line has yet")
			}
			inner[i] = there && back
			marked[s] = true
		}
		for k, p := range l.Points {
			if k == 0 || p != l.Points[0] {
				visits[p]++
			}
			if k == 0 || k+1 == len(l.Points) {
				visits[p]++ // an end divides whatever passes
			}
			if inner[i] && rim[p] {
				visits[p]++
			}
		}
	}
	var all []part
	for i, l := range m.Lines {
		var cuts []int
		for k := 1; k+1 < len(l.Points); k++ {
			if visits[l.Points[k]] > 1 {
				cuts = append(cuts, k)
			}
		}
		cuts = append(cuts, len(l.Points)-1)
		from := 0
		for n, to := range cuts {
			name := l.Name
			if len(cuts) > 1 {
				name += " " + strconv.Itoa(n+1)
			}
			all = append(all, part{name, l.Points[from : to+1], l.Finish, inner[i]})
			from = to
		}
	}
	return all, nil
}

// split cuts a mesh along its lines.
func (m *Mesh) split() ([]sheet, []part, error) {
	left, err := m.sides()
	if err != nil {
		return nil, nil, err
	}
	parts, err := m.parts(left)
	if err != nil {
		return nil, nil, err
	}
	marks := map[pair]half{}
	cut := map[pair]bool{}
	for i, l := range parts {
		for k := 1; k < len(l.points); k++ {
			s := pair{l.points[k-1], l.points[k]}
			marks[s], marks[s.back()] = half{part: i}, half{part: i, back: true}
			cut[s], cut[s.back()] = l.inner, l.inner
		}
	}
	// Corners of triangles that meet along sides that are not cut are one point.
	corners, triangles := make(sets, 3*len(m.Triangles)), make(sets, len(m.Triangles))
	corners.fill()
	triangles.fill()
	for i, t := range m.Triangles {
		for k := range 3 {
			s := pair{t[k], t[(k+1)%3]}
			j, two := left[s.back()]
			if !two || cut[s] || j < i {
				continue
			}
			triangles.join(i, j)
			corners.join(3*i+k, 3*j+slices.Index(m.Triangles[j][:], s[0]))
			corners.join(3*i+(k+1)%3, 3*j+slices.Index(m.Triangles[j][:], s[1]))
		}
	}
	var sheets []sheet
	at := map[int]int{}    // sheet of a set of triangles
	place := map[int]int{} // point of its sheet of a set of corners
	for i, t := range m.Triangles {
		root := triangles.root(i)
		n, known := at[root]
		if !known {
			n = len(sheets)
			at[root] = n
			sheets = append(sheets, sheet{})
		}
		h := &sheets[n]
		var local [3]int
		for k := range 3 {
			c := corners.root(3*i + k)
			p, known := place[c]
			if !known {
				p = len(h.from)
				place[c] = p
				h.from = append(h.from, t[k])
			}
			local[k] = p
		}
		h.of, h.tri = append(h.of, i), append(h.tri, local)
	}
	for i := range sheets {
		sheets[i].trace(m, left, marks, cut)
	}
	return sheets, parts, nil
}

// trace finds the outline and whether there is just one. Euler: corners less
// sides plus triangles are 1 for a disk alone.
func (h *sheet) trace(m *Mesh, left map[pair]int, marks map[pair]half, cut map[pair]bool) {
	next := make([]int, len(h.from))
	halves := make([]half, len(h.from))
	h.interior = make([]bool, len(h.from))
	for i := range next {
		next[i], h.interior[i] = -1, true
	}
	rim := 0
	for i, t := range h.tri {
		for k := range 3 {
			s := pair{m.Triangles[h.of[i]][k], m.Triangles[h.of[i]][(k+1)%3]}
			if _, two := left[s.back()]; two && !cut[s] {
				continue
			}
			mark, marked := marks[s]
			if !marked {
				mark.part = -1
			}
			mark.a = t[k]
			next[t[k]], halves[t[k]] = t[(k+1)%3], mark
			h.interior[t[k]], h.interior[t[(k+1)%3]] = false, false
			rim++
		}
	}
	seen := make([]bool, len(h.from))
	for p := range next {
		if next[p] < 0 || seen[p] {
			continue
		}
		h.loops++
		for q := p; !seen[q]; q = next[q] {
			seen[q] = true
			if h.loops == 1 {
				h.outline = append(h.outline, halves[q])
			}
		}
	}
	h.disk = 2*len(h.from)-(3*len(h.tri)+rim)+2*len(h.tri) == 2
}

// sets are numbers in groups, joined one by one.
type sets []int

func (s sets) fill() {
	for i := range s {
		s[i] = i
	}
}

func (s sets) root(i int) int {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

func (s sets) join(i, j int) { s[s.root(j)] = s.root(i) }
