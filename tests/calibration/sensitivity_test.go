package calibration_test

import (
	"bytes"
	"cmp"
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

	"tubside/model"
)

// sensitivity asks for the report on guesses, which builds the program anew for each of them.
var (
	sensitivity = flag.Bool("sensitivity", false, "vary every guess and report what becomes of the bands")
	guessed     = flag.String("guess", "", "vary only the guesses whose names match this")
)

// Each guess is taken down by a fifth and up by a quarter; a small whole number by one.
var variations = [2]float64{0.8, 1.25}

// guess is one number in the code whose comment says that it is a guess, or a house rule whose default is one.
type guess struct {
	name, file string // no file: a house rule
	from, to   int    // its place in the file
	value      float64
	replacedBy string // what its comment says would replace it
}

// Every guess, how much hangs on it, and what would replace it.
func TestSensitivityOfTheGuesses(t *testing.T) {
	if !*sensitivity {
		t.Skip("run with -sensitivity to vary every guess")
	}
	root := rootOf(t)
	base := outcomeWith(t, root, guess{}, 1)
	var b strings.Builder
	fmt.Fprintf(&b, "| guess | value | bands before looks | after | water, points | its range | hours to dry | hands free, min | what would replace it |\n"+
		"|---|---|---|---|---|---|---|---|---|\n")
	for _, g := range findGuesses(t, root) {
		if !regexp.MustCompile(*guessed).MatchString(g.name) {
			continue
		}
		var off [len(variations)]difference
		for v, by := range variations {
			off[v] = base.against(outcomeWith(t, root, g, by))
		}
		both := func(format string, of func(difference) float64) string {
			var words [len(off)]string
			for v, d := range off {
				if words[v] = fmt.Sprintf(format, of(d)); math.IsNaN(d.water) {
					words[v] = "none"
				}
			}
			return strings.Join(words[:], " / ")
		}
		fmt.Fprintf(&b, "| %s | %g | %s | %s | %s | %s | %s | %s | %s |\n", g.name, g.value,
			both("%.1f %%", func(d difference) float64 { return 100 * d.before }),
			both("%.1f %%", func(d difference) float64 { return 100 * d.after }),
			both("%.2f", func(d difference) float64 { return 100 * d.water }),
			both("%+.1f %%", func(d difference) float64 { return 100 * d.width }),
			both("%+.1f %%", func(d difference) float64 { return 100 * d.hours }),
			both("%+.0f", func(d difference) float64 { return d.free }), g.replacedBy)
	}
	record(t, "sensitivity", b.String())
}

// The table in README.md has every guess that is in the code, with the value it has there, and no other.
func TestEveryGuessIsInTheTable(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(text), "\n## Every guess\n")
	section, _, _ = strings.Cut(section, "\n## ")
	rows := map[string]string{}
	for _, row := range regexp.MustCompile(`(?m)^\| ([^|]+) \| ([-0-9.e]+) \|`).FindAllStringSubmatch(section, -1) {
		rows[row[1]] = row[2]
	}
	for _, g := range findGuesses(t, rootOf(t)) {
		value, there := rows[g.name]
		if want := fmt.Sprintf("%g", g.value); !there {
			t.Errorf("%s is a guess and not in the table", g.name)
		} else if value != want {
			t.Errorf("%s is %s in the table and %s in the code: vary it anew, with -sensitivity -guess '^%[1]s$'", g.name, value, want)
		}
		delete(rows, g.name)
	}
	for name := range rows {
		t.Errorf("%s is in the table and no guess", name)
	}
}

func rootOf(t *testing.T) string {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	return root
}

