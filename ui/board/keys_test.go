package board

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// The README's table of keys is the table that the keys work by.
func TestTheReadmeHasTheKeys(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := newGrower(t).shelves().board
	if table := keyTable(m); !strings.Contains(string(text), table) {
		t.Errorf("README.md, Keys: the table should be\n\n%s", table)
	}
}

// keyTable is the keys of every screen in Markdown.
func keyTable(m *board) string {
	var b strings.Builder
	row := func(name string, groups ...group) {
		var words []string
		for _, g := range groups {
			for _, k := range g.keys {
				if k.do != nil && k.help != "" {
					words = append(words, fmt.Sprintf("`%s` %s", k.keys, briefly(k.help)))
				}
			}
		}
		fmt.Fprintf(&b, "| %s | %s |\n", name, strings.Join(words, ", "))
	}
	b.WriteString("| where | keys |\n|---|---|\n")
	row("everywhere", m.global)
	row("in any list", group{keys: newList().keys()})
	usual := map[[2]string]bool{}
	for _, k := range append(newList().keys(), (&scroll{}).keys()...) {
		usual[[2]string{k.keys, k.help}] = true
	}
	for _, s := range m.screens {
		var own []group
		for _, g := range s.groups() {
			var keys []binding
			for _, k := range g.keys {
				if !usual[[2]string{k.keys, k.help}] {
					keys = append(keys, k)
				}
			}
			own = append(own, group{g.title, keys})
		}
		row(s.name(), own...)
	}
	return b.String()
}

// briefly is what stands before the first comma, colon or semicolon.
func briefly(help string) string {
	if i := strings.IndexAny(help, ",:;"); i > 0 {
		return help[:i]
	}
	return help
}

// Each key stands once on a screen and means one thing; what works everywhere is
// taken away only on purpose.
func TestNoKeyMeansTwoThings(t *testing.T) {
	m := newGrower(t).shelves().board
	everywhere := map[string]bool{}
	for _, b := range m.global.keys {
		for _, k := range keysOf(b.keys) {
			everywhere[k] = true
		}
	}
	onPurpose := map[string]string{"enter": "Plan Week Rules History"}
	for _, s := range m.screens {
		seen := map[string]bool{}
		for _, g := range s.groups() {
			for _, b := range g.keys {
				for _, k := range keysOf(b.keys) {
					if seen[k] {
						t.Errorf("%s: %q stands twice", s.name(), k)
					}
					if everywhere[k] && !strings.Contains(onPurpose[k], s.name()) {
						t.Errorf("%s: %q means something else everywhere", s.name(), k)
					}
					seen[k] = true
				}
			}
		}
	}
}
