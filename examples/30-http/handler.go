package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"os"
	"reflect"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// What one question may cost.
const (
	maxBody   = 64 << 10 // bytes
	maxWinds  = 100
	maxPieces = 50
	readTime  = 5 * time.Second
	solveTime = 2 * time.Second
)

// Question is what is posted to /rode: everything in it is a type of the library,
// which reads and writes JSON with units.
type Question struct {
	Rode  rode.Rode
	Site  rode.Site
	Boat  anchor.Dimensions
	Winds []units.Speed // from ahead, 10 m above the water
}

// Answer has a state for each wind.
type Answer struct {
	States  []State
	Caution string
}

// State is how the rode hangs in a wind.
type State struct {
	Wind       units.Speed
	Pull       units.Force // of the boat, about
	Tension    units.Force // at the bow
	BowAngle   units.Angle // below the horizontal
	Distance   units.Length
	OnBed      units.Length
	AnchorPull units.Angle // above the bed
}

const caution = "Static pulls from an estimated windage, still water: gusts, sheering and waves load a rode to a multiple. " +
	"Keep the makers' safety factors and an anchor watch."

// Refusal is the answer to a question that has none. Field is where the
// question is at fault, if it is one place.
type Refusal struct {
	Error string
	Field string `json:",omitempty"`
	Value string `json:",omitempty"`
	Want  string `json:",omitempty"`
}

func newHandler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("POST /rode", serve)
	return mux
}

func serve(w http.ResponseWriter, r *http.Request) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		reply(w, http.StatusUnsupportedMediaType, Refusal{Error: "the content type is not application/json"})
		return
	}
	q, status, err := read(w, r)
	if err != nil {
		reply(w, status, refusal(err))
		return
	}
	// The request's context ends when the caller goes away.
	ctx, cancel := context.WithTimeout(r.Context(), solveTime)
	defer cancel()
	a, err := solve(ctx, q)
	switch {
	case r.Context().Err() != nil: // nobody listens
	case ctx.Err() != nil:
		reply(w, http.StatusServiceUnavailable, Refusal{Error: "it takes too long"})
	case err != nil:
		reply(w, http.StatusUnprocessableEntity, refusal(err))
	default:
		reply(w, http.StatusOK, a)
	}
}

// read takes a body that is small enough and comes fast enough.
func read(w http.ResponseWriter, r *http.Request) (q Question, status int, err error) {
	// Not every writer can set a deadline; the server's own holds then. After it
	// has passed it stays, or the server would wait for the rest of the body.
	deadline := http.NewResponseController(w)
	deadline.SetReadDeadline(time.Now().Add(readTime))
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxBody))
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return q, http.StatusRequestEntityTooLarge, fmt.Errorf("more than %d bytes", large.Limit)
	case errors.Is(err, os.ErrDeadlineExceeded):
		return q, http.StatusRequestTimeout, fmt.Errorf("not all there after %v", readTime)
	case err != nil:
		return q, http.StatusBadRequest, err
	}
	deadline.SetReadDeadline(time.Time{})
	dec := json.NewDecoder(bytes.NewReader(body))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&q); err != nil {
		if text, ok := refusedText(err); ok {
			err = &fieldError{fieldOf(body, text), err}
		}
		return q, http.StatusBadRequest, err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return q, http.StatusBadRequest, errors.New("more after the question")
	}
	return q, 0, nil
}

// solve checks the size of the question and answers it, wind by wind.
func solve(ctx context.Context, q Question) (Answer, error) {
	if n := len(q.Winds); n < 1 || n > maxWinds {
		return Answer{}, &fieldError{"Winds", fmt.Errorf("%d winds, want 1 to %d", n, maxWinds)}
	}
	if n := len(q.Rode.Pieces); n > maxPieces {
		return Answer{}, &fieldError{"Rode.Pieces", fmt.Errorf("%d pieces, want at most %d", n, maxPieces)}
	}
	boat, err := anchor.Estimate(q.Boat)
	if err != nil {
		return Answer{}, inPart("Boat", err)
	}
	solver, err := rode.NewSolver(q.Rode, q.Site)
	if err != nil {
		return Answer{}, inPart(partOf(err), err)
	}
	a := Answer{Caution: caution}
	var s rode.State
	for i, wind := range q.Winds {
		if err := ctx.Err(); err != nil {
			return Answer{}, err
		}
		load, err := boat.Load(anchor.Wind{Speed: wind}, 0)
		if err != nil {
			return Answer{}, &fieldError{fmt.Sprintf("Winds[%d]", i), err}
		}
		if err := solver.Solve(&s, load.Force()); err != nil {
			return Answer{}, &fieldError{fmt.Sprintf("Winds[%d]", i), err}
		}
		a.States = append(a.States, State{wind, load.Force(), s.Tension, s.BowAngle, s.Distance, s.OnBed, s.Anchor.FromBed})
	}
	return a, nil
}

// partOf tells whether the rode or the site was refused.
func partOf(err error) string {
	var e *rode.Error
	if errors.As(err, &e) {
		if _, ok := reflect.TypeFor[rode.Site]().FieldByName(e.Field); ok {
			return "Site"
		}
	}
	return "Rode"
}

func reply(w http.ResponseWriter, status int, v any) {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil { // a value that JSON cannot hold
		status, data = http.StatusInternalServerError, []byte(`{"Error": "the answer cannot be written"}`)
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("X-Content-Type-Options", "nosniff")
	w.WriteHeader(status)
	w.Write(append(data, '\n')) // a caller who is gone does not matter
}
