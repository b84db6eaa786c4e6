package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
)

// files are the page, the text, the pictures and what is made to be printed, by name.
func (p *plan) files(r *report) (map[string][]byte, error) {
	files := map[string][]byte{"plan.txt": []byte(r.text())}
	for _, s := range r.Sections {
		for _, b := range s.Blocks {
			if b.Figure == nil {
				continue
			}
			var svg bytes.Buffer
			if err := b.Figure.draw(&svg); err != nil {
				return nil, fmt.Errorf("%s: %w", b.Figure.File, err)
			}
			files[b.Figure.File] = svg.Bytes()
		}
	}
	if err := p.patterns(files); err != nil {
		return nil, err
	}
	if c := p.chainwork; c != nil && p.boat.Marks != nil { // to take on deck
		table, err := c.marks.Table(p.in.long.name)
		if err != nil {
			return nil, err
		}
		files["marks.txt"] = fmt.Appendf(nil, "%s: marks on the rode, links counted from the anchor's shackle\n\n%s", p.boat.Name, table)
	}
	var page bytes.Buffer
	if err := r.writePage(&page, files); err != nil {
		return nil, err
	}
	files["index.html"] = page.Bytes()
	return files, nil
}

// writeFiles writes files to a folder, which it makes, and lists their names. It
// refuses a folder that holds something else: among the patterns of one boat a
// stale one of another would be cut by.
func writeFiles(dir string, files map[string][]byte) ([]string, error) {
	there, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, f := range there {
		if _, ours := files[f.Name()]; !ours && !strings.HasPrefix(f.Name(), ".") {
			return nil, fmt.Errorf("-out %s: holds %s, which is not of this plan: name another folder, or clear this one", dir, f.Name())
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	names := slices.Sorted(maps.Keys(files))
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(dir, name), files[name], 0o644); err != nil {
			return nil, err
		}
	}
	return names, nil
}

// drawRode draws the chosen depth at high water, one picture a wind, as the tables
// count it, and one more with the kellet where it is compared.
func (p *plan) drawRode(w io.Writer) error {
	f := p.boat
	d := draw.Profile{
		Title:    fmt.Sprintf("%s in %s at high water", f.Name, p.in.long.say(f.Place.AnchorIn+f.Place.Range, 1)),
		Boat:     draw.Boat{Length: f.Boat.Length, Hulls: f.Boat.Hulls},
		Imperial: p.in.feet,
	}
	site := p.site(f.Place.AnchorIn, f.Place.Range)
	for _, c := range p.here {
		if c.overdue != "" {
			continue
		}
		v := draw.View{Label: fmt.Sprintf("%.0f kn", c.wind.Wind.Knots()), State: c.high, Rode: c.rode, Site: site}
		d.Views = append(d.Views, v)
		if k := f.Rode.Kellet; k != nil && c.out == p.kelletCell.out && c.wind == p.kelletCell.wind {
			var err error
			if v.Rode, err = c.rode.Hang(k.fitting(), k.Down); err != nil {
				return err
			}
			if v.State, err = rode.Solve(v.Rode, site, c.pull); err != nil {
				return err
			}
			v.Label += ", with the kellet"
			d.Views = append(d.Views, v)
		}
	}
	return d.WriteSVG(w)
}
