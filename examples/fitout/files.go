package main

import (
	"bytes"
	"fmt"
	"html/template"
	"os"
	"path/filepath"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
)

// writeFiles writes the report and its pictures to a folder, which it makes.
func (p *plan) writeFiles(dir string) error {
	var svg, page bytes.Buffer
	if err := p.drawRode(&svg); err != nil {
		return err
	}
	if err := p.writePage(&page, svg.String()); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for name, data := range map[string][]byte{"rode.svg": svg.Bytes(), "report.html": page.Bytes()} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// drawRode draws the chosen depth at high water, one picture a wind, with the
// kellet hung on the rode where there is one.
func (p *plan) drawRode(w *bytes.Buffer) error {
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
		if k := f.Rode.Kellet; k != nil {
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

func (p *plan) writePage(w *bytes.Buffer, svg string) error {
	var text bytes.Buffer
	if err := p.writeText(&text); err != nil {
		return err
	}
	return page.Execute(w, struct {
		Title, Text string
		Picture     template.HTML
	}{p.boat.Name + ": anchoring plan for " + p.boat.Place.Name, text.String(), template.HTML(svg)})
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
figure { margin: 1rem 0; }
svg { max-width: 100%; height: auto; }
</style>
</head>
<body>
<main>
<h1>{{.Title}}</h1>
<figure>{{.Picture}}</figure>
<pre tabindex="0">{{.Text}}</pre>
</main>
</body>
</html>
`))
