package main

import (
	"os"
	"path/filepath"
	"testing"
)

func TestGeneratedFilesAreCurrent(t *testing.T) {
	dir := filepath.Join("..", "..", "units")
	files, err := generate(dir)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Error(err)
			continue
		}
		if string(got) != string(want) {
			t.Errorf("%s is stale: run go generate ./units", name)
		}
	}
}
