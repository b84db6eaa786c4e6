package pattern

import (
	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
	"fmt"
	"os"
	"testing"
)

func TestX(t *testing.T) {
	const mm = units.Millimetre
	os.MkdirAll("/tmp/pat", 0o755)
	show := func(name string, v canvas.Cover, err error) {
		if err != nil {
			t.Error(err)
			return
		}
		p, err := v.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm, Warp: -0.01})
		if err != nil {
			t.Error(err)
			return
		}
		s, err := Lay(v.Title, p, 1500*mm)
		if err != nil {
			t.Error(err)
			return
		}
		fmt.Println(s.Size())
		f, _ := os.Create("/tmp/pat/" + name + ".svg")
		if err := s.SVG(f, "p"); err != nil {
			t.Error(err)
		}
		f.Close()
		f, _ = os.Create("/tmp/pat/" + name + ".pdf")
		if err := s.PDF(f); err != nil {
			t.Error(err)
		}
		f.Close()
		f, _ = os.Create("/tmp/pat/" + name + "-a4.pdf")
		if err := s.Tiled(f, A4); err != nil {
			t.Error(err)
		}
		f.Close()
	}
	v, err := canvas.RoundedBox{Name: "Locker cover", Length: 620 * mm, Width: 380 * mm, Height: 330 * mm, Radius: 60 * mm, Ease: 8 * mm, Seam: 15 * mm, Hem: 25 * mm, Base: canvas.DrawCord, Sides: []canvas.Hole{{Name: "latch", At: canvas.Point{X: 200 * mm, Y: 220 * mm}, Length: 100 * mm, Width: 40 * mm, Margin: 30 * mm}}}.Cover()
	show("box", v, err)
	v, err = canvas.BottleCover{Name: "Gas bottle cover", Diameter: 300 * mm, Height: 400 * mm, Rise: 150 * mm, Gores: 8, Ease: 10 * mm, Clearance: 40 * mm, Valve: 110 * mm, Hose: 30 * mm, HoseHeight: 300 * mm, Seam: 12 * mm, Hem: 20 * mm}.Cover()
	show("bottle", v, err)
	v, err = canvas.Transition{Name: "Transition", Length: 900 * mm, Width: 500 * mm, Diameter: 400 * mm, Height: 600 * mm, OffsetX: 100 * mm, Seam: 10 * mm, BottomEdge: canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm}, TopEdge: canvas.Finish{Kind: canvas.Bound}}.Cover()
	show("transition", v, err)
}
