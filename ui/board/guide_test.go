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
