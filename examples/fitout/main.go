// Fitout is the main job: from a file that describes a boat and a place to a
// plan that its crew can act on.
//
//	go run ./examples/fitout                     the plan for the invented cutter Dunlin, in short
//	go run ./examples/fitout -full               all of it
//	go run ./examples/fitout -out DIR            also as a page with pictures (index.html), and patterns to cut by,
//	                                             in a folder that is new, empty or of the same plan
//	go run ./examples/fitout -demo plover        another invented boat, a catamaran
//	go run ./examples/fitout -new my.json        write a boat file that explains itself, to change
//	go run ./examples/fitout -boat my.json       the plan for your own boat
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
)

//go:embed dunlin.json
var dunlin []byte

//go:embed plover.json
var plover []byte

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run is main without its ties to the process. The exit status is 2 for a
// mistake in the command or the boat file, 1 for a failure to write.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("fitout", flag.ContinueOnError)
	flags.SetOutput(stderr)
	file := flags.String("boat", "", "boat file to read, `FILE`.json")
	demo := flags.String("demo", "dunlin", "invented boat to use without -boat: dunlin or plover")
	full := flags.Bool("full", false, "print the whole text, not its summary")
	out := flags.String("out", "", "folder `DIR` to write to: index.html, its pictures, plan.txt and patterns")
	fresh := flags.String("new", "", "write a boat file that explains itself to `FILE`, and nothing else")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	complain := func(status int, err error) int {
		fmt.Fprintf(stderr, "fitout: %v\n", err)
		return status
	}
	if flags.NArg() > 0 {
		return complain(2, fmt.Errorf("%q is not understood: boat files are given with -boat", flags.Arg(0)))
	}
	if *fresh != "" {
		if err := writeNew(*fresh); err != nil {
			return complain(1, err)
		}
		fmt.Fprintf(stdout, "Written: %s. Change what differs on your boat, then run fitout as you did just now, with -boat %s in the place of -new %s.\n", *fresh, *fresh, *fresh)
		return 0
	}
	if info, err := os.Stat(*out); *out != "" && err == nil && !info.IsDir() {
		return complain(1, fmt.Errorf("-out %s: is not a folder", *out))
	}
	name, data, err := source(*file, *demo)
	if err != nil {
		return complain(2, err)
	}
	p, err := read(data)
	if err != nil {
		for _, e := range each(err) {
			fmt.Fprintf(stderr, "fitout: %s: %s\n", name, familyOf(data).reword(e.Error()))
		}
		return 2
	}
	r, err := p.report()
	if err != nil {
		return complain(2, fmt.Errorf("%s: %w", name, inWords(err)))
	}
	text := r.summary()
	if *full {
		text = r.text()
	}
	if *out != "" { // before anything is printed, so that nothing is when it fails
		files, err := p.files(r)
		if err != nil {
			return complain(1, err)
		}
		names, err := writeFiles(*out, files)
		if err != nil {
			return complain(1, err)
		}
		text += fmt.Sprintf("\nWritten to %s: %s\n", *out, strings.Join(names, ", "))
	} else if !*full {
		text += "\nThe reasons and the order of work: -full. As a page with pictures: -out DIR.\n"
	}
	if _, err := io.WriteString(stdout, text); err != nil {
		return complain(1, err)
	}
	return 0
}

// source is the boat file to read, and what to call it.
func source(file, demo string) (name string, data []byte, err error) {
	switch {
	case file != "":
		data, err = os.ReadFile(file)
		return file, data, err
	case demo == "dunlin":
		return "dunlin.json", dunlin, nil
	case demo == "plover":
		return "plover.json", plover, nil
	}
	return "", nil, fmt.Errorf("-demo %s: accepted: dunlin, plover", demo)
}

// read makes the plan that a boat file asks for.
func read(data []byte) (*plan, error) {
	var f boatFile
	if err := decode(data, &f); err != nil {
		return nil, err
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	f.fill()
	p, err := f.makePlan(familyOf(data))
	if err == nil && p.canvas != nil {
		err = p.canvas.cutOut(f.Canvas)
	}
	if err != nil {
		return nil, inWords(err)
	}
	return p, nil
}
