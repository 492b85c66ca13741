package board

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/ui/paper"
)

// onPaper is the plants of the triage sheet in the order in which it is printed.
func (g *grower) onPaper() (ids model.IDs) {
	b := g.board.desk.book
	sheet := paper.TriageSheet(b, g.board.desk.outlook, b.IDs(), true).Text()
	for line := range strings.Lines(sheet) {
		for _, id := range b.IDs() {
			if strings.Contains(line, " "+b.Row(id).Label+" ") {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

// A sheet filled in elsewhere is keyed in as it is printed, at two keys a plant,
// and goes on after a break where it was left.
func TestASheetIsKeyedInAtTwoKeysAPlant(t *testing.T) {
	g := newGrower(t).shelves()
	ids := g.onPaper()
	if len(ids) != g.board.desk.book.Len() {
		t.Fatalf("plants %v are on paper, want all %d", ids, g.board.desk.book.Len())
	}
	signs := []string{"20", "10", "00", "31", "12", "2-", "03"}
	g.keys("o", "l", "j", "K").sees("first box:   enter bloom   p pull, an older sheet").keys("enter")
	g.sees("The sheet begins at Bay 1, 7 plants").sees("sheet, 0 of 7:").sees("curl: 0 flat 1 lifting")
	for i := range ids[:3] {
		g.types(signs[i])
	}
	g.sees("0 0 _").sees("shift: 6 dark already").keys("esc").sees("Left at Bay 4 (ionantha tray), 3 of 7; K goes on there")
	g.keys("home", "1").sees("tips: 0 none").keys("0").sees("1 0 _").keys("esc") // three digits again
	g.restart(time.Hour)
	g.keys("K", "enter").sees("The sheet was left at Bay 4 (ionantha tray), 3 of 7")
	g.keys(strings.Join(signs[3:], "") + "\r") // in one burst
	g.sees("The sheet is keyed in, 7 of 7").doesNotSee("sheet, 7")
	for i, id := range ids {
		wantSigns(t, g.row(id), signs[i]+"-")
	}
	g.keys("K", "enter").sees("All 7 are looked at: nothing")
	g.after(24*time.Hour).keys("K", "enter").sees("The sheet begins at Bay 1, 7 plants")
}

// The other boxes of a sheet take a key each, in the order in which they are printed:
// bloom and rot before the signs, the shift and the pull after them. What is passed
// over is asked for at the end.
func TestTheOtherBoxesOfASheet(t *testing.T) {
	g := newGrower(t).shelves().keys("K", "enter")
	g.keys("6").sees("6 to 9 are the shift, after curl and tips")
	g.keys("2", "1", "p", "b", "0", "0", "!", "1", "1")
	g.keys("2", "0", "8", "j", "f", "r")
	g.sees("The end of the sheet. Passed over: Loft 1 (fuchsii), 6 of 7").keys("3", "0", "6", "p")
	g.sees("Pulled").doesNotSee("sheet, 7")
	for id, want := range map[model.ID]string{1: "21-", 2: "00-", 3: "11-", 4: "202", 5: "300", 6: "00-", 7: "00-"} {
		wantSigns(t, g.row(id), want)
	}
	if diff := cmp.Diff(model.IDs{1, 5}, g.board.desk.book.Waiting()); diff != "" || g.row(2).Bloom.IsZero() || g.row(3).Rot.IsZero() {
		t.Errorf("1 and 5 pulled, 2 in bloom, 3 with rot: %s, %v, %v", diff, g.row(2).Bloom, g.row(3).Rot)
	}
	g.after(48*time.Hour).keys("K", "enter", "1", "0", "j") // steps on once
	wantSigns(t, g.row(1), "10-")
	g.sees("sheet, 1 of 7:").keys("1", "1", "T", "s").sees("Left at Bay 3")
	wantSigns(t, g.row(2), "11-")
}

// A sheet printed when pull and shift stood before curl and tips is keyed in as it
// stands, and no box goes to the plant before.
func TestAnOlderSheetIsKeyedInInItsOwnOrder(t *testing.T) {
	g := newGrower(t).shelves().keys("K", "p").sees("The sheet begins at Bay 1").sees("shift first")
	g.keys("p", "2", "1", "b", "0", "0", "!", "1", "1")
	g.keys("p", "8").sees("Shift 2, then curl and tips").keys("2", "0", "f", "f", "p", "6", "3", "0")
	g.sees("The sheet is keyed in, 7 of 7")
	for id, want := range map[model.ID]string{1: "21-", 2: "00-", 3: "11-", 4: "202", 5: "00-", 6: "00-", 7: "300"} {
		wantSigns(t, g.row(id), want)
	}
	if diff := cmp.Diff(model.IDs{1, 4, 7}, g.board.desk.book.Waiting()); diff != "" {
		t.Errorf("pulled (-want +got):\n%s", diff)
	}
	g.after(48*time.Hour).keys("K", "p", "9", "j", "1", "1").sees("The shift of plant 1 is not written")
	wantSigns(t, g.row(1), "21-")
	g.keys("9", "T", "s").sees("A shift alone is not written. Left at Bay 3")
}

// A sheet of 40 plants as a Saturday fills it in: a fifth to pull, a sixth with the
// shift tried, one in bloom, one with rot. The usual plant takes two keys, and
// all of them two and a half at most, keyed in box by box as the paper has them.
func TestKeysOfARealisticSheet(t *testing.T) {
	g := newGrower(t)
	const plants = 40
	add := &model.Add{}
	var ids model.IDs
	for i := range plants {
		id := g.board.desk.book.NextID() + model.ID(i)
		add.Plants = append(add.Plants, model.Plant{ID: id, Label: fmt.Sprintf("tag %d", id), Form: model.Rosette, Leaf: model.Mesic,
			Count: 1, Home: model.Home{Shelf: "Arch", Spot: strconv.Itoa(i + 1)}})
		ids = append(ids, id)
	}
	g.enters(g.now, add, ids...)
	boxes := paper.TriageSheet(g.board.desk.book, g.board.desk.outlook, ids, false).Sections[1].Blocks[0].(*paper.Table).Columns
	g.keys("K", "enter")
	total, usual := 0, 0
	var checks []func()
	for i, id := range ids {
		filled := map[string]string{"curl": strconv.Itoa(i % 3), "tips": strconv.Itoa(i % 2)}
		want := strconv.Itoa(i%3) + strconv.Itoa(i%2) + "-"
		if i%5 == 0 {
			filled["pull"] = "p"
		}
		if i%6 == 1 {
			filled["shift"] = string("6789"[i%4])
			want = want[:2] + strconv.Itoa(i%4)
		}
		switch i {
		case 11:
			filled["bloom"] = "b"
		case 23:
			filled["rot"] = "!"
		}
		keys := ""
		for _, c := range boxes {
			keys += filled[c.Head] // from left to right
		}
		g.types(keys)
		checks = append(checks, func() { // the next plant's first box saves it
			wantSigns(t, g.row(id), want)
			if g.board.desk.book.Waiting().Has(id) != (i%5 == 0) || g.row(id).Bloom.IsZero() == (i == 11) || g.row(id).Rot.IsZero() == (i == 23) {
				t.Errorf("plant %d: a tick is lost", id)
			}
		})
		if total += len(keys); len(keys) == 2 {
			usual++
		}
	}
	g.keys("enter").sees("The sheet is keyed in, 40 of 40")
	for _, check := range checks {
		check()
	}
	total++
	if mean := float64(total) / plants; mean > 2.5 || usual <= plants/2 {
		t.Errorf("%.2f keys a plant, two for %d of %d", mean, usual, plants)
	} else {
		t.Logf("%.2f keys a plant, two for %d of %d", mean, usual, plants)
	}
}

// Where the paper was left is said unasked: when another screen is gone to, on
// coming back, and at the next start, past midnight too.
func TestWhereThePaperWasLeftIsSaid(t *testing.T) {
	g := newGrower(t).shelves()
	const line = "Bay is half looked at: hook 4 is next (K: from a sheet)"
	g.after(14*time.Hour + 50*time.Minute) // 23:50
	g.keys("K", "enter").types("2010001").doesNotSee(line)
	g.keys("T", "s").sees("Left at Bay 4 (ionantha tray), 3 of 7; K goes on there")
	g.keys("T", "t").sees(line)
	g.keys("j").doesNotSee(line)
	g.restart(20 * time.Minute)
	g.sees(line)
	g.restart(9 * time.Hour)
	g.sees(line).keys("K", "enter").sees("The sheet was left at Bay 4 (ionantha tray), 3 of 7")
	g.types("10") // the shelf is whole: the next one is not begun
	g.keys("esc", "T", "t").doesNotSee("is half looked at")
	g.keys("K", "enter").types("10").keys("esc", "T", "t").sees("Loft is half looked at: hook 2 is next")
	g.restart(24 * time.Hour)
	g.doesNotSee("is half looked at")
}

// A walk goes on over a night's pause, and begins anew a day after.
func TestWhenAWalkBegan(t *testing.T) {
	now := time.Date(2026, 3, 15, 8, 0, 0, 0, time.UTC)
	ago := func(hours ...float64) (all []time.Time) {
		for _, h := range hours {
			all = append(all, now.Add(-time.Duration(h*float64(time.Hour))))
		}
		return all
	}
	for _, c := range []struct {
		looks []time.Time
		want  float64 // hours ago
	}{
		{nil, 0}, {ago(1), 1}, {ago(9, 11, 10), 11}, {ago(13), 0}, {ago(1, 14), 1}, {ago(1, 12, 23.9), 23.9},
		{ago(1, 12, 24), 12}, {ago(168), 0},
	} {
		if got := now.Sub(walkBegan(c.looks, now)).Hours(); math.Abs(got-c.want) > 0.001 {
			t.Errorf("%v: began %v hours ago, want %v", c.looks, got, c.want)
		}
	}
}

// A plant graded by hand, on the sheet's shelf or on another, does not move the place of
// the sheet, in the same run of the program or in the next.
func TestAPlantGradedByHandLeavesThePlaceOfTheSheet(t *testing.T) {
	g := newGrower(t).shelves().keys("K", "enter").types("10").keys("esc", "j", "j", "1", "0", "0")
	g.keys("K", "enter").sees("The sheet was left at Bay 2").keys("esc")
	g.keys("G", "k", "1", "0", "0").keys("K", "enter").sees("The sheet was left at Bay 2").keys("esc")
	g.restart(time.Minute)
	g.sees("hook 2 is next").keys("K", "enter").sees("The sheet was left at Bay 2")
	g.types("101010").keys("esc").sees("Left at Loft 1")
	g.restart(time.Minute)
	g.keys("K", "enter").sees("The sheet was left at Loft 1")
}
