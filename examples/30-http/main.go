// How does a web page or another program ask about my rode, and what stops it from asking too much?
//
//	go run ./examples/30-http
//	go run ./examples/30-http -listen localhost:8080
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"net/http"
	"net/http/httptest"
	"strings"
	"time"
)

const question = `{
	"Rode": {"Pieces": [{"Name": "8 mm chain", "Kind": "chain", "Length": "35 m", "Mass": "1.38 kg/m", "Density": "7850 kg/m³"}]},
	"Site": {"Depth": "6 m", "Roller": "1.2 m"},
	"Boat": {"Length": "10.4 m", "Beam": "3.3 m", "Freeboard": "1.1 m", "Rig": "cutter"},
	"Winds": ["15 kn", "25 kn"]
}`

func main() {
	listen := flag.String("listen", "", "serve at this address, such as localhost:8080, instead of showing how it answers")
	flag.Parse()
	if *listen == "" {
		show()
		return
	}
	// The limits of the handler are per question; these are per connection.
	server := &http.Server{
		Addr: *listen, Handler: newHandler(),
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 15 * time.Second,
		WriteTimeout: 15 * time.Second, IdleTimeout: time.Minute, MaxHeaderBytes: 1 << 14,
	}
	log.Printf("POST a question to http://%s/rode", *listen)
	log.Fatal(server.ListenAndServe())
}

// show asks a server of its own.
func show() {
	server := httptest.NewServer(newHandler())
	defer server.Close()
	for _, q := range []string{
		question,
		strings.Replace(question, "35 m", "5 m", 1),
		strings.Replace(question, "6 m", "six metres", 1),
		strings.Replace(question, "Winds", "Wind", 1),
		strings.Repeat("[", maxBody+1),
	} {
		answer, err := http.Post(server.URL+"/rode", "application/json", strings.NewReader(q))
		if err != nil {
			log.Fatal(err)
		}
		var got struct {
			Answer
			Refusal
		}
		err = json.NewDecoder(answer.Body).Decode(&got)
		answer.Body.Close()
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(answer.Status)
		for _, s := range got.States {
			fmt.Printf("  %.0f kn: pull %.2f kN, %.1f m off, %.1f m on the bed, pull on the anchor %.1f° above it\n", s.Wind.Knots(),
				s.Pull.Kilonewtons(), s.Distance.Metres(), s.OnBed.Metres(), s.AnchorPull.Degrees())
		}
		if r := got.Refusal; r.Error != "" {
			fmt.Println("  " + r.Error)
			for _, s := range [][2]string{{"field", r.Field}, {"value", r.Value}, {"want", r.Want}} {
				if s[1] != "" {
					fmt.Printf("    %s: %s\n", s[0], s[1])
				}
			}
		}
	}
}
