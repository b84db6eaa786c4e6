package main

import (
	"fmt"
	"io"
	"strings"
)

// A report is what a plan says, whoever reads it. The terminal and the page show
// the same report, so they cannot disagree.
type report struct {
	Title, Note string
	Sections    []*section
}

// A section is one part of the job. Its lines of Do and Warn, each whole in
// itself, also open the report.
type section struct {
	ID, Title string
	Warn      []string // what must not stay as it is, or be forgotten
	Do        []string // what was decided
	Blocks    []block
	Cautions  []string

	buys    []purchase
	steps   []step
	assumed []string // that no boat file says
}

// A block is one of its fields.
type block struct {
	Heading string
	Text    string
	List    []string
	Table   *table
	Figure  *figure
}

// A table has the names of its columns in Head; the first cell of a row names it.
type table struct {
	Caption string
	Head    []string
	Rows    [][]string
	Brief   int // columns of it in the summary; 0 for none
}

// A figure is drawn as one svg element, the name of whose file is File.
type figure struct {
	File, Caption string
	draw          func(io.Writer) error
}

// A purchase is something to buy, by length, by area or by the piece.
type purchase struct {
	what string // as one asks for it in a shop
	kind string // rope, cable, lug, cloth, ...: a price may be given for all of a kind
	need float64
	unit string  // m or m²; none for pieces
	step float64 // in which it is sold; 0 counts as 1
	why  string
}

// A step is something to do at a stage of the work, and what to expect if all is well.
type step struct {
	stage      stage
	do, expect string
}

type stage int

// The stages of the work, in their order.
const (
	measure stage = iota
	dryFit
	testLay
	firstRun
	firstNight
)

var stages = [...]string{measure: "Measure", dryFit: "Dry fit", testLay: "Test lay", firstRun: "First run", firstNight: "First night"}

func (s *section) warn(format string, args ...any) {
	s.Warn = append(s.Warn, fmt.Sprintf(format, args...))
}

func (s *section) do(format string, args ...any) { s.Do = append(s.Do, fmt.Sprintf(format, args...)) }
func (s *section) assume(text string)            { s.assumed = append(s.assumed, text) }
func (s *section) caution(text string)           { s.Cautions = append(s.Cautions, text) }
func (s *section) buy(p purchase)                { s.buys = append(s.buys, p) }
func (s *section) table(t table)                 { s.Blocks = append(s.Blocks, block{Table: &t}) }
func (s *section) figure(f figure)               { s.Blocks = append(s.Blocks, block{Figure: &f}) }
func (s *section) head(title string)             { s.Blocks = append(s.Blocks, block{Heading: title}) }

// say adds a paragraph.
func (s *section) say(format string, args ...any) {
	s.Blocks = append(s.Blocks, block{Text: fmt.Sprintf(format, args...)})
}

// item adds to the list at the end, or begins one.
func (s *section) item(format string, args ...any) {
	if n := len(s.Blocks); n == 0 || s.Blocks[n-1].List == nil {
		s.Blocks = append(s.Blocks, block{})
	}
	last := &s.Blocks[len(s.Blocks)-1]
	last.List = append(last.List, fmt.Sprintf(format, args...))
}

// check adds a step to the order of work.
func (s *section) check(at stage, do, expect string) { s.steps = append(s.steps, step{at, do, expect}) }

// row formats the cells of a row of a table, which are separated by bars.
func row(format string, args ...any) []string {
	return strings.Split(fmt.Sprintf(format, args...), "|")
}

// report is the plan in words.
func (p *plan) report() (*report, error) {
	r := &report{Title: p.boat.Name + ": plan for " + p.boat.Place.Name, Note: p.boat.Note}
	for _, part := range []struct {
		id, title string
		write     func(*section) error
	}{
		{"pull", "What she pulls and what holds her", p.writePulls},
		{"rode", "Rode to let out", p.writeLengths},
		{"night", "The night", p.writeNight},
		{"snubber", "Snubber or bridle", p.writeSnubber},
		{"chain", "Chain counter, marks and locker", p.writeChainwork},
		{"lift", "What the windlass has to pull", p.writeLift},
		{"windlass", "Windlass circuit", p.writeElectrics},
		{"canvas", "Canvas", p.writeCanvas},
		{"cloth", "Cloth order", p.writeClothOrder},
	} {
		s := &section{ID: part.id, Title: part.title}
		if err := part.write(s); err != nil {
			return nil, err
		}
		r.Sections = append(r.Sections, s)
	}
	shop, err := p.shopping(r.Sections)
	if err != nil {
		return nil, err
	}
	doubts, err := p.doubts(r.Sections)
	if err != nil {
		return nil, err
	}
	r.Sections = append(r.Sections, shop, orderOfWork(r.Sections), doubts)
	return r, nil
}
