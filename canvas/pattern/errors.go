package pattern

import (
	"fmt"

	"example.com/forepeak/canvas"
)

// refuse is an error of package canvas, as its callers test for those.
func refuse(field string, value any, want string) error {
	return &canvas.Error{Field: field, Value: fmt.Sprint(value), Want: want, Err: canvas.ErrInput}
}

func outline(field, value, want string) error {
	return &canvas.Error{Field: field, Value: value, Want: want, Err: canvas.ErrOutline}
}
