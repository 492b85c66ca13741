package board

import (
	"strings"
	"testing"
	"time"

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
	g.keys("o", "l", "j", "K").sees("The sheet begins at Bay 1, 7 plants").sees("sheet, 0 of 7:")
	for i := range ids[:3] {
		g.types(signs[i])
	}
	g.sees("sheet, 3 of 7:").keys("esc").sees("Left at Bay 4 (ionantha tray), 3 of 7; K goes on there")
	g.keys("home", "1").sees("tips 0-3").keys("0").sees("1 0 _").keys("esc") // three digits again
	g.restart(time.Hour)
	g.keys("K").sees("The sheet was left at Bay 4 (ionantha tray), 3 of 7")
	g.keys(strings.Join(signs[3:], "")) // in one burst
	g.sees("The sheet is keyed in, 7 of 7").doesNotSee("sheet, 7")
	for i, id := range ids {
		wantSigns(t, g.row(id), signs[i]+"-")
	}
	g.keys("K").sees("All 7 are looked at today")
	g.after(24 * time.Hour).keys("K").sees("The sheet begins at Bay 1, 7 plants")
}

// The other boxes of a sheet: the pull, bloom and rot come before the signs and
// stay on the plant; the shift is asked for where it was seen; what was passed over
// comes back at the end.
func TestTheOtherBoxesOfASheet(t *testing.T) {
	g := newGrower(t).shelves().keys("K")
	g.keys("p", "2", "1", "b", "0", "0", "!", "1", "1")
	g.keys(".").sees("Curl, tips and shift of this plant").keys("2", "0", "2", "j", "f", "r")
	g.sees("The end of the sheet. Passed over: Loft 1 (fuchsii), 6 of 7").keys("3", "0")
	g.sees("The sheet is keyed in, 7 of 7")
	for id, want := range map[model.ID]string{1: "21-", 2: "00-", 3: "11-", 4: "202", 5: "30-", 6: "00-", 7: "00-"} {
		wantSigns(t, g.row(id), want)
	}
	if !g.board.desk.book.Waiting().Has(1) || g.row(2).Bloom.IsZero() || g.row(3).Rot.IsZero() {
		t.Errorf("1 pulled, 2 in bloom, 3 with rot: %v, %v, %v", g.board.desk.book.Waiting(), g.row(2).Bloom, g.row(3).Rot)
	}
}
