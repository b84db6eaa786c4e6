package main

import (
	"encoding/base64"
	"flag"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
)

var shots = flag.String("shots", "", "write pictures of the page to this folder")

// The page loads, its curve moves with each control and by keyboard, a rode that
// is too short is said, and the console stays empty.
func TestPage(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles a program and starts a browser")
	}
	b := open(t)
	site, err := build(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(site)
	defer server.Close()
	b.size(1200, 900, false, "light")
	b.call(nil, "Page.navigate", map[string]any{"url": server.URL})
	b.wait(`document.body?.dataset.ready === "yes"`)

	curve := func() string {
		return eval[string](b, `["chain", "rope"].map(id => document.getElementById(id).getAttribute("d")).join()`)
	}
	says := func() string { return eval[string](b, `document.getElementById("says").textContent`) }
	last := curve()
	if len(last) < 100 {
		t.Fatalf("the curve is %q", last)
	}
	for _, id := range []string{"wind", "depth", "out"} {
		eval[any](b, `document.getElementById("`+id+`").focus()`)
		words := says()
		b.press("ArrowRight")
		now := curve()
		if now == last {
			t.Errorf("%s moved, the curve did not", id)
		}
		if id == "wind" && says() == words {
			t.Error("the wind moved, the words did not")
		}
		last = now
	}

	// Every control has a label, a value in words, and is reached in order by Tab.
	if got := eval[string](b, `[...document.querySelectorAll("input")].map(i => i.labels[0].textContent + "=" + i.getAttribute("aria-valuetext")).join()`); got != "Wind=21 kn,Depth of water=6.5 m,Rode let out=37 m" {
		t.Errorf("labels %q", got)
	}
	eval[any](b, `document.getElementById("wind").focus()`)
	b.press("Tab")
	if got := eval[string](b, `document.activeElement.id`); got != "depth" {
		t.Errorf("after the wind comes %q", got)
	}

	// Too short: the words say so, the control is marked, the picture is stale.
	eval[any](b, `document.getElementById("out").focus()`)
	b.press("Home")
	if got := eval[string](b, `document.getElementById("out").getAttribute("aria-invalid") + document.body.className`); got != "truestale" {
		t.Errorf("a rode too short is shown as %q: %s", got, says())
	}
	b.press("End")
	if got := eval[string](b, `document.getElementById("out").getAttribute("aria-invalid") + document.body.className`); got != "null" {
		t.Errorf("a rode long enough again is shown as %q: %s", got, says())
	}

	// Nothing is wider than a phone.
	for _, wide := range []int{320, 390, 768, 1440} {
		b.size(wide, 800, wide < 700, "dark")
		if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			t.Errorf("%d wide: %d too much", wide, over)
		}
	}
	measure(t, b)
	if len(b.Logged) > 0 {
		t.Errorf("the console has %v", b)
	}
	if *shots != "" {
		pictures(t, b)
	}
}

// measure solves for a second and says how much goes into a frame.
func measure(t *testing.T, b *tab) {
	rate := eval[float64](b, `(() => {
		const begin = performance.now();
		let solved = 0;
		for (let i = 0; performance.now() - begin < 1000; i++)
			solved += rodeAt("6 m", (i % 500) / 10 + " kn", "36 m").solved;
		return solved / (performance.now() - begin) * 1000 / 60;
	})()`)
	t.Logf("%.0f curves solved and written in a sixtieth of a second", rate)
	if rate < 5 {
		t.Errorf("only %.1f in a sixtieth of a second: the page needs 5 a frame", rate)
	}
}

func pictures(t *testing.T, b *tab) {
	for _, c := range []struct {
		name       string
		wide, high int
		phone      bool
		scheme     string
	}{
		{"phone-light", 390, 844, true, "light"},
		{"phone-dark", 390, 844, true, "dark"},
		{"desktop-light", 1280, 900, false, "light"},
		{"desktop-dark", 1280, 900, false, "dark"},
	} {
		b.size(c.wide, c.high, c.phone, c.scheme)
		eval[any](b, `document.activeElement.blur()`)
		eval[any](b, `for (const [id, v] of [["wind", 24], ["depth", 6], ["out", 40]]) { at(id).value = v } draw()`)
		var shot struct{ Data string }
		b.call(&shot, "Page.captureScreenshot", map[string]any{"captureBeyondViewport": false})
		data, err := base64.StdEncoding.DecodeString(shot.Data)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(*shots, c.name+".png"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Without a browser: the site has its files, and no others.
func TestSite(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles a program")
	}
	site, err := build(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		method, path string
		code         int
		kind         string
	}{
		{"GET", "/", 200, "text/html; charset=utf-8"},
		{"HEAD", "/page.html", 200, "text/html; charset=utf-8"},
		{"GET", "/page.js", 200, "text/javascript; charset=utf-8"},
		{"GET", "/rode.wasm", 200, "application/wasm"},
		{"GET", "/main.go", 404, ""},
		{"GET", "/../main.go", 404, ""},
		{"POST", "/", 405, ""},
	} {
		w := httptest.NewRecorder()
		site.ServeHTTP(w, httptest.NewRequest(c.method, c.path, nil))
		if w.Code != c.code || c.kind != "" && w.Header().Get("Content-Type") != c.kind {
			t.Errorf("%s %s: %d %q", c.method, c.path, w.Code, w.Header().Get("Content-Type"))
		}
		if c.method == "HEAD" && w.Body.Len() > 0 {
			t.Errorf("%s %s has a body", c.method, c.path)
		}
	}
}
