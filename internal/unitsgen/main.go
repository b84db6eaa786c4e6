// Unitsgen writes the generated files of package units from the table in
// table.go. Run it with go generate in the units folder.
package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/constant"
	"go/format"
	"go/parser"
	"go/token"
	"go/types"
	"log"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"text/template"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("unitsgen: ")
	files, err := generate(".")
	if err != nil {
		log.Fatal(err)
	}
	for name, text := range files {
		if err := os.WriteFile(name, text, 0o644); err != nil {
			log.Fatal(err)
		}
	}
}

// generate returns the generated files by name. Dir is the folder of package
// units, whose exact.go the factors refer to.
func generate(dir string) (map[string][]byte, error) {
	exact, err := loadExact(filepath.Join(dir, "exact.go"))
	if err != nil {
		return nil, err
	}
	var all []genQuantity
	for _, q := range quantities {
		g, err := resolve(q, exact)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", q.Type, err)
		}
		all = append(all, g)
	}
	methods, err := resolveProducts()
	if err != nil {
		return nil, err
	}
	files := make(map[string][]byte)
	for name, data := range map[string]any{"quantities_gen.go": all, "tables_gen.go": all, "products_gen.go": methods} {
		var b bytes.Buffer
		if err := templates.ExecuteTemplate(&b, name, data); err != nil {
			return nil, err
		}
		if files[name], err = format.Source(b.Bytes()); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return files, nil
}

// loadExact type-checks the file of exact definitions, so that factors can be
// evaluated in it as the compiler will.
func loadExact(path string) (*types.Package, error) {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, path, nil, 0)
	if err != nil {
		return nil, err
	}
	return new(types.Config).Check("units", fset, []*ast.File{file}, nil)
}

type genQuantity struct {
	quantity
	GenUnits []genUnit
	Steps    []genStep
}

type genUnit struct {
	unit
	Receiver string
	Num, Den string // exact
	Expr     string // of the constant
	Mul, Div string // one of them, what turns SI into the unit
	Comment  string
	Spelled  []string
}

func (u genUnit) Symbol() string { return u.Spelled[0] }

// Convert is the body of the accessor.
func (u genUnit) Convert() string {
	s := "float64(x)"
	switch {
	case u.Mul != "" && u.Mul != "1":
		s = "float64(float64(x) * " + operand(u.Mul) + ")"
	case u.Div != "":
		s = "float64(x) / " + operand(u.Div)
	}
	if u.Hundredths != 0 {
		s += fmt.Sprintf(" - %d.%02d", u.Hundredths/100, u.Hundredths%100)
	}
	return s
}

func operand(expr string) string {
	if strings.ContainsRune(expr, ' ') {
		return "(" + expr + ")"
	}
	return expr
}

type genStep struct {
	Index  int
	Symbol string
	From   string
}

func (r refusal) List() []string { return strings.Split(r.Words, ", ") }

func resolve(q quantity, exact *types.Package) (genQuantity, error) {
	g := genQuantity{quantity: q}
	owner := make(map[string]string)
	index := make(map[string]int)
	for _, u := range q.Units {
		r, err := evaluate(exact, u.Factor)
		if err != nil {
			return g, err
		}
		v := genUnit{unit: u, Receiver: q.Type, Expr: u.Factor}
		num, den := r.Num(), r.Denom()
		if max(num.BitLen(), den.BitLen()) > 63 {
			return g, fmt.Errorf("%s: %s is not a quotient of integers below 2^63", u.Factor, r)
		}
		v.Num, v.Den = num.String(), den.String()
		switch {
		case u.Pi:
			v.Expr = "(" + u.Factor + ") * math.Pi"
			v.Mul = fmt.Sprintf("%s / (%s * math.Pi)", v.Den, v.Num)
		case num.IsInt64() && num.Int64() == 1:
			v.Mul = v.Den
		case den.IsInt64() && den.Int64() == 1:
			v.Div = v.Num
		default:
			v.Div = u.Factor
		}
		v.Comment = comment(u, r, g, q)
		if u.Names != "" {
			index[symbolOf(u)] = len(index)
			v.Spelled = spell(strings.Split(u.Names, ", "))
			for _, n := range v.Spelled {
				if o, taken := owner[n]; taken {
					return g, fmt.Errorf("%q names both %s and %s", n, o, u.Accessor)
				}
				owner[n] = u.Accessor
			}
		}
		g.GenUnits = append(g.GenUnits, v)
	}
	for _, s := range q.Readable {
		i, ok := index[s.Symbol]
		if !ok {
			return g, fmt.Errorf("readable form: no unit %s", s.Symbol)
		}
		g.Steps = append(g.Steps, genStep{i, s.Symbol, s.From})
	}
	return g, nil
}

