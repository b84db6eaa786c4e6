package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func post(t *testing.T, body string) (int, Answer, Refusal) {
	t.Helper()
	r := httptest.NewRequest("POST", "/rode", strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json; charset=utf-8")
	w := httptest.NewRecorder()
	newHandler().ServeHTTP(w, r)
	var got struct {
		Answer
		Refusal
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%q: %v", w.Body, err)
	}
	if kind := w.Header().Get("Content-Type"); kind != "application/json" {
		t.Errorf("content type %q", kind)
	}
	return w.Code, got.Answer, got.Refusal
}

// The states are those of the library, called as a program would.
func TestAnswer(t *testing.T) {
	code, got, _ := post(t, question)
	if code != http.StatusOK || len(got.States) != 2 || got.Caution == "" {
		t.Fatalf("%d: %+v", code, got)
	}
	r := rode.Rode{Pieces: []rode.Piece{{Length: 35, Mass: 1.38, Density: 7850}}}
	boat, err := anchor.Estimate(anchor.Dimensions{Length: 10.4, Beam: 3.3, Freeboard: 1.1, Rig: anchor.Cutter})
	if err != nil {
		t.Fatal(err)
	}
	load, err := boat.Load(anchor.Wind{Speed: 25 * units.Knot}, 0)
	if err != nil {
		t.Fatal(err)
	}
	want, err := rode.Solve(r, rode.Site{Depth: 6, Roller: 1.2}, load.Force())
	if err != nil {
		t.Fatal(err)
	}
	if s := got.States[1]; s.Pull != load.Force() || s.Distance != want.Distance || s.Tension != want.Tension || s.OnBed != want.OnBed {
		t.Errorf("%+v\nwant %+v", s, want)
	}
}

func TestRefusals(t *testing.T) {
	with := func(old, new string) string {
		if !strings.Contains(question, old) {
			t.Fatalf("%q is not in the question", old)
		}
		return strings.Replace(question, old, new, 1)
	}
	many := `"Winds": ["1 kn"` + strings.Repeat(`, "1 kn"`, maxWinds) + `]`
	piece := `{"Length": "1 m", "Mass": "1 kg/m", "Density": "7850 kg/m³"}`
	for _, c := range []struct {
		name, body string
		code       int
		field      string
	}{
		{"empty", "", 400, ""},
		{"null", "null", 422, "Winds"},
		{"not an object", "[]", 400, ""},
		{"cut off", question[:50], 400, ""},
		{"more after it", question + "{}", 400, ""},
		{"unknown field", with("Winds", "Wind"), 400, "Wind"},
		{"nested unknown field", with(`"Kind"`, `"Sort"`), 400, "Sort"},
		{"no unit", with("35 m", "35"), 400, "Rode.Pieces[0].Length"},
		{"bare number", with(`"35 m"`, `35`), 400, "Rode.Pieces.Length"},
		{"NaN as text", with("35 m", "NaN m"), 400, "Rode.Pieces[0].Length"},
		{"infinite", with("25 kn", "+Inf kn"), 400, "Winds[1]"},
		{"huge", with("25 kn", "1e999 kn"), 400, "Winds[1]"},
		{"NaN as a number", with(`"25 kn"`, "NaN"), 400, ""},
		{"another quantity", with("6 m", "6 kn"), 400, "Site.Depth"},
		{"negative length", with("35 m", "-35 m"), 422, "Rode.Pieces[0].Length"},
		{"negative wind", with("15 kn", "-15 kn"), 422, "Winds[0]"},
		{"hurricane beyond reason", with("15 kn", "1e9 kn"), 422, "Winds[0]"},
		{"too deep", with("6 m", "60 km"), 422, "Site.Depth"},
		{"too short", with("35 m", "5 m"), 422, "Rode.Length"},
		{"boat beyond the estimate", with("10.4 m", "104 m"), 422, "Boat.Length"},
		{"unknown kind", with(`"chain", "Length"`, `"wire", "Length"`), 400, "Rode.Pieces[0].Kind"},
		{"unknown rig", with("cutter", "galleon"), 400, "Boat.Rig"},
		{"no pieces", `{"Winds": ["1 kn"], "Boat": {"Length": "9 m", "Beam": "3 m", "Freeboard": "1 m"}, "Site": {"Depth": "6 m"}}`, 422, "Rode.Pieces"},
		{"no winds", with(`["15 kn", "25 kn"]`, `[]`), 422, "Winds"},
		{"many winds", with(`"Winds": ["15 kn", "25 kn"]`, many), 422, "Winds"},
		{"many pieces", with(`{"Pieces": [`, `{"Pieces": [`+strings.Repeat(piece+",", maxPieces)), 422, "Rode.Pieces"},
		{"too large", with("8 mm chain", strings.Repeat("x", maxBody)), 413, ""},
		{"deep", strings.Repeat("[", maxBody-1), 400, ""},
		{"deep in a field", with(`["15 kn", "25 kn"]`, strings.Repeat(`[`, 20000)+strings.Repeat(`]`, 20000)), 400, ""},
		{"not UTF-8", with("35 m", "35 \xff"), 400, "Rode.Pieces[0].Length"},
	} {
		code, _, got := post(t, c.body)
		if code != c.code || got.Field != c.field || got.Error == "" {
			t.Errorf("%s: %d %+v, want %d about %q", c.name, code, got, c.code, c.field)
		}
		if strings.Contains(got.Error+got.Want, "NaN") && c.name != "NaN as text" {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}

func TestMethodAndType(t *testing.T) {
	for _, c := range []struct {
		method, path, kind string
		code               int
	}{
		{"GET", "/rode", "application/json", 405},
		{"POST", "/", "application/json", 404},
		{"POST", "/rode", "text/plain", 415},
		{"POST", "/rode", "", 415},
	} {
		r := httptest.NewRequest(c.method, c.path, strings.NewReader(question))
		r.Header.Set("Content-Type", c.kind)
		w := httptest.NewRecorder()
		newHandler().ServeHTTP(w, r)
		if w.Code != c.code {
			t.Errorf("%+v: %d", c, w.Code)
		}
	}
}

// A body that never comes to its end is given up after readTime.
func TestSlowBody(t *testing.T) {
	if testing.Short() {
		t.Skipf("takes %v", readTime)
	}
	t.Parallel()
	server := httptest.NewServer(newHandler())
	defer server.Close()
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprint(conn, "POST /rode HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{")
	begin := time.Now()
	conn.SetReadDeadline(begin.Add(4 * readTime))
	answer, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	if took := time.Since(begin); answer.StatusCode != http.StatusRequestTimeout || took < readTime/2 {
		t.Errorf("%s after %v", answer.Status, took)
	}
}

// A caller who goes away ends the work; a deadline that has passed is said.
func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r := httptest.NewRequestWithContext(ctx, "POST", "/rode", strings.NewReader(question))
	r.Header.Set("Content-Type", "application/json")
	w := httptest.NewRecorder()
	newHandler().ServeHTTP(w, r)
	if w.Body.Len() != 0 {
		t.Errorf("%q for a caller who is gone", w.Body)
	}
	var q Question
	if err := json.Unmarshal([]byte(question), &q); err != nil {
		t.Fatal(err)
	}
	if _, err := solve(ctx, q); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// Whatever is posted gets an answer in JSON, with a field or a reason.
func FuzzServe(f *testing.F) {
	f.Add([]byte(question))
	f.Add([]byte(strings.Replace(question, "35 m", "5 ft", 1)))
	f.Add([]byte(`{"Winds": ["1 kn"], "Rode": {"Pieces": [{}]}}`))
	f.Add([]byte(`{"Site": {"Depth": ""}}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		r := httptest.NewRequest("POST", "/rode", strings.NewReader(string(body)))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		newHandler().ServeHTTP(w, r)
		var got struct {
			Answer
			Refusal
		}
		data, err := io.ReadAll(w.Body)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatalf("%d %q: %v", w.Code, data, err)
		}
		if w.Code == 500 || (w.Code == 200) != (len(got.States) > 0) || (w.Code == 200) == (got.Error != "") {
			t.Fatalf("%d %s", w.Code, data)
		}
	})
}
