package board

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/soak"
	"tubside/ui/ink"
)

// hung draws the map of one shelf with plants on the given spots.
func hung(t testing.TB, spots ...string) *grower {
	g := newGrower(t)
	plants := make([]model.Plant, len(spots))
	for i, spot := range spots {
		plants[i] = model.Plant{ID: model.ID(i + 1), Label: fmt.Sprint("plant ", i+1), Count: 1,
			Home: model.Home{Shelf: "Arch", Spot: spot}}
	}
	return g.enters(soakDay, &model.Add{Plants: plants}).keys("g")
}

func TestAShelfHangsByItsLettersAndNumbers(t *testing.T) {
	hung(t, "A1", "A2", "A4", "B1", "B3").sees("       1         2         3         4").sees(" A    ▸").sees(" B     ")
	g := hung(t, "A1", "A2", "A4", "B1", "B3")
	for row, want := range map[string]int{" A ": 1, " B ": 2} {
		for _, line := range strings.Split(g.screen(), "\n") {
			if strings.HasPrefix(line, row) && strings.Count(line, "·") != want {
				t.Errorf("free hooks in %q, want %d", line, want)
			}
		}
	}
}

func TestAShelfNumberedThroughIsFolded(t *testing.T) {
	var spots []string
	for i := 1; i <= 41; i++ {
		if i != 13 {
			spots = append(spots, fmt.Sprint(i))
		}
	}
	g := hung(t, spots...)
	for _, label := range []string{"\n 1     ", "\n 11 ", "\n 21 ", "\n 31 ", "\n 41 "} {
		if !strings.Contains(strings.ReplaceAll(g.screen(), "▸", " "), label) {
			t.Errorf("no row %q in\n%s", label, g.screen())
		}
	}
	if n := strings.Count(g.screen(), " ·  "); n != 1 {
		t.Errorf("%d free hooks, want the one at 13:\n%s", n, g.screen())
	}
}

// The columns of one shelf stand under those of the other, whatever their number.
func TestTheColumnsOfTheMapStandUnderEachOther(t *testing.T) {
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
		g := threeShelves(t)
		g.size(size[0], size[1])
		at := map[int]bool{}
		for _, line := range strings.Split(g.screen(), "\n") {
			if f := strings.Fields(line); len(f) > 2 && f[0] == "1" && f[1] == "2" && f[2] == "3" {
				at[strings.Index(line, "3")] = true
			}
		}
		if len(at) != 1 {
			t.Errorf("%d x %d: column 3 stands at %v in\n%s", size[0], size[1], at, g.screen())
		}
	}
}

// Wherever the cursor goes, a shelf's name has hooks of its own below it.
func TestNoShelfIsNamedOverNoneOfItsHooks(t *testing.T) {
	g := threeShelves(t)
	for _, height := range []int{20, 21, 22, 24, 27} {
		g.size(60, height)
		g.keys("home")
		for range 120 {
			lines := strings.Split(g.screen(), "\n")
			for i, line := range lines {
				for _, shelf := range []string{" Arch ─", " Bath ─", " Cove ─"} {
					if !strings.HasPrefix(line, shelf) {
						continue
					}
					if strings.Contains(lines[i+1]+lines[i+2], "─") || strings.Trim(lines[i+2], " 0123456789") == "" {
						t.Fatalf("height %d: a name over nothing in\n%s", height, g.screen())
					}
				}
			}
			g.keys("l")
		}
	}
}

// threeShelves are numbered through, by letters, and numbered again: of unlike widths.
func threeShelves(t testing.TB) *grower {
	g := newGrower(t)
	var plants []model.Plant
	hang := func(shelf, spot string) {
		id := model.ID(len(plants) + 1)
		plants = append(plants, model.Plant{ID: id, Label: fmt.Sprint("plant ", id), Count: 1, Home: model.Home{Shelf: shelf, Spot: spot}})
	}
	for i := 1; i <= 33; i++ {
		hang("Arch", fmt.Sprint(i))
	}
	for i := 1; i <= 12; i++ {
		hang("Bath", fmt.Sprint("A", i))
		hang("Bath", fmt.Sprint("B", i))
	}
	for i := 1; i <= 60; i++ {
		hang("Cove", fmt.Sprint(i))
	}
	return g.enters(soakDay, &model.Add{Plants: plants}).keys("g")
}

// Down, and along, and a grade: the plant that hangs there gets it.
func TestKeysWorkOnThePlantUnderTheMapsCursor(t *testing.T) {
	g := hung(t, "A1", "A2", "A4", "B1", "B3").keys("l", "l", "down")
	if g.board.plant() != 5 {
		t.Fatalf("the cursor is on plant %d, want 5 on B3", g.board.plant())
	}
	g.keys("k", "2", "1", "0")
	if signs := g.row(2).Signs.String(); signs != "210" {
		t.Errorf("plant 2 on A2, nearest above, has signs %s, want 210", signs)
	}
	if g.board.plant() != 3 {
		t.Errorf("after a grade the cursor is on plant %d, want the next along the walk, 3", g.board.plant())
	}
	g.keys("p").sees("pulled 1 = waiting 1").keys("g").sees("plant 3").keys("g", "o").sees("the map by days")
}

