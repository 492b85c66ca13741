package command

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/kballard/go-shellquote"
)

// Every act has a line of help and two examples that differ, and an example is
// what the act takes.
func TestEveryActTakesItsExamples(t *testing.T) {
	seen := map[string]bool{}
	for i := range acts {
		a := &acts[i]
		t.Run(a.word, func(t *testing.T) {
			if seen[a.word] || a.short == "" || a.fact == nil || a.examples[0] == a.examples[1] {
				t.Errorf("named twice, without help, without a fact or without a second example: %+v", a)
			}
			seen[a.word] = true
			for _, example := range a.examples {
				words, err := shellquote.Split(example)
				if err != nil || words[0] != a.word {
					t.Fatalf("%s: %v", example, err)
				}
				flags := a.flagSet()
				flags.String("now", "", "") // every command has it
				if err := flags.Parse(words[1:]); err != nil {
					t.Fatalf("%s: %v", example, err)
				}
				in := &said{act: a, words: flags.Args(), flags: flags, now: time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)}
				if f, err := a.read(in); err != nil || f == nil {
					t.Errorf("%s: %v", example, err)
				}
			}
		})
	}
}

// Flags of which one alone may be given are flags of the act, and two of them
// are refused by name.
func TestFlagsThatExcludeEachOther(t *testing.T) {
	for i := range acts {
		a := &acts[i]
		for _, name := range a.only {
			if !slices.ContainsFunc(a.flags, func(f flag) bool { return f.name == name }) {
				t.Errorf("enter %s has no flag --%s", a.word, name)
			}
		}
	}
	a := &acts[slices.IndexFunc(acts, func(a act) bool { return a.word == "bloom" })]
	flags := a.flagSet()
	if err := flags.Parse([]string{"17", "--spent", "--bud"}); err != nil {
		t.Fatal(err)
	}
	_, err := a.read(&said{act: a, words: flags.Args(), flags: flags})
	if err == nil || !strings.Contains(err.Error(), "give --bud or --spent, not both") {
		t.Errorf("got %v", err)
	}
}
