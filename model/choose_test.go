package model_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model"
)

// afternoon is a soak day half done: 1 in the tub, 2 drying, 3 dry, 4 pulled, 5
// at home, new and in bloom, 6 sold.
func afternoon(t rapid.TB) *diary {
	d := shelved(t)
	d.write(&model.Pull{}, 4, 3, 2, 1)
	d.soak(3, 2, 1)
	d.write(&model.Out{}, 3, 2)
	d.write(&model.FoundDry{}, 3)
	d.write(&model.Bloom{}, 5, 3)
	d.write(&model.Rot{}, 2)
	d.write(&model.Quarantine{}, 5)
	d.write(&model.Trouble{What: model.Mealybug}, 4)
	d.write(&model.Offsets{Count: 2}, 1)
	d.write(&model.Fading{}, 3)
	d.write(&model.Leave{How: model.Sold}, 6)
	return d
}

func TestChoose(t *testing.T) {
	d := afternoon(t)
	for _, c := range []struct {
		words []string
		want  model.IDs
	}{
		{nil, nil},
		{[]string{"3"}, model.IDs{3}},
		{[]string{"3", "1-4"}, model.IDs{3, 1, 2, 4}}, // once, in the order first named
		{[]string{"4,1"}, model.IDs{4, 1}},
		{[]string{"1-700"}, model.IDs{1, 2, 3, 4, 5}}, // those there are
		{[]string{"6"}, model.IDs{6}},                 // gone, and asked for by number
		{[]string{"6,5"}, model.IDs{5}},
		{[]string{"all"}, model.IDs{1, 2, 3, 4, 5}},
		{[]string{"ALL"}, model.IDs{1, 2, 3, 4, 5}},
		{[]string{"shelf:A"}, model.IDs{3, 2, 1}}, // spots 1, 2, 10
		{[]string{"Shelf:a"}, model.IDs{3, 2, 1}},
		{[]string{"shelf:b"}, model.IDs{4, 5}}, // somewhere on the shelf, then spot 2
		{[]string{"load:1"}, model.IDs{3, 2, 1}},
		{[]string{"pulled"}, model.IDs{4}},
		{[]string{"soaking"}, model.IDs{1}},
		{[]string{"drying"}, model.IDs{2}},
		{[]string{"dry"}, model.IDs{3}},
		{[]string{"bloom"}, model.IDs{3, 5}},
		{[]string{"rot"}, model.IDs{2}},
		{[]string{"new"}, model.IDs{5}},
		{[]string{"trouble"}, model.IDs{4}},
		{[]string{"offsets"}, model.IDs{1}},
		{[]string{"fading"}, model.IDs{3}},
		{[]string{"rot", "soaking", "bloom"}, model.IDs{2, 1, 3, 5}},
	} {
		if got, err := d.Choose(c.words...); err != nil || !cmp.Equal(got, c.want) {
			t.Errorf("%q chose %v, %v; want %v", c.words, got, err, []model.ID(c.want))
		}
	}
}

func TestChooseRefused(t *testing.T) {
	d := afternoon(t)
	for word, want := range map[string]string{
		"9":         "there is no plant 9",
		"70-90":     "no plants in 70-90",
		"9-7":       `range "9-7" runs backwards; write 7-9`,
		"shelf:Z":   `no plants on shelf "Z"`,
		"load:2":    `there is no load "2"`,
		"load:one":  `there is no load "one"`,
		"vessel:A":  `"vessel:A" names no plants; use a number, a range, shelf:A or load:3`,
		"shelf":     `"shelf" is not a plant number; plants are numbered 1 to 999999; a range is 12-40`,
		"load":      `"load" is not a plant number; plants are numbered 1 to 999999; a range is 12-40`,
		"somewhere": `"somewhere" is not a plant number; plants are numbered 1 to 999999; a range is 12-40`,
	} {
		got, err := d.Choose("1", word)
		if _, told := model.AsProblem(err); !told || err.Error() != want || got != nil {
			t.Errorf("%q: got %v, %v; want %s", word, got, err, want)
		}
	}
}

// A shelf with nothing left on it has no plants, and a load keeps those that
// went in with it and did not go into another since.
func TestChooseForgetsWhatIsOver(t *testing.T) {
	d := afternoon(t)
	d.write(&model.Leave{How: model.Lost, Cause: "rot"}, 2)
	d.write(&model.Hung{}, 3)
	d.soak(3)
	for word, want := range map[string]model.IDs{"load:1": {1}, "load:2": {3}, "rot": nil, "drying": nil} {
		if got, err := d.Choose(word); err != nil || !cmp.Equal(got, want) {
			t.Errorf("%s chose %v, %v; want %v", word, got, err, []model.ID(want))
		}
	}
	d.write(&model.Leave{How: model.Given}, 4, 5)
	if got, err := d.Choose("shelf:B"); err == nil {
		t.Errorf("shelf B is empty, and chose %v", got)
	}
}

