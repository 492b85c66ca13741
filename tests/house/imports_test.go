// Package house_test holds the house together: which package may know which.
package house_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// may says which packages of ours a package may import. Imports point one way:
// numbers know nothing of plants, the book knows nothing of numbers, the disk
// knows the book, and only what a person sees knows everything. A package that
// is not named here has no place in the house yet.
var may = map[string][]string{
	"model/air":      {},
	"model/belief":   {},
	"model/feed":     {},
	"model/soak":     {},
	"model/ledger":   {},
	"model/leaf":     {"model/air", "model/belief"},
	"model/drying":   {"model/air", "model/belief"},
	"model":          {},
	"model/species":  {"model"},
	"model/snapshot": {},
	"model/estimate": {"model", "model/air", "model/belief", "model/drying", "model/leaf", "model/snapshot", "model/soak", "model/species"},
	"model/advice":   {"model", "model/estimate", "model/feed", "model/leaf", "model/soak"},
	"model/day":      {"model", "model/advice", "model/estimate", "model/leaf", "model/soak"},
	"model/trip":     {"model", "model/advice", "model/estimate", "model/leaf", "model/soak"},
	"model/accounts": {"model", "model/estimate", "model/feed", "model/ledger"},
	"store":          {"model", "store/table"},
	"store/beliefs":  {"model", "model/estimate", "store"},
	"store/csvfile":  {},
	"store/logger":   {"model", "model/air", "store/csvfile"},
	"store/table":    {"model", "model/species", "store/csvfile"},
	"demo":           {"model", "model/advice", "model/air", "model/estimate", "model/drying", "model/leaf", "model/species", "store"},
	"ui/show":        {"model", "model/advice", "model/air", "model/day", "model/estimate", "model/feed", "model/soak", "model/trip"},
	"ui/paper":       {"model", "model/advice", "model/day", "model/accounts", "model/ledger", "model/soak", "model/trip", "ui/show"},
	"ui/ink":         {},
	"ui/hush":        {},
	"ui/board":       {"model", "model/...", "store", "store/beliefs", "store/table", "ui/paper", "ui/hush", "ui/ink", "ui/show"},
	"ui/command":     {"demo", "model", "model/...", "store", "store/...", "ui/..."},
	"":               {"ui/command"},
}

// onlyIn says which package alone may import what others must not know.
var onlyIn = map[string]string{
	"go.etcd.io/bbolt":                           "store",
	"github.com/charmbracelet/bubbletea":         "ui/board",
	"github.com/charmbracelet/bubbles/textinput": "ui/board",
	"github.com/charmbracelet/lipgloss":          "ui/board",
	"github.com/spf13/cobra":                     "ui/command",
}

type listed struct {
	ImportPath string
	Imports    []string
}

// packages lists every package of ours outside tests.
func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "tubside/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		if name := ours(p.ImportPath); name != "tests" && !strings.HasPrefix(name, "tests/") {
			all = append(all, p)
		}
	}
}

// ours is a package's path inside the module.
func ours(path string) string {
	return strings.TrimPrefix(strings.TrimPrefix(path, "tubside"), "/")
}

func TestImportsPointOneWay(t *testing.T) {
	for _, p := range packages(t) {
		name := ours(p.ImportPath)
		allowed, known := may[name]
		if !known {
			t.Errorf("package %s has no place in the house: say in this test what it may import", name)
			continue
		}
		for _, path := range p.Imports {
			if path != "tubside" && !strings.HasPrefix(path, "tubside/") {
				continue
			}
			if !slices.ContainsFunc(allowed, func(a string) bool { return covers(a, ours(path)) }) {
				t.Errorf("%s imports %s, which it must not know", name, ours(path))
			}
		}
	}
}

// The alien worlds of the calibration know the book and nothing else of ours: a world that shared the program's
// equations could not say what comes of their being wrong.
func TestAlienWorldsOweNothing(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{join .Imports " "}}`, "tubside/tests/calibration/alien").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	for _, path := range strings.Fields(string(out)) {
		if strings.HasPrefix(path, "tubside") && path != "tubside/model" {
			t.Errorf("alien worlds import %s", path)
		}
	}
}

// covers reports whether an allowance names a package, or everything under it.
func covers(allowance, name string) bool {
	if under, all := strings.CutSuffix(allowance, "..."); all {
		return strings.HasPrefix(name, under)
	}
	return allowance == name
}

func TestLibrariesStayWhereTheyBelong(t *testing.T) {
	for _, p := range packages(t) {
		for _, path := range p.Imports {
			if home, ok := onlyIn[path]; ok && ours(p.ImportPath) != home {
				t.Errorf("%s imports %s; only %s may", ours(p.ImportPath), path, home)
			}
		}
	}
}
