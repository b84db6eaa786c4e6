package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Mesh is a surface as it was measured: points on it, and flat triangles between
// them. [Mesh.Flatten] makes panels of it.
type Mesh struct {
	Name   string
	Points []Space
	// Triangles are triples of places in Points, anticlockwise as seen from the
	// right side of the cloth. 20,000 at most.
	Triangles [][3]int
	// Lines along which the cloth is cut, to be sewn together again, and named
	// parts of the outline.
	Lines []Line
	// Warp is two points that a warp thread runs between; it rules the panel that
	// has both. The warp of other panels, and of all when both are 0, runs so that the
	// cloth is strained least.
	Warp [2]int
}

// Line is a row of points of a mesh, each joined to the next by a side of a
// triangle. Inside the surface it is a seam, and the panels get an edge on
// either side of it, with " left" and " right" after its name as one walks along it on
// the right side of the cloth. On the outline it names an edge. Where lines meet
// they are divided, and the parts are numbered.
type Line struct {
	Name   string
	Points []int
	Finish Finish // of both edges of a seam
}

// Grid makes a mesh of rows of points, all equally long, the first row at the
// bottom and columns from left to right as seen from the right side of the cloth.
// Point j of row i becomes point i times the length of a row, plus j. Each
// quadrilateral is divided along its shorter diagonal. The outline is named first
// row, last row, first column and last column.
func Grid(rows [][]Space) (Mesh, error) {
	var c checker
	c.count("rows", len(rows), 2, 10000)
	if c.err != nil {
		return Mesh{}, c.err
	}
	n := len(rows[0])
	c.count("rows[0]", n, 2, 10000)
	var m Mesh
	for i, row := range rows {
		c.count(fmt.Sprintf("rows[%d]", i), len(row), n, n)
		for j, p := range row {
			if c.err != nil {
				break
			}
			for k, x := range [3]units.Length{p.X, p.Y, p.Z} {
				if !(x >= -largest && x <= largest) {
					between(&c, fmt.Sprintf("rows[%d][%d].%c", i, j, 'X'+k), x, -largest, largest)
				}
			}
		}
		m.Points = append(m.Points, row...)
	}
	c.count("triangles of rows", 2*(n-1)*(len(rows)-1), 2, mostTriangles)
	if c.err != nil {
		return Mesh{}, c.err
	}
	first, last := Line{Name: "first row"}, Line{Name: "last row"}
	left, right := Line{Name: "first column"}, Line{Name: "last column"}
	for j := range n {
		first.Points = append(first.Points, j)
		last.Points = append(last.Points, (len(rows)-1)*n+j)
	}
	for i := range rows {
		left.Points = append(left.Points, i*n)
		right.Points = append(right.Points, i*n+n-1)
	}
	m.Lines = []Line{first, last, left, right}
	for i := range len(rows) - 1 {
		for j := range n - 1 {
			a, b := i*n+j, (i+1)*n+j
			if m.side(a, b+1) <= m.side(a+1, b) {
				m.Triangles = append(m.Triangles, [3]int{a, a + 1, b + 1}, [3]int{a, b + 1, b})
			} else {
				m.Triangles = append(m.Triangles, [3]int{a, a + 1, b}, [3]int{a + 1, b + 1, b})
			}
		}
	}
	return m, nil
}

const mostTriangles = 20000

// slimmest is the least height of a triangle, as a part of its longest side.
const slimmest = 1e-4

func (m *Mesh) check() error {
	var c checker
	c.count("Points", len(m.Points), 3, 3*mostTriangles)
	c.count("Triangles", len(m.Triangles), 1, mostTriangles)
	for i, p := range m.Points {
		between(&c, fmt.Sprintf("Points[%d].X", i), p.X, -largest, largest)
		between(&c, fmt.Sprintf("Points[%d].Y", i), p.Y, -largest, largest)
		between(&c, fmt.Sprintf("Points[%d].Z", i), p.Z, -largest, largest)
		if c.err != nil {
			return c.err
		}
	}
	for i, t := range m.Triangles {
		for k, p := range t {
			c.count(fmt.Sprintf("Triangles[%d][%d]", i, k), p, 0, len(m.Points)-1)
		}
		if c.err != nil {
			return c.err
		}
		longest := math.Max(m.side(t[0], t[1]), math.Max(m.side(t[1], t[2]), m.side(t[2], t[0])))
		if h := 2 * m.area(t) / longest; !(longest >= 1e-5 && h >= slimmest*longest) {
			return refuseAs(ErrMesh, fmt.Sprintf("Triangles[%d]", i), fmt.Sprintf("%v long and %v high", units.Length(longest), units.Length(h)), "three points that are apart and not in one line")
		}
	}
	for i, l := range m.Lines {
		field := fmt.Sprintf("Lines[%d]", i)
		if l.Name == "" {
			return refuse(field+".Name", `""`, "a name of its own")
		}
		c.count(field+".Points", len(l.Points), 2, len(m.Points)+1)
		l.Finish.check(&c, field+".Finish")
		for k, p := range l.Points {
			c.count(fmt.Sprintf("%s.Points[%d]", field, k), p, 0, len(m.Points)-1)
		}
	}
	for k, p := range m.Warp {
		c.count(fmt.Sprintf("Warp[%d]", k), p, 0, len(m.Points)-1)
	}
	return c.err
}

func (m *Mesh) bare(p int) [3]float64 {
	q := m.Points[p]
	return [3]float64{float64(q.X), float64(q.Y), float64(q.Z)}
}

func (m *Mesh) side(a, b int) float64 { return norm(sub(m.bare(b), m.bare(a))) }

func (m *Mesh) area(t [3]int) float64 {
	a := m.bare(t[0])
	return norm(cross(sub(m.bare(t[1]), a), sub(m.bare(t[2]), a))) / 2
}

// angle is that of a triangle at its corner k.
func (m *Mesh) angle(t [3]int, k int) float64 {
	o := m.bare(t[k])
	a, b := sub(m.bare(t[(k+1)%3]), o), sub(m.bare(t[(k+2)%3]), o)
	return math.Atan2(norm(cross(a, b)), dot(a, b))
}
