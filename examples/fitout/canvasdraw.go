package main

import (
	"fmt"
	"html"
	"io"
	"math"

	"example.com/forepeak/canvas"
)

// drawCanvas shows what is to be cut, all to one scale in millimetres: the
// awning on the left with the greatest pull of each corner, the covers beside it.
func (p *plan) drawCanvas(w io.Writer) error {
	d := &clothDrawing{w: w}
	column := 0.0
	var heights [2]float64
	for _, j := range p.canvas.jobs {
		low, high := extent(j.pieces[0].Cut)
		if j.file == "awning" {
			column = high.X.Millimetres() - low.X.Millimetres() + 2*armSpace
			heights[0] = high.Y.Millimetres() - low.Y.Millimetres() + 2*armSpace + 2*lineSpace
			continue
		}
		for _, piece := range mainPieces(j) {
			a, b := extent(piece.Cut)
			heights[1] += b.Y.Millimetres() - a.Y.Millimetres() + 2*lineSpace
			d.width = math.Max(d.width, b.X.Millimetres()-a.X.Millimetres())
		}
	}
	d.width += column + 2*lineSpace
	d.height = math.Max(heights[0], heights[1]) + lineSpace
	d.print(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" role="img" aria-label="Pieces of canvas"><title>Pieces of canvas</title>`, d.width, d.height)
	d.print(`<style>.cw{fill:none;stroke:currentColor;stroke-width:7}.cw-s{stroke-width:4;stroke-dasharray:24 16}.cw-t{font:%dpx system-ui,sans-serif;fill:currentColor;stroke:none}</style>`, int(letter))
	y := lineSpace / 2
	for _, j := range p.canvas.jobs {
		if j.file == "awning" {
			p.drawAwning(d, j)
			continue
		}
		for _, piece := range mainPieces(j) {
			low, high := extent(piece.Cut)
			label := fmt.Sprintf("%s: %s, cut %d", j.cover.Title, piece.Name, max(1, piece.Quantity))
			d.text(column, y+lineSpace*0.7, label)
			y += lineSpace
			d.piece(piece, column-low.X.Millimetres(), y+high.Y.Millimetres())
			y += high.Y.Millimetres() - low.Y.Millimetres() + lineSpace
		}
	}
	d.print("</svg>")
	return d.err
}

const (
	letter    = 62.0  // size of the lettering in mm of cloth
	lineSpace = 100.0 // for a line of text and the space around it
	armSpace  = 420.0 // for the arrow of a corner
)

// mainPieces are those that are no patches.
func mainPieces(j sewingJob) []canvas.Piece {
	var out []canvas.Piece
	for _, piece := range j.pieces {
		for _, panel := range j.cover.Panels {
			if piece.Name == panel.Name {
				out = append(out, piece)
			}
		}
	}
	return out
}

func (p *plan) drawAwning(d *clothDrawing, j sewingJob) {
	piece := j.pieces[0]
	low, high := extent(piece.Cut)
	x0, y0 := armSpace-low.X.Millimetres(), armSpace+lineSpace+high.Y.Millimetres()
	d.text(lineSpace/2, lineSpace*1.2, fmt.Sprintf("%s: pulls in gusts, wind %.0f kn, with heel and flutter", j.cover.Title, p.canvas.calm.Mean.Knots()))
	d.piece(piece, x0, y0)
	for i, e := range p.canvas.awning.Panel.Edges {
		var worst canvas.CornerPull
		for _, k := range p.canvas.awning.Cases {
			if k.Corners[i].Pull > worst.Pull {
				worst = k.Corners[i]
			}
		}
		flat := math.Hypot(worst.X.Newtons(), worst.Y.Newtons())
		dx, dy := worst.X.Newtons()/flat, -worst.Y.Newtons()/flat
		x, y := x0+e.From.X.Millimetres(), y0-e.From.Y.Millimetres()
		x1, y1 := x+220*dx, y+220*dy
		d.print(`<path class="cw" d="M%.0f %.0fL%.0f %.0fM%.0f %.0fL%.0f %.0fL%.0f %.0f"/>`, x, y, x1, y1,
			x1-50*dx+30*dy, y1-50*dy-30*dx, x1, y1, x1-50*dx-30*dy, y1-50*dy+30*dx)
		anchor := "start"
		if dx < 0 {
			anchor = "end"
		}
		d.print(`<text class="cw-t" x="%.0f" y="%.0f" text-anchor="%s">%.1f kN</text>`, x1+20*dx, y1+letter*(0.4+0.6*dy), anchor, worst.Pull.Kilonewtons())
	}
}

type clothDrawing struct {
	w             io.Writer
	err           error
	width, height float64
}

func (d *clothDrawing) print(format string, args ...any) {
	if d.err == nil {
		_, d.err = fmt.Fprintf(d.w, format+"\n", args...)
	}
}

func (d *clothDrawing) text(x, y float64, s string) {
	d.print(`<text class="cw-t" x="%.0f" y="%.0f">%s</text>`, x, y, html.EscapeString(s))
}

// piece draws the lines of a piece with its origin at x, y.
func (d *clothDrawing) piece(piece canvas.Piece, x, y float64) {
	path := func(class string, line []canvas.Point, closed bool) {
		out := ""
		lastX, lastY := math.Inf(1), 0.0
		for i, q := range line {
			px, py := x+q.X.Millimetres(), y-q.Y.Millimetres()
			if i > 0 && i+1 < len(line) && math.Hypot(px-lastX, py-lastY) < 3 {
				continue // smaller than the line is thick
			}
			command := "L"
			if i == 0 {
				command = "M"
			}
			out += fmt.Sprintf("%s%.1f %.1f", command, px, py)
			lastX, lastY = px, py
		}
		if closed {
			out += "Z"
		}
		d.print(`<path class="%s" d="%s"/>`, class, out)
	}
	path("cw", piece.Cut, true)
	for _, line := range piece.Sew {
		path("cw cw-s", line, false)
	}
	for _, h := range piece.Holes {
		path("cw", h.Line, true)
		if len(h.Slit) > 0 {
			path("cw", h.Slit, false)
		}
	}
}

func extent(line []canvas.Point) (low, high canvas.Point) {
	low, high = line[0], line[0]
	for _, q := range line {
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		high.X, high.Y = max(high.X, q.X), max(high.Y, q.Y)
	}
	return low, high
}
