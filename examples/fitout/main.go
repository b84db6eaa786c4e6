// Fitout is the main job: from a file that describes a boat and a place to a
// plan that its crew can act on.
//
//	go run ./examples/fitout                     the plan for the invented cutter Dunlin
//	go run ./examples/fitout -demo plover        another invented boat, a catamaran
//	go run ./examples/fitout -boat my.json       your own (start from dunlin.json)
//	go run ./examples/fitout -out DIR            also write the report and its pictures to DIR
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
	out := flags.String("out", "", "folder `DIR` to write the report and its pictures to")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "fitout: %q is not understood: boat files are given with -boat\n", flags.Arg(0))
		return 2
	}
	name, data, err := *demo+".json", []byte(nil), error(nil)
	switch {
	case *file != "":
		name = *file
		data, err = os.ReadFile(*file)
	case *demo == "dunlin":
		data = dunlin
	case *demo == "plover":
		data = plover
	default:
		err = fmt.Errorf("-demo %s: accepted: dunlin, plover", *demo)
	}
	if err != nil {
		fmt.Fprintf(stderr, "fitout: %v\n", err)
		return 2
	}
	p, err := read(data)
	if err != nil {
		fmt.Fprintf(stderr, "fitout: %s: %v\n", name, err)
		return 2
	}
	err = p.writeText(stdout)
	if err == nil && *out != "" {
		var names []string
		if names, err = p.writeFiles(*out); err == nil {
			fmt.Fprintf(stdout, "\nWritten to %s: %s\n", *out, strings.Join(names, ", "))
		}
	}
	if err != nil {
		fmt.Fprintf(stderr, "fitout: %v\n", err)
		return 1
	}
	return 0
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
	p, err := f.makePlan()
	return p, inWords(err)
}