func symbolOf(u unit) string {
	symbol, _, _ := strings.Cut(u.Names, ",")
	return symbol
}

// comment is what stands beside the constant: the exact value, and the note.
func comment(u unit, r *big.Rat, g genQuantity, q quantity) string {
	var c []string
	si := symbolOf(q.Units[0])
	if len(g.GenUnits) > 0 {
		value := r.RatString()
		if n, exact := r.FloatPrec(); exact && n < 25 {
			value = r.FloatString(n)
		}
		if u.Pi {
			value += " pi"
		}
		c = append(c, value+" "+si)
	}
	if u.Note != "" {
		c = append(c, u.Note)
	}
	return strings.Join(c, "; ")
}

func evaluate(exact *types.Package, expr string) (*big.Rat, error) {
	tv, err := types.Eval(token.NewFileSet(), exact, token.NoPos, expr)
	if err != nil {
		return nil, err
	}
	if tv.Type.(*types.Basic).Info()&types.IsUntyped == 0 {
		return nil, fmt.Errorf("%s is not an untyped constant", expr)
	}
	num, den := constant.Num(tv.Value), constant.Denom(tv.Value)
	r, ok := new(big.Rat).SetString(num.ExactString() + "/" + den.ExactString())
	if !ok {
		return nil, fmt.Errorf("%s has no exact value", expr)
	}
	return r, nil
}

// spell adds the other ways to write the names: m2 for m², N m for N·m, ohm and
// the ohm sign for Ω, the other mu and u for µ.
func spell(names []string) []string {
	for _, alt := range []struct{ from, to string }{
		{"²", "2"},
		{"³", "3"},
		{"·", " "},
		{"·", "⋅"},
		{"Ω", "ohm"},
		{"Ω", "\u2126"},
		{"µ", "\u03bc"},
		{"µ", "u"},
	} {
		for _, n := range slices.Clone(names) {
			if s := strings.ReplaceAll(n, alt.from, alt.to); !slices.Contains(names, s) {
				names = append(names, s)
			}
		}
	}
	return names
}

// A method multiplies or divides its receiver.
type method struct {
	Recv, Name, Arg, Result string
	Op, Doc                 string
}

func resolveProducts() ([]method, error) {
	var ms []method
	seen := make(map[string]bool)
	add := func(recv, prefix, name, arg, result, op, doc string) error {
		if name == "" {
			name = arg
		}
		m := method{recv, prefix + name, arg, result, op, doc}
		if key := recv + "." + m.Name; seen[key] {
			return fmt.Errorf("two methods %s", key)
		} else {
			seen[key] = true
		}
		ms = append(ms, m)
		return nil
	}
	for _, p := range products {
		if err := add(p.A, "Times", p.NameB, p.B, p.C, "*", p.Doc); err != nil {
			return nil, err
		}
		if p.A != p.B && !p.OneWay {
			if err := add(p.B, "Times", "", p.A, p.C, "*", p.Doc); err != nil {
				return nil, err
			}
		}
		if err := add(p.C, "Per", p.PerB, p.B, p.A, "/", ""); err != nil {
			return nil, err
		}
		if p.A != p.B {
			if err := add(p.C, "Per", "", p.A, p.B, "/", ""); err != nil {
				return nil, err
			}
		}
	}
	return ms, nil
}

var templates = template.Must(template.New("").Funcs(template.FuncMap{"quote": strconv.Quote, "article": article}).Parse(templateText))

// article puts a or an before a name.
func article(name string) string {
	if strings.ContainsAny(name[:1], "aeiou") {
		return "an " + name
	}
	return "a " + name
}
