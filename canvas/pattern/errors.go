package pattern

import (
	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/accept"
)

// refuse is an error of package canvas, as its callers test for those.
func refuse(field string, value any, want string) error {
	return &canvas.Error{Field: field, Value: accept.Show(value), Want: want, Err: canvas.ErrInput}
}

func outline(field, value, want string) error {
	return &canvas.Error{Field: field, Value: value, Want: want, Err: canvas.ErrOutline}
}
