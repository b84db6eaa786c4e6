package main

import (
	_ "embed"
	"os"
)

// newFile is Dunlin's boat file with a note before each field.
//
//go:embed new.json
var newFile []byte

// writeNew writes a boat file to begin with. It does not write over a file.
func writeNew(name string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := f.Write(newFile); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