// findGuesses reads all of the model for numbers whose comment says guess, and its house rules.
func findGuesses(t *testing.T, root string) (found []guess) {
	files, err := filepath.Glob(filepath.Join(root, "model", "*", "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	own, err := filepath.Glob(filepath.Join(root, "model", "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range append(own, files...) {
		if !strings.HasSuffix(file, "_test.go") {
			found = append(found, guessesIn(t, filepath.Base(filepath.Dir(file)), file)...)
		}
	}
	for _, rule := range model.LimitTable {
		if saysGuess(rule.Source) {
			found = append(found, guess{name: "rule " + rule.Name, value: rule.Default})
		}
	}
	if len(found) < 100 {
		t.Fatalf("only %d guesses found: their comments no longer say so", len(found))
	}
	return found
}

func guessesIn(t *testing.T, folder, file string) (found []guess) {
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(tree, func(node ast.Node) bool {
		decl, ok := node.(*ast.GenDecl)
		if !ok || decl.Tok != token.CONST && decl.Tok != token.VAR {
			return true
		}
		for _, s := range decl.Specs {
			spec := s.(*ast.ValueSpec)
			words := spec.Doc.Text() + " " + spec.Comment.Text()
			if !saysGuess(words) {
				words = decl.Doc.Text()
			}
			if saysGuess(words) {
				found = append(found, numbersOf(set, spec, folder, file, cmp.Or(replacement(words), replacement(decl.Doc.Text())))...)
			}
		}
		return true
	})
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
		whole := math.Round(g.value * by)
		if whole == g.value {
			whole += math.Copysign(1, by-1)
		}
		number = strconv.Itoa(int(whole))
	}
	changed := filepath.Join(t.TempDir(), filepath.Base(g.file))
	if err := os.WriteFile(changed, []byte(string(text[:g.from])+number+string(text[g.to:])), 0o644); err != nil {
		t.Fatal(err)
	}
	return map[string]string{g.file: changed}
}

// outcome is what comes of the fixed home.
type outcome struct {
	plants []planted
	free   float64 // minutes until the hands are free
}

// planted is one plant of it.
type planted struct {
	before, after       string // its band before the last walk, and after it
	water, width, hours float64
}

// outcomeWith runs the fixed home through the program with a guess changed; 1 is as it is.
func outcomeWith(t *testing.T, root string, g guess, by float64) (o outcome) {
	args := []string{"run"}
	if g.file != "" {
		overlay, err := json.Marshal(map[string]any{"Replace": g.times(t, by)})
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "overlay.json")
		if err := os.WriteFile(file, overlay, 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, "-overlay", file)
	}
	args = append(args, "./tests/calibration/bands", "-plan")
	if rule, ok := strings.CutPrefix(g.name, "rule "); ok {
		args = append(args, fmt.Sprintf("-rule=%s=%g", rule, g.value*by))
	}
	run := exec.Command("go", args...)
	run.Dir = root
	var faults bytes.Buffer
	run.Stderr = &faults
	text, err := run.Output()
	if err != nil {
		t.Fatalf("run the home with %s times %g: %v\n%s", g.name, by, err, faults.String())
	}
	for line := range strings.Lines(string(text)) {
		var p planted
		if n, _ := fmt.Sscanf(line, "plan %f", &o.free); n == 1 {
			continue
		}
		if _, err := fmt.Sscan(line, &p.before, &p.after, &p.water, &p.width, &p.hours); err != nil {
			t.Fatal(err)
		}
		o.plants = append(o.plants, p)
	}
	return o
}

// difference is how one outcome differs from another.
type difference struct {
	before, after float64 // share of bands changed
	water         float64 // mean change of the water left, either way
	width, hours  float64 // mean change of its range, and of the drying time
	free          float64 // minutes that the hands are free later
}

func (o outcome) against(other outcome) (d difference) {
	d.free = other.free - o.free
	all, drying, share := float64(len(o.plants)), 0.0, 0.0
	for i, p := range o.plants {
		q := other.plants[i]
		if p.before != q.before {
			d.before += 1 / all
		}
		if p.after != q.after {
			d.after += 1 / all
		}
		d.water += math.Abs(q.water-p.water) / all
		d.width += (q.width - p.width) / all
		share += p.width / all
		if p.hours > 0 {
			d.hours += q.hours/p.hours - 1
			drying++
		}
	}
	d.width /= share
	d.hours /= drying
	return d
}