// Two plants on one hook share a cell, and both are reached.
func TestSeveralOnOneHookAreAllReached(t *testing.T) {
	g := hung(t, "1", "2", "2", "3")
	var seen model.IDs
	for range 4 {
		seen = append(seen, g.board.plant())
		g.keys("l")
	}
	for id := model.ID(1); id <= 4; id++ {
		if !seen.Has(id) {
			t.Errorf("plant %d is not reached: %v", id, seen)
		}
	}
}

// However spots are written, each plant hangs in exactly one place, and walking
// from the first passes every plant.
func TestEveryPlantHangsOnceAndIsReached(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		spots := rapid.SliceOfN(rapid.OneOf(
			rapid.StringMatching(`[A-C][1-9][0-9]?`), rapid.StringMatching(`[1-9][0-9]?`),
			rapid.SampledFrom([]string{"", "by the door", "A900", "0", "12b", "Z-4"}),
		), 1, 40).Draw(rt, "spots")
		s := shelfPlants{name: "A", spots: spots}
		for i := range spots {
			s.rows = append(s.rows, int32(i))
		}
		width := rapid.IntRange(minWidth, 200).Draw(rt, "width")
		times := make([]int, len(spots))
		lines := s.hang(0, width)
		cell := cellWidth(lines, width)
		for _, line := range lines {
			if w := rowLabel + len(line.hooks)*cell; w > width || cell < leastCell {
				rt.Fatalf("a line of %d hooks of %d is wider than %d", len(line.hooks), cell, width)
			}
			for _, h := range line.hooks {
				for _, row := range h.rows {
					times[row]++
				}
			}
		}
		for i, n := range times {
			if n != 1 {
				rt.Fatalf("the plant on %q hangs in %d places", spots[i], n)
			}
		}
	})
}

// A key to a finished frame of the map, at any number of plants.
func BenchmarkKeyToMapFrame(b *testing.B) {
	for _, n := range []int{640, 5000, 50000} {
		for _, size := range [][2]int{{80, 24}, {160, 50}} {
			b.Run(fmt.Sprintf("%d plants %dx%d", n, size[0], size[1]), func(b *testing.B) {
				g := collection(b, n)
				g.size(size[0], size[1])
				g.board.desk.dress([]string{"TERM=xterm-256color", "COLORTERM=truecolor"})
				g.keys("g")
				keys := []string{"l", "j", "j", "l", "k", "h"}
				b.ResetTimer()
				for i := range b.N {
					g.board.Update(keyNamed(keys[i%len(keys)]))
					_ = g.board.View()
				}
			})
		}
	}
}

// On the map what is to be soaked stands out, and a plant that is only misted does not;
// on every paper and in every number of colours its word is read.
func TestMistIsNoBrightPatchOnTheMap(t *testing.T) {
	for _, paper := range []ink.Paper{ink.Dark, ink.Light} {
		for _, depth := range []ink.Depth{ink.Truecolor, ink.Many} {
			theme, bar := newTheme(paper, depth), ink.Palettes[paper].Bar.Under(depth)
			if !strings.HasPrefix(theme.cells[soak.Mist].open, bar) || strings.HasPrefix(theme.cells[soak.Dip].open, bar) {
				t.Errorf("paper %d, depth %d: Mist is %q, Dip is %q", paper, depth, theme.cells[soak.Mist].open,
					theme.cells[soak.Dip].open)
			}
		}
	}
}

// Without colours what is in danger is told from the other words of the map by its weight.
func TestDangerIsBoldOnAMapWithoutColours(t *testing.T) {
	if got := newTheme(ink.Dark, ink.Mono).danger.of("ROT"); got != "\x1b[1mROT\x1b[22m" {
		t.Errorf("%q", got)
	}
	if got := newTheme(ink.Dark, ink.Plain).danger.of("ROT"); got != "ROT" {
		t.Errorf("plain: %q", got)
	}
}

// A free hook is told from a plant with nothing to tell on a plain terminal as well.
func TestAFreeHookIsNoPlantInASCII(t *testing.T) {
	g := hung(t, "1", "2", "4")
	g.board.desk.ascii = true
	g.keys("o", "o", "o").sees("the map by bloom")
	for _, line := range strings.Split(g.screen(), "\n") {
		if strings.HasPrefix(line, " 1 ") && (strings.Count(line, "-") != 3 || strings.Count(line, ".") != 1) {
			t.Errorf("%q", line)
		}
	}
}
