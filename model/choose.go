package model

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Choose reads which plants are meant: numbers and ranges, shelf:A for a whole
// shelf, load:3 for a load, pulled, soaking, drying, dry, bloom, rot, new,
// trouble, offsets, fading and mist-only for all plants so marked, all for everything at home or out. Plants named
// by several words come once, in the order first named; gone plants are left out
// of everything but plain numbers.
func (b *Book) Choose(words ...string) (IDs, error) {
	var ids IDs
	seen := map[ID]bool{}
	for _, word := range words {
		some, err := b.chooseWord(word)
		if err != nil {
			return nil, err
		}
		for _, id := range some {
			if !seen[id] {
				seen[id] = true
				ids = append(ids, id)
			}
		}
	}
	return ids, nil
}

func (b *Book) chooseWord(word string) (IDs, error) {
	key, value, pair := strings.Cut(word, ":")
	switch key = strings.ToLower(key); {
	case pair && key == "shelf":
		ids := b.where(func(r *Row) bool { return strings.EqualFold(r.Home.Shelf, value) })
		if len(ids) == 0 {
			return nil, &Problem{What: fmt.Sprintf("no plants on shelf %q", value), Do: Meant(value, b.ShelfNames(), "")}
		}
		return b.Walk(ids), nil
	case pair && key == "load":
		return b.chooseLoad(value)
	case pair:
		return nil, &Problem{
			What: fmt.Sprintf("%q names no plants", word),
			Do:   "use a number, a range, shelf:A or load:3",
		}
	}
	if want, ok := standing[key]; ok {
		if key == "pulled" {
			return slices.Clone(b.waiting), nil
		}
		return b.where(want), nil
	}
	ids, err := b.chooseNumbers(word)
	if near := Near(word, Standings()); err != nil && near != "" {
		return nil, &Problem{What: fmt.Sprintf("%q names no plants", word), Do: "did you mean " + near + "?"}
	}
	return ids, err
}

// ShelfNames lists the shelves that plants hang on.
func (b *Book) ShelfNames() []string {
	var names []string
	for _, id := range b.order {
		if r := b.rows[id]; r.State != Gone && !slices.Contains(names, r.Home.Shelf) {
			names = append(names, r.Home.Shelf)
		}
	}
	return names
}

// standing are the words that choose plants by how they stand.
var standing = map[string]func(*Row) bool{
	"all":       func(r *Row) bool { return true },
	"pulled":    nil, // kept in the order pulled
	"soaking":   func(r *Row) bool { return r.State == Soaking },
	"drying":    func(r *Row) bool { return r.State == Drying },
	"dry":       func(r *Row) bool { return r.State == Dry },
	"bloom":     func(r *Row) bool { return !r.Bloom.IsZero() },
	"rot":       func(r *Row) bool { return !r.Rot.IsZero() },
	"new":       func(r *Row) bool { return !r.Quarantine.IsZero() },
	"trouble":   func(r *Row) bool { return len(r.Troubles) > 0 },
	"offsets":   func(r *Row) bool { return r.Offsets > 0 },
	"fading":    func(r *Row) bool { return !r.Fading.IsZero() },
	"mist-only": func(r *Row) bool { return r.MistOnly },
}

// Standings lists the words that choose plants by how they stand.
func Standings() []string { return slices.Sorted(maps.Keys(standing)) }

// where lists the plants not gone for which want holds, by number.
func (b *Book) where(want func(*Row) bool) IDs {
	var ids IDs
	for _, id := range b.order {
		if r := b.rows[id]; r.State != Gone && want(r) {
			ids = append(ids, id)
		}
	}
	return ids
}

func (b *Book) chooseLoad(value string) (IDs, error) {
	n, err := parseID(value)
	if err != nil || b.loads[LoadID(n)] == nil {
		return nil, &Problem{What: fmt.Sprintf("there is no load %q", value)}
	}
	load := b.loads[LoadID(n)]
	var ids IDs
	for _, id := range load.Plants {
		if r := b.rows[id]; r.Load == load.ID && r.State != Gone {
			ids = append(ids, id)
		}
	}
	return ids, nil
}

// chooseNumbers reads numbers and ranges. A range takes the plants there are,
// so that 1-700 works on a book with gaps; a single number must exist.
func (b *Book) chooseNumbers(word string) (IDs, error) {
	ids, err := ParseIDs(word)
	if err != nil {
		return nil, err
	}
	if len(ids) == 1 {
		if b.Row(ids[0]) == nil {
			return nil, &Problem{What: fmt.Sprintf("there is no plant %d", ids[0])}
		}
		return ids, nil
	}
	ids = slices.DeleteFunc(ids, func(id ID) bool { r := b.Row(id); return r == nil || r.State == Gone })
	if len(ids) == 0 {
		return nil, &Problem{What: fmt.Sprintf("no plants in %s", word)}
	}
	return ids, nil
}

// Walk sorts plants into walking order: shelf by shelf, spot by spot, numbers
// inside names counting as numbers (A2 before A10). The list is a new one.
func (b *Book) Walk(ids IDs) IDs {
	walk := slices.Clone(ids)
	slices.SortStableFunc(walk, func(x, y ID) int { return b.rows[x].WalkCompare(b.rows[y]) })
	return walk
}

// WalkCompare orders two rows as the grower walks past them. Plants without a
// shelf come last.
func (r *Row) WalkCompare(o *Row) int {
	if (r.Home.Shelf == "") != (o.Home.Shelf == "") {
		if r.Home.Shelf == "" {
			return 1
		}
		return -1
	}
	if c := NaturalCompare(r.Home.Shelf, o.Home.Shelf); c != 0 {
		return c
	}
	if c := NaturalCompare(r.Home.Spot, o.Home.Spot); c != 0 {
		return c
	}
	return cmp.Compare(r.ID, o.ID)
}

// NaturalCompare orders names as people do: letters without regard to case,
// runs of digits by their value.
func NaturalCompare(a, b string) int {
	for a != "" && b != "" {
		if isDigit(a[0]) && isDigit(b[0]) {
			x, restA := cutNumber(a)
			y, restB := cutNumber(b)
			if c := cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y)); c != 0 {
				return c
			}
			a, b = restA, restB
			continue
		}
		if c := cmp.Compare(lower(a[0]), lower(b[0])); c != 0 {
			return c
		}
		a, b = a[1:], b[1:]
	}
	return cmp.Compare(len(a), len(b))
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func lower(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

// cutNumber splits off a leading run of digits without its leading zeros.
func cutNumber(s string) (digits, rest string) {
	i := 0
	for i < len(s) && isDigit(s[i]) {
		i++
	}
	return strings.TrimLeft(s[:i], "0"), s[i:]
}
