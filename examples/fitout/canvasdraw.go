package main

import (
	"io"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

// titled puts the cover's title before the name of a piece that lacks it.
func titled(title, piece string) string {
	if strings.HasPrefix(piece, title) {
		return piece
	}
	return title + ": " + piece
}

// drawPieces shows the pieces of all covers.
func (p *plan) drawPieces(w io.Writer) error {
	var all []canvas.Piece
	for _, j := range p.canvas.jobs {
		for _, piece := range j.pieces {
			piece.Name = titled(j.cover.Title, piece.Name)
			all = append(all, piece)
		}
	}
	sheet, err := pattern.Overview("What is to be cut", all, 190*units.Millimetre)
	if err != nil {
		return err
	}
	return sheet.WriteSVG(w, "pieces")
}

// drawAwning shows how the awning is set.
func (p *plan) drawAwning(w io.Writer) error {
	sheet, err := pattern.AwningPlan(*p.canvas.awning)
	if err != nil {
		return err
	}
	return sheet.WriteSVG(w, "awning")
}
