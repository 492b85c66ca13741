package house_test

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// typed are the functions whose dates are for files and for JSON, and so are written as 2026-01-31. Everywhere else a date is one that people read.
var typed = map[string]bool{
	"model Came":              true, // a cell of a spreadsheet
	"store/table dayCell":     true, // a cell of a spreadsheet
	"store keepIn":            true, // the name of a file
	"ui/command dayFlag":      true, // a flag
	"model/accounts dayOf":    true, // JSON, as are the rest
	"model/accounts byMonth":  true,
	"ui/command answerRoom":   true,
	"ui/command answerSpells": true,
}

const (
	dateType = "github.com/rickb777/date/v2.Date"
	timeType = "time.Time"
)

// Wherever a person reads a date it is written one way, 31 Jan 2026: no time is formatted
// with the year first, and no date is left to write itself, which it does so.
func TestOneStyleOfDates(t *testing.T) {
	times, dates, met := 0, 0, map[string]bool{}
	for _, p := range withTypes(t) {
		name := ours(p.path)
		for _, file := range p.files {
			for _, d := range file.Decls {
				f, ok := d.(*ast.FuncDecl)
				where := name
				if ok {
					where += " " + f.Name.Name
				}
				ast.Inspect(d, func(n ast.Node) bool {
					call, ok := n.(*ast.CallExpr)
					if !ok {
						return true
					}
					what := ""
					if s, ok := call.Fun.(*ast.SelectorExpr); ok {
						switch of := p.info.TypeOf(s.X); {
						case of == nil:
						case s.Sel.Name == "Format" && (of.String() == timeType || of.String() == dateType):
							times++
							if layout := p.info.Types[call.Args[0]].Value; layout != nil && strings.HasPrefix(layout.ExactString(), `"2006-01`) &&
								layout.ExactString() != `"2006-01-02T15:04:05Z07:00"` {
								what = "it is formatted " + layout.ExactString()
							}
						case s.Sel.Name == "String" && of.String() == dateType:
							what = "it writes itself"
						}
					}
					for i, arg := range call.Args {
						if of := p.info.TypeOf(arg); of != nil && of.String() == dateType {
							dates++
							if _, any := parameter(p.info, call, i).(*types.Interface); any {
								what = "it is left to write itself"
							}
						}
					}
					if what != "" {
						met[where] = true
					}
					if what != "" && !typed[where] {
						t.Errorf("%s: in %s a date is not written as 31 Jan 2026: %s", p.set.Position(call.Pos()), where, what)
					}
					return true
				})
			}
		}
	}
	for where := range typed {
		if !met[where] {
			t.Errorf("%s writes no date as it is typed", where)
		}
	}
	if times < 50 || dates < 20 {
		t.Errorf("only %d times and %d dates were looked at", times, dates)
	}
}

// parameter is the type that argument i of a call is taken as.
func parameter(info *types.Info, call *ast.CallExpr, i int) types.Type {
	f, ok := info.TypeOf(call.Fun).(*types.Signature)
	if !ok {
		return nil
	}
	last := f.Params().Len() - 1
	if f.Variadic() && i >= last && !call.Ellipsis.IsValid() {
		return f.Params().At(last).Type().(*types.Slice).Elem().Underlying()
	}
	return f.Params().At(i).Type().Underlying()
}

// checked is a package with the types of its expressions.
type checked struct {
	path  string
	set   *token.FileSet
	files []*ast.File
	info  *types.Info
}

// withTypes reads the packages of ours that write what people read.
func withTypes(t *testing.T) []checked {
	t.Helper()
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,GoFiles,Export", "tubside/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	type pkg struct {
		ImportPath, Dir, Export string
		GoFiles                 []string
	}
	export := map[string]string{}
	var mine []pkg
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p pkg
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		export[p.ImportPath] = p.Export
		for _, room := range []string{"ui/", "model", "store"} {
			if strings.HasPrefix(p.ImportPath, "tubside/") && strings.HasPrefix(ours(p.ImportPath), room) {
				mine = append(mine, p)
			}
		}
	}
	var all []checked
	for _, p := range mine {
		c := checked{path: p.ImportPath, set: token.NewFileSet(), info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{},
			Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}}
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(c.set, filepath.Join(p.Dir, name), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			c.files = append(c.files, file)
		}
		compiled := importer.ForCompiler(c.set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(export[path]) })
		if _, err := (&types.Config{Importer: compiled}).Check(p.ImportPath, c.set, c.files, c.info); err != nil {
			t.Fatal(err)
		}
		all = append(all, c)
	}
	return all
}