// What was chosen is the caller's own: changing it changes nothing in the book.
func TestChosenPlantsAreACopy(t *testing.T) {
	d := afternoon(t)
	for _, word := range []string{"pulled", "load:1", "all"} {
		ids, err := d.Choose(word)
		if err != nil {
			t.Fatal(err)
		}
		ids[0] = 99
		if again, _ := d.Choose(word); again[0] == 99 {
			t.Errorf("%s: the list is the book's own", word)
		}
	}
}

func TestNaturalOrder(t *testing.T) {
	sorted := []string{"", "2", "10", "a", "A1", "a2", "A2b", "a03", "A10", "a10 back", "A10 front", "B", "b 2",
		"B 10", "window", "y", "Z", "zz"}
	for i, x := range sorted {
		for j, y := range sorted {
			want := 0
			switch {
			case i < j:
				want = -1
			case i > j:
				want = 1
			}
			if got := model.NaturalCompare(x, y); got != want {
				t.Errorf("%q against %q: %d, want %d", x, y, got, want)
			}
		}
	}
	for _, same := range [][2]string{{"a2", "A2"}, {"A02", "a2"}, {"Shelf 007", "shelf 7"}} {
		if got := model.NaturalCompare(same[0], same[1]); got != 0 {
			t.Errorf("%q against %q: %d, want no difference", same[0], same[1], got)
		}
	}
}

func anyName() *rapid.Generator[string] { return rapid.StringMatching(`[aAbB0129 -]{0,5}`) }

// An order that contradicts itself would walk the grower in circles.
func TestNaturalOrderIsAnOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x, y, z := anyName().Draw(rt, "x"), anyName().Draw(rt, "y"), anyName().Draw(rt, "z")
		if model.NaturalCompare(x, x) != 0 {
			rt.Errorf("%q differs from itself", x)
		}
		if model.NaturalCompare(x, y) != -model.NaturalCompare(y, x) {
			rt.Errorf("%q and %q: each before the other", x, y)
		}
		if model.NaturalCompare(x, y) <= 0 && model.NaturalCompare(y, z) <= 0 && model.NaturalCompare(x, z) > 0 {
			rt.Errorf("%q, %q, %q go round in a circle", x, y, z)
		}
	})
}

func TestWalk(t *testing.T) {
	d := blank(t)
	d.write(&model.Add{Plants: []model.Plant{
		{ID: 1, Count: 1}, // nobody said where: last
		{ID: 2, Count: 1, Home: model.Home{Shelf: "A10", Spot: "1"}},
		{ID: 3, Count: 1, Home: model.Home{Shelf: "A2", Spot: "10"}},
		{ID: 4, Count: 1, Home: model.Home{Shelf: "a2", Spot: "9"}},
		{ID: 5, Count: 1, Home: model.Home{Shelf: "A2", Spot: "9"}}, // the same spot: by number
		{ID: 6, Count: 1, Home: model.Home{Shelf: "A2"}},
		{ID: 7, Count: 1, Home: model.Home{Spot: "window"}}, // no shelf
	}})
	want := model.IDs{6, 4, 5, 3, 2, 1, 7}
	if got := d.Walk(d.IDs()); !cmp.Equal(got, want) {
		t.Errorf("walked %v, want %v", []model.ID(got), []model.ID(want))
	}
}

// However the list was made, the walk passes each plant of it once and in the
// same order, and leaves the list itself alone.
func TestAWalkPassesEveryPlantOnce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := blank(rt)
		var plants []model.Plant
		for i := range rapid.IntRange(1, 12).Draw(rt, "rows") {
			home := model.Home{Shelf: anyName().Draw(rt, "shelf"), Spot: anyName().Draw(rt, "spot")}
			plants = append(plants, model.Plant{ID: model.ID(i + 1), Count: 1, Home: home})
		}
		d.write(&model.Add{Plants: plants})
		ids := model.IDs(rapid.Permutation(d.IDs()).Draw(rt, "order"))
		kept := slices.Clone(ids)
		walk := d.Walk(ids)
		if !cmp.Equal(kept, ids) {
			rt.Error("the walk changed the list it was given")
		}
		if !cmp.Equal(d.Walk(walk), walk) || !cmp.Equal(d.Walk(d.IDs()), walk) {
			rt.Errorf("a second walk takes another way than %v", []model.ID(walk))
		}
		if !cmp.Equal(slices.Sorted(slices.Values(walk)), []model.ID(d.IDs())) {
			rt.Errorf("%v is not every plant once", []model.ID(walk))
		}
		for i := 1; i < len(walk); i++ {
			if d.Row(walk[i-1]).WalkCompare(d.Row(walk[i])) > 0 {
				rt.Errorf("%d is passed before %d", walk[i-1], walk[i])
			}
		}
	})
}
