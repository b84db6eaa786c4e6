package main

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
)

// files are the report and its pictures.
func (p *plan) files() (map[string][]byte, error) {
	files := map[string][]byte{}
	var figures []template.HTML
	pictures := []struct {
		name string
		has  bool
		draw func(io.Writer) error
	}{
		{"rode.svg", slices.ContainsFunc(p.night, func(c cell) bool { return c.overdue == "" }), p.drawRode},
		{"wind.svg", true, p.drawPolar},
		{"night.svg", p.overnight != nil, p.drawNight},
		{"swing.svg", p.overnight != nil, p.drawSwing},
		{"snubber.svg", p.snubber != nil, p.drawBow},
		{"circuit.svg", p.electrics != nil, p.drawCircuit},
		{"control.svg", p.electrics != nil, p.drawControl},
		{"volts.svg", p.electrics != nil, p.drawDrop},
		{"canvas.svg", p.canvas != nil, p.drawCanvas},
	}
	for _, pic := range pictures {
		if !pic.has {
			continue
		}
		var svg bytes.Buffer
		if err := pic.draw(&svg); err != nil {
			return nil, fmt.Errorf("%s: %w", pic.name, err)
		}
		files[pic.name] = svg.Bytes()
		figures = append(figures, template.HTML(svg.String()))
	}
	if err := p.patterns(files); err != nil {
		return nil, err
	}
	var page bytes.Buffer
	err := p.writePage(&page, figures)
	files["report.html"] = page.Bytes()
	if p.chainwork != nil { // to print and take on deck
		table, tableErr := p.chainwork.marks.Table("m")
		if tableErr != nil {
			return nil, tableErr
		}
		files["marks.txt"] = fmt.Appendf(nil, "%s: marks on the rode, links counted from the anchor's shackle\n\n%s", p.boat.Name, table)
	}
	return files, err
}

// writeFiles writes them to a folder, which it makes, and lists their names.
func (p *plan) writeFiles(dir string) (names []string, err error) {
	files, err := p.files()
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	names = slices.Sorted(maps.Keys(files))
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(dir, name), files[name], 0o644); err != nil {
			return nil, err
		}
	}
	return names, nil
}

// drawRode draws the chosen depth at high water, one picture a wind, with the
// kellet hung on the rode where there is one.
func (p *plan) drawRode(w io.Writer) error {
	f := p.boat
	d := draw.Profile{
		Title: fmt.Sprintf("%s in %.1f m at high water", f.Name, (f.Place.AnchorIn + f.Place.Range).Metres()),
		Boat:  draw.Boat{Length: f.Boat.Length},
	}
	if f.Rode.Kellet != nil {
		d.Title += ", with the kellet"
	}
	site := p.site(f.Place.AnchorIn, f.Place.Range)
	for _, c := range p.night {
		if c.overdue != "" {
			continue
		}
		v := draw.View{Label: fmt.Sprintf("%.0f kn", c.wind.Wind.Knots()), State: c.high, Rode: c.rode, Site: site}
		if k := f.Rode.Kellet; k != nil && k.Down < c.out {
			var err error
			if v.Rode, err = c.rode.Hang(k.fitting(), k.Down); err != nil {
				return err
			}
			if v.State, err = rode.Solve(v.Rode, site, c.wind.Pull); err != nil {
				return err
			}
		}
		d.Views = append(d.Views, v)
	}
	return d.WriteSVG(w)
}

func (p *plan) writePage(w io.Writer, figures []template.HTML) error {
	var text bytes.Buffer
	if err := p.writeText(&text); err != nil {
		return err
	}
	return page.Execute(w, struct {
		Title, Text string
		Figures     []template.HTML
	}{p.boat.Name + ": anchoring plan for " + p.boat.Place.Name, text.String(), figures})
}

var page = template.Must(template.New("page").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 75rem; margin: 1rem auto; padding: 0 1rem; }
pre { font-size: 0.85rem; line-height: 1.4; overflow-x: auto; }
figure { margin: 1rem 0; overflow-x: auto; }
svg { max-width: 100%; min-width: 34rem; height: auto; }
@media print { svg { min-width: 0; } pre { font-size: 0.6rem; } }
</style>
</head>
<body>
<main>
<h1>{{.Title}}</h1>
<pre tabindex="0">{{.Text}}</pre>
{{range .Figures}}<figure>{{.}}</figure>
{{end -}}
</main>
</body>
</html>
`))
