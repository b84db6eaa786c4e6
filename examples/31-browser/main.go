// Can I see in a browser how my rode moves as the wind does?
//
//	go run ./examples/31-browser
//	go run ./examples/31-browser -listen localhost:8080
package main

import (
	"flag"
	"fmt"
	"log"
	"net/http"
	"net/http/httptest"
	"os"
	"time"
)

func main() {
	listen := flag.String("listen", "", "serve the page at this address, such as localhost:8080, instead of checking it")
	flag.Parse()
	dir, err := os.MkdirTemp("", "rode")
	if err != nil {
		log.Fatal(err)
	}
	err = run(dir, *listen)
	os.RemoveAll(dir)
	if err != nil {
		log.Fatal(err)
	}
}

func run(dir, listen string) error {
	site, err := build(dir)
	if err != nil {
		return err
	}
	if listen == "" {
		return check(site)
	}
	server := &http.Server{
		Addr: listen, Handler: site,
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, IdleTimeout: time.Minute,
	}
	log.Printf("open http://%s/", listen)
	return server.ListenAndServe()
}

// check asks for every file as a browser would, and prints what it gets.
func check(site http.Handler) error {
	server := httptest.NewServer(site)
	defer server.Close()
	for _, name := range names {
		plain, _, err := get(server.URL+"/"+name, "")
		if err != nil {
			return err
		}
		packed, kind, err := get(server.URL+"/"+name, "gzip")
		if err != nil {
			return err
		}
		fmt.Printf("%-14s %-30s %8d bytes, %7d as sent\n", name, kind, plain, packed)
	}
	fmt.Println("-listen localhost:8080 serves the page")
	return nil
}
