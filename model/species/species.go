// Package species is the built-in list of plants the trade sells: what form,
// leaf and span to assume when the grower gives only a name. Every row is
// growers' habit, but for what the list says was measured.
package species

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"tubside/model"
)

// Entry is one plant of the list.
type Entry struct {
	Name       string // accepted name: "T. ionantha"
	Aliases    []string
	Form       model.Form
	Leaf       model.Leaf
	SizeCM     float64 // typical span in cm of what is kept at home
	Loss       float64 // measured share of its water lost in a day at 21 °C and 40 %, of a plant of SizeCM; 0 not measured
	Thin       bool    // no water-storing tissue, whatever its leaf looks like
	Range      string  // what the source gives, in cm
	Confidence string  // "A seen in a flora or monograph", "B from memory, confident" or "C from memory, check"
	Source     string  // where name, form and size come from
}

// Says is how far to trust the entry, for a line beneath what was assumed.
func (e Entry) Says() string {
	return fmt.Sprintf("growers' habit; confidence %s; %s", e.Confidence, e.Source)
}

var confidence = map[string]string{
	"A": "A seen in a flora or monograph",
	"B": "B from memory, confident",
	"C": "C from memory, check",
}

// All lists the plants in the order of the list. The caller must not change it.
func All() []Entry { return read().entries }

// Find looks up a plant by its name as received: with or without the genus, a
// cultivar or variety after it, an old name, a common trade name, any case. A
// hybrid is only found under its own name, never under one of its parents.
func Find(name string) (Entry, bool) {
	l := read()
	words := normalise(name)
	shortest := 1
	if isHybrid(words) {
		shortest = len(words)
	}
	for n := len(words); n >= max(1, shortest); n-- {
		if i, ok := l.index[strings.Join(words[:n], " ")]; ok {
			return l.entries[i], true
		}
	}
	return Entry{}, false
}

// genera are the words that may stand before the name of a species.
var genera = map[string]bool{
	"t": true, "till": true, "tillandsia": true, "tillandsias": true, "tilly": true,
	"w": true, "wallisia": true, "b": true, "barfussia": true, "r": true, "racinaea": true,
}

// plain takes out what people write differently.
var plain = strings.NewReplacer(
	"×", " x ", "ë", "e", "é", "e", "'", "", "’", "", "‘", "", "`", "", `"`, "", "“", "", "”", "",
	".", " ", "-", " ", "_", " ", ",", " ", "(", " ", ")", " ", "/", " ",
)

// normalise is the words of a name in lower case, without the genus and
// without the cross before a hybrid's own name.
func normalise(name string) []string {
	words := strings.Fields(plain.Replace(strings.ToLower(name)))
	for len(words) > 1 && (genera[words[0]] || words[0] == "x") {
		words = words[1:]
	}
	return words
}

// isHybrid reports whether a cross stands between two names.
func isHybrid(words []string) bool {
	for _, w := range words {
		if w == "x" {
			return true
		}
	}
	return false
}

//go:embed species.csv
var file string

type list struct {
	entries []Entry
	index   map[string]int // by normalised name
}

// read reads the list once. The file is part of the program, so a fault in it
// is ours and a panic.
var read = sync.OnceValue(func() list {
	r := csv.NewReader(strings.NewReader(file))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic("species list: " + err.Error())
	}
	l := list{index: map[string]int{}}
	for _, row := range rows[1:] {
		e := parse(row)
		for _, name := range append([]string{e.Name}, e.Aliases...) {
			key := strings.Join(normalise(name), " ")
			if other, taken := l.index[key]; taken && other != len(l.entries) {
				panic("species list: " + name + " stands there twice")
			}
			l.index[key] = len(l.entries)
		}
		l.entries = append(l.entries, e)
	}
	return l
})

func parse(row []string) Entry {
	form, errForm := model.ParseForm(row[1])
	leaf, errLeaf := model.ParseLeaf(row[2])
	size, errSize := strconv.ParseFloat(row[3], 64)
	trust, known := confidence[row[5]]
	if errForm != nil || errLeaf != nil || errSize != nil || !known {
		panic(fmt.Sprintf("species list: %q", row))
	}
	e := Entry{Name: row[0], Form: form, Leaf: leaf, SizeCM: size, Range: row[4], Confidence: trust, Source: row[8]}
	switch loss, err := strconv.ParseFloat(row[6], 64); {
	case row[6] == "thin":
		e.Thin = true
	case row[6] != "" && err != nil:
		panic(fmt.Sprintf("species list: %q", row))
	default:
		e.Loss = loss
	}
	if row[7] != "" {
		e.Aliases = strings.Split(row[7], "|")
	}
	return e
}
