package main

import (
	"bytes"
	"compress/gzip"
	"embed"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strconv"
	"strings"
)

//go:embed page.html page.css page.js
var pages embed.FS

const program = "example.com/forepeak/examples/31-browser/wasm"

// names are the files of the page; the first answers for the folder too.
var names = []string{"page.html", "page.css", "page.js", "wasm_exec.js", "rode.wasm"}

// file is one of them, plain and packed.
type file struct {
	kind          string
	plain, packed []byte
}

// build compiles the program with the Go that is installed and puts the site
// together: the page, the glue that comes with Go, and the program.
func build(dir string) (http.Handler, error) {
	wasm := filepath.Join(dir, "rode.wasm")
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", wasm, program)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("go build: %w\n%s", err, out)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("go env: %w", err)
	}
	files := map[string]file{}
	for _, name := range names {
		var data []byte
		switch name {
		case "rode.wasm":
			data, err = os.ReadFile(wasm)
		case "wasm_exec.js":
			data, err = os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", name))
		default:
			data, err = pages.ReadFile(name)
		}
		if err != nil {
			return nil, err
		}
		var b bytes.Buffer
		z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is valid
		z.Write(data)
		z.Close()
		files[name] = file{kindOf(name), data, b.Bytes()}
	}
	return serve(files), nil
}

func kindOf(name string) string {
	if ext := path.Ext(name); ext != ".wasm" && ext != ".js" {
		return mime.TypeByExtension(ext)
	} else if ext == ".js" {
		return "text/javascript; charset=utf-8"
	}
	return "application/wasm" // which a browser insists on
}

func serve(files map[string]file) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = names[0]
		}
		f, ok := files[name]
		if !ok {
			http.NotFound(w, r)
			return
		}
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "only GET", http.StatusMethodNotAllowed)
			return
		}
		h, data := w.Header(), f.plain
		h.Set("Vary", "Accept-Encoding")
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			data = f.packed
			h.Set("Content-Encoding", "gzip")
		}
		h.Set("Content-Type", f.kind)
		h.Set("Content-Length", strconv.Itoa(len(data)))
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; connect-src 'self'; img-src data:")
		if r.Method == http.MethodGet {
			w.Write(data) // a browser that is gone does not matter
		}
	})
}

// get returns the size of the body as sent and its type.
func get(url, encoding string) (int, string, error) {
	r, err := http.NewRequest(http.MethodGet, url, nil)
	if err != nil {
		return 0, "", err
	}
	r.Header.Set("Accept-Encoding", encoding)
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return 0, "", err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	switch {
	case err != nil:
		return 0, "", err
	case answer.StatusCode != http.StatusOK:
		return 0, "", errors.New(url + ": " + answer.Status)
	case strings.HasSuffix(url, ".wasm") && encoding == "" && !bytes.HasPrefix(body, []byte("\x00asm")):
		return 0, "", errors.New(url + ": not WebAssembly")
	}
	return len(body), answer.Header.Get("Content-Type"), nil
}
