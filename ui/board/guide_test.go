package board

import (
	"slices"
	"testing"

	"tubside/ui/paper"
)

// The keys that the guide names are keys of the screen it names them for.
func TestTheGuideHasTheKeys(t *testing.T) {
	m := newGrower(t).shelves().board
	keys := func(groups ...group) (all []string) {
		for _, g := range groups {
			for _, k := range g.keys {
				all = append(all, k.keys)
			}
		}
		return all
	}
	general := append(keys(m.global), keys(group{keys: newList().keys()})...)
	of := map[string][]string{"everywhere": general}
	for _, s := range m.screens {
		of[s.name()] = append(slices.Clone(general), keys(s.groups()...)...)
	}
	for _, p := range paper.Guide() {
		if of[p.Screen] == nil {
			t.Errorf("%q is for %q, which is no screen", p.Title, p.Screen)
		}
		for _, key := range p.Keys {
			if !slices.Contains(of[p.Screen], key) {
				t.Errorf("%q names the key %q, which %s does not have", p.Title, key, p.Screen)
			}
		}
	}
}

// The guide opens where it is about the screen the grower came from, goes on page
// by page, and has every page.
func TestTheGuideExplainsTheScreenInFront(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "s", "E")
	g.sees("▸Guide").sees(" Fill the tub ─").doesNotSee("Pull what goes in")
	g.keys("l").sees(" In the water ─").keys("h", "h").sees(" The plan ─")
	g.keys("/").types("Ohrui").keys("enter").sees("Ohrui")
	g.keys("T", "t", "E").sees(" Say what you see ─").keys("E").sees(" Say what you see ─")
	g.keys("T", "y", "E", "?").sees("next part").keys("pgdown").sees("the guide, where it explains this screen")
	g.keys("esc").sees(" The soak day in a minute ─")
	g.size(80, 400)
	for _, p := range paper.Guide() {
		g.sees(" " + p.Title + " ─")
	}
}

// Esc goes back to the screen that the guide was opened from.
func TestEscLeavesTheGuide(t *testing.T) {
	g := newGrower(t).shelves().keys("tab", "E").sees("▸Guide").keys("esc").sees("▸Soak")
	g.keys("T", "g").sees("▸Guide").keys("esc").sees("▸Guide")
}
