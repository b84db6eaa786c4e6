module example.com/forepeak

go 1.26

require (
	codeberg.org/go-pdf/fpdf v0.12.0
	github.com/google/go-cmp v0.7.0
	gonum.org/v1/gonum v0.17.0
)
