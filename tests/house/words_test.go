package house_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// banned are words that nobody says beside a tub. What is to be said instead
// stands behind them.
var banned = []struct{ word, say string }{
	{`reckon(s|ed|ing)?`, "work out; than usual"},
	{`kin`, "others like it"},
	{`linger(s|ed|ing)?`, "stay"},
	{`heard`, "known"},
	{`hands free`, "you're free at"},
	{`hands in`, "loading"},
	{`struck`, "undone"},
	{`brought back`, "redone"},
	{`our own`, "chosen here"},
	{`film`, "water on the leaves"},
	{`pocket`, "heart"},
	{`deficit`, "dry air, with the figure behind it"},
	{`rested for`, "stood"},
	{`I have watched`, "check these first"},
	{`cross(es)? the (soak )?line`, "want a soak"},
	{`reach injury`, "come to harm"},
	{`numbers (ask|have it)`, "it could use; expected"},
	{`by the numbers`, "should be"},
	{`nobody knows (its|the)`, "you have not said"},
	{`passe[sd]? over the`, "skip"},
	{`ask no more`, "skip all"},
	{`have the last word`, "follow your local code"},
	{`unaccounted`, "missing"},
	{`pair of hands to|hands (begin|are done|are free)`, "when you begin"},
}

// onPaper are banned on the printed pages besides: elsewhere a row may be one of
// a spreadsheet, there it can only be a plant.
var onPaper = []struct{ word, say string }{
	{`rows?`, "plants, a tray counts as one"},
}

// spoken are the folders whose strings people read.
var spoken = []string{
	"ui/board", "ui/show", "ui/command", "ui/paper", "model", "model/advice", "model/day", "model/trip",
	"store", "store/table", "store/csvfile",
}

// Every string in the program that a person may read is free of the words that
// nobody says.
func TestWordsThatNobodySays(t *testing.T) {
	var all []*regexp.Regexp
	words := slices.Concat(banned, onPaper)
	for _, b := range words {
		all = append(all, regexp.MustCompile(`(?i)\b(`+b.word+`)\b`))
	}
	read := 0
	for _, folder := range spoken {
		files, err := filepath.Glob(filepath.Join("..", "..", folder, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v, %d files", folder, err, len(files))
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			for at, text := range stringsIn(t, file) {
				read++
				for i, word := range all {
					if found := word.FindString(text); found != "" && (i < len(banned) || folder == "ui/paper") {
						t.Errorf("%s: %q in %.60q: say %s", at, found, text, words[i].say)
					}
				}
			}
		}
	}
	if read < 1000 {
		t.Errorf("only %d strings were read", read)
	}
}

// names are strings that name something in the book's files or in JSON: nobody
// reads them as words.
var names = []string{"struck", "deficit", "film", "pocket", "kin"}

// stringsIn lists the strings of a source file by their places, without names.
func stringsIn(t *testing.T, file string) map[string]string {
	t.Helper()
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			n.Tag = nil
		case *ast.BasicLit:
			if n.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(n.Value)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Contains(names, text) {
				found[set.Position(n.Pos()).String()] = text
			}
		}
		return true
	})
	return found
}

// shared are the folders whose refusals reach the board.
var shared = []string{"model", "model/*", "store/table", "ui/show", "ui/board"}

// A refusal that may be read on the board names no command and no flag: what is
// typed in a shell stands in a part of its own that only the shell says.
func TestRefusalsNameNoFlags(t *testing.T) {
	read := 0
	for _, folder := range shared {
		files, err := filepath.Glob(filepath.Join("..", "..", folder, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			set := token.NewFileSet()
			tree, err := parser.ParseFile(set, file, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(tree, func(n ast.Node) bool {
				pair, ok := n.(*ast.KeyValueExpr)
				if key, named := keyOf(pair, ok); !named || key != "What" && key != "Do" {
					return true
				}
				ast.Inspect(pair.Value, func(n ast.Node) bool {
					if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
						read++
						if strings.Contains(lit.Value, "--") || strings.Contains(lit.Value, "tubside ") {
							t.Errorf("%s: %s is for the shell alone", set.Position(lit.Pos()), lit.Value)
						}
					}
					return true
				})
				return true
			})
		}
	}
	if read < 200 {
		t.Errorf("only %d refusals were read", read)
	}
}

// keyOf is the name before a value.
func keyOf(pair *ast.KeyValueExpr, ok bool) (string, bool) {
	if !ok {
		return "", false
	}
	name, ok := pair.Key.(*ast.Ident)
	if !ok {
		return "", false
	}
	return name.Name, true
}
