package calibration_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// sensitivity asks for the report on guesses, which builds the program anew for each of them.
var sensitivity = flag.Bool("sensitivity", false, "vary every guess and report what becomes of the bands")

// Each guess is taken down by a fifth and up by a quarter.
var variations = [2]float64{0.8, 1.25}

// guess is one number in the code whose comment says that it is a guess.
type guess struct {
	name, file string
	from, to   int // its place in the file
	value      float64
	replacedBy string // what its comment says would replace it
}

// Every guess, how much hangs on it, and what would replace it.
func TestSensitivityOfTheGuesses(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	guesses := findGuesses(t, root)
	if len(guesses) < 30 {
		t.Fatalf("only %d guesses found: their comments no longer say so", len(guesses))
	}
	if !*sensitivity {
		t.Logf("%d guesses found; run with -sensitivity to vary them", len(guesses))
		return
	}
	base := bandsWith(t, root, nil)
	var b strings.Builder
	fmt.Fprintf(&b, "| guess | value | bands changed at x%g / x%g | drying time | what would replace it |\n|---|---|---|---|---|\n", variations[0], variations[1])
	for i := range guesses {
		g := &guesses[i]
		var bands, hours [2]string
		for v, by := range variations {
			off := base.against(bandsWith(t, root, g.times(t, by)))
			bands[v], hours[v] = fmt.Sprintf("%.1f %%", 100*off.bands), fmt.Sprintf("%+.0f %%", 100*off.hours)
		}
		fmt.Fprintf(&b, "| %s | %g | %s / %s | %s / %s | %s |\n", g.name, g.value, bands[0], bands[1], hours[0],
			hours[1], g.replacedBy)
	}
	record(t, "sensitivity", b.String())
}

// findGuesses reads the number packages for constants whose comment says guess.
func findGuesses(t *testing.T, root string) (found []guess) {
	for _, folder := range []string{"leaf", "drying", "estimate", "advice", "day", "trip"} {
		files, err := filepath.Glob(filepath.Join(root, "model", folder, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") {
				found = append(found, guessesIn(t, folder, file)...)
			}
		}
	}
	return found
}

func guessesIn(t *testing.T, folder, file string) (found []guess) {
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range tree.Decls {
		decl, ok := d.(*ast.GenDecl)
		if !ok || decl.Tok != token.CONST && decl.Tok != token.VAR {
			continue
		}
		for _, s := range decl.Specs {
			spec := s.(*ast.ValueSpec)
			words := spec.Doc.Text() + " " + spec.Comment.Text()
			if !saysGuess(words) {
				words = decl.Doc.Text()
			}
			if saysGuess(words) {
				by := replacement(words)
				if by == "" {
					by = replacement(decl.Doc.Text())
				}
				found = append(found, numbersOf(set, spec, folder, file, by)...)
			}
		}
	}
	return found
}

func saysGuess(words string) bool { return strings.Contains(strings.ToLower(words), "guess") }

// replacement is the part of a comment that says what would replace the guess.
func replacement(words string) string {
	for _, sentence := range regexp.MustCompile(`[.;]\s+`).Split(strings.Join(strings.Fields(words), " "), -1) {
		if strings.Contains(sentence, "would replace") {
			return strings.TrimSuffix(sentence, ".")
		}
	}
	return ""
}

// numbersOf is each number in a declaration, named by its place where there are several.
func numbersOf(set *token.FileSet, spec *ast.ValueSpec, folder, file, replacedBy string) (found []guess) {
	for n, value := range spec.Values {
		ast.Inspect(value, func(node ast.Node) bool {
			lit, ok := node.(*ast.BasicLit)
			if !ok || lit.Kind != token.FLOAT && lit.Kind != token.INT {
				return true
			}
			v, err := strconv.ParseFloat(lit.Value, 64)
			if err == nil && v != 0 {
				name := spec.Names[min(n, len(spec.Names)-1)].Name
				from := set.Position(lit.Pos()).Offset
				found = append(found, guess{folder + "." + name, file, from, from + len(lit.Value), v, replacedBy})
			}
			return true
		})
	}
	for i := range found {
		if len(found) > 1 {
			found[i].name = fmt.Sprintf("%s, number %d", found[i].name, i+1)
		}
	}
	return found
}

// times is the guess's file with the guess changed.
func (g *guess) times(t *testing.T, by float64) map[string]string {
	text, err := os.ReadFile(g.file)
	if err != nil {
		t.Fatal(err)
	}
	number := strconv.FormatFloat(g.value*by, 'g', -1, 64)
	if !strings.ContainsAny(string(text[g.from:g.to]), ".e") { // a whole number stays one
		number = strconv.Itoa(int(math.Round(g.value * by)))
	}
	changed := filepath.Join(t.TempDir(), filepath.Base(g.file))
	if err := os.WriteFile(changed, []byte(string(text[:g.from])+number+string(text[g.to:])), 0o644); err != nil {
		t.Fatal(err)
	}
	return map[string]string{g.file: changed}
}

// outcome is what care makes of the fixed plants.
type outcome struct {
	bands []string
	hours []float64
}

// bandsWith runs the fixed plants through the program with some files replaced.
func bandsWith(t *testing.T, root string, replaced map[string]string) outcome {
	overlay, err := json.Marshal(map[string]any{"Replace": replaced})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "overlay.json")
	if err := os.WriteFile(file, overlay, 0o644); err != nil {
		t.Fatal(err)
	}
	run := exec.Command("go", "run", "-overlay", file, "./tests/calibration/bands")
	run.Dir = root
	var faults bytes.Buffer
	run.Stderr = &faults
	text, err := run.Output()
	if err != nil {
		t.Fatalf("run the plants: %v\n%s", err, faults.String())
	}
	var o outcome
	for line := range strings.Lines(string(text)) {
		fields := strings.Fields(line)
		hours, err := strconv.ParseFloat(fields[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		o.bands, o.hours = append(o.bands, fields[0]), append(o.hours, hours)
	}
	return o
}

// difference is how one outcome differs from another.
type difference struct{ bands, hours float64 } // share of bands changed; mean change of the drying time

func (o outcome) against(other outcome) (s difference) {
	n := 0
	for i := range o.bands {
		if o.bands[i] != other.bands[i] {
			s.bands += 1 / float64(len(o.bands))
		}
		if o.hours[i] > 0 {
			s.hours += other.hours[i]/o.hours[i] - 1
			n++
		}
	}
	s.hours /= float64(n)
	return s
}
