package demo_test

import (
	"testing"

	"tubside/demo"
	"tubside/model"
)

func TestTheCollection(t *testing.T) {
	b, _ := build(t, demo.Options{Now: now})
	var here, gone, trays, clumps, bloom, rot, assumed, fading, pups, parted, apart, released, weighed, ill int
	stages := map[model.Stage]int{}
	forms, leaves := map[model.Form]int{}, map[model.Leaf]int{}
	for _, id := range b.IDs() {
		r := b.Row(id)
		if r.State == model.Gone {
			gone++
			continue
		}
		here++
		forms[r.Form]++
		leaves[r.Leaf]++
		count(&trays, r.Count >= 5)
		count(&clumps, r.Count > 1)
		count(&bloom, !r.Bloom.IsZero())
		count(&rot, !r.Rot.IsZero())
		count(&assumed, r.Assumed.Any())
		count(&fading, !r.Fading.IsZero())
		count(&pups, r.Offsets > 0)
		count(&parted, r.Mother != 0 && !r.Separated.IsZero())
		count(&apart, !r.Quarantine.IsZero())
		count(&released, !r.Released.IsZero())
		count(&weighed, r.Weight.Grams > 0)
		count(&ill, len(r.Troubles) > 0)
		stages[r.Stage]++
	}
	for _, c := range []struct {
		what           string
		n, least, most int
	}{
		{"plants", here, 610, 670}, {"gone", gone, 20, 60}, {"trays", trays, 3, 40}, {"clumps and trays", clumps, 20, 120},
		{"fading", fading, 3, 50}, {"with offsets", pups, 20, 120}, {"separated", parted, 3, 20}, {"in quarantine", apart, 2, 25},
		{"released", released, 10, 60}, {"weighed", weighed, 3, 5}, {"in trouble", ill, 2, 8},
		{"in bud", stages[model.Bud], 1, 15}, {"open", stages[model.Open], 1, 25}, {"spent", stages[model.Spent], 1, 15},
		{"benches", len(b.Benches()), 2, 2}, {"turns of the window", len(b.Windows()), 10, 120}, {"trips", len(b.Trips()), 2, 2},
		{"in bloom", bloom, 2, 30}, {"suspected of rot", rot, 1, 15}, {"assumed", assumed, 30, 140},
		{"entries", len(b.Entries()), 4000, 6500}, {"readings", len(b.Readings()) - logged(b), 280, 400}, {"logged", logged(b), 160, 168},
	} {
		if c.n < c.least || c.n > c.most {
			t.Errorf("%d %s, want %d to %d", c.n, c.what, c.least, c.most)
		}
	}
	for _, f := range model.Forms {
		if forms[f] == 0 {
			t.Errorf("no %s plant", f)
		}
	}
	for _, l := range model.Leaves {
		if leaves[l] == 0 {
			t.Errorf("no %s leaf", l)
		}
	}
}

// logged is the number of readings that a logger wrote down.
func logged(b *model.Book) (n int) {
	for _, e := range b.Entries() {
		if f, ok := e.Fact.(*model.Readings); ok {
			n += f.Len()
		}
	}
	return n
}

func count(n *int, yes bool) {
	if yes {
		*n++
	}
}

// Every kind of entry a person can make happens in a year.
func TestThePastHasEveryKindOfEntry(t *testing.T) {
	b, _ := build(t, demo.Options{Now: now})
	seen, struck, reasons := map[model.Kind]bool{}, 0, map[string]bool{}
	for _, e := range b.Entries() {
		seen[e.Fact.Kind()] = true
		count(&struck, b.Struck(e.Seq))
		if f, ok := e.Fact.(*model.Leave); ok {
			reasons[f.How] = true
		}
	}
	for _, kind := range []model.Kind{
		"import", "add", "edit", "move", "split", "gone", "signs", "weight", "bloom", "offsets", "fading", "rot", "trouble", "looked",
		"quarantine", "mist", "feed", "bottle", "note", "vessel", "fill", "water", "pull", "putback", "soak", "out", "drain", "damp",
		"dry", "hung", "bench", "shelf", "shelfdays", "reading", "readings", "fan", "window", "trip", "back", "rule", "strike",
	} {
		if !seen[kind] {
			t.Errorf("no %q entry", kind)
		}
	}
	if struck < 3 {
		t.Errorf("%d struck entries", struck)
	}
	if !reasons[model.Lost] || !reasons[model.Sold] || !reasons[model.Given] {
		t.Errorf("plants went only by %v", reasons)
	}
}
