package board

import (
	"strconv"
	"strings"

	"tubside/model"
)

// hook is one place on a shelf and the plants that live there, by their places in
// the list. Free, it has none.
type hook struct{ rows []int32 }

// hookLine is one line of the map: a shelf's heading, the numbers over its
// columns, or hooks side by side.
type hookLine struct {
	kind  lineKind
	group int    // the shelf
	label string // what stands before the hooks: a row's letter, or its first number
	from  int    // number of the first column
	hooks []hook
}

// lineKind tells the lines of the map apart.
type lineKind uint8

const (
	shelfHead lineKind = iota
	columnHead
	hookRow
)

// spot is a place as it is written, taken apart: "A16" is row A, column 16.
type spot struct {
	row    string
	column int
}

// sparsest is how many hooks a plant a shelf may have before its numbers are
// taken for names: a plant on hook 1 and one on hook 900 are not 900 hooks.
const sparsest = 4

// readSpot takes a spot apart: letters, then a number. It reports false for
// anything else.
func readSpot(text string) (spot, bool) {
	text = strings.TrimSpace(text)
	digits := strings.IndexFunc(text, func(r rune) bool { return r >= '0' && r <= '9' })
	if digits < 0 {
		return spot{}, false
	}
	n, err := strconv.Atoi(text[digits:])
	row := strings.ToUpper(strings.Trim(text[:digits], " -.:/"))
	if err != nil || n < 0 || len(row) > 3 || strings.Contains(row, " ") {
		return spot{}, false
	}
	return spot{row, n}, true
}

// shelfPlants are one shelf's plants in walking order.
type shelfPlants struct {
	name  string
	rows  []int32 // their places in the list
	spots []string
}

// Widths of the map: a hook with the gap before it, at the least, so that "Short+" is
// whole, and at the most, and the label before a row.
const (
	leastCell = 6
	wholeCell = 7
	mostCell  = 10
	rowLabel  = 6
)

// columnsOf is how many hooks stand side by side in a window: a round number, for
// shelves that are numbered through.
func columnsOf(width int) int {
	fits := (width - rowLabel - 1) / leastCell
	if fits < 10 {
		return max(1, fits/2*2)
	}
	return fits / 10 * 10
}

// cellWidth is how wide a hook is drawn, on all shelves alike, so that the columns stand
// one under the other down the page.
func cellWidth(lines []hookLine, width int) int {
	most := 1
	for _, l := range lines {
		most = max(most, len(l.hooks))
	}
	return min((width-rowLabel-1)/most, mostCell)
}

// hang lays a shelf's hooks out in lines for a window's width: rows by their
// letters, or numbers one after another and folded. Spots that are neither, or
// too far apart, hang one beside the other as the grower walks past them.
func (s *shelfPlants) hang(group, width int) []hookLine {
	columns := columnsOf(width)
	lines := []hookLine{{kind: shelfHead, group: group}}
	spots := make([]spot, len(s.spots))
	first, last, letters := -1, 0, map[string]bool{}
	for i, text := range s.spots {
		var ok bool
		if spots[i], ok = readSpot(text); !ok {
			return append(lines, s.hangInOrder(group, columns)...)
		}
		letters[spots[i].row] = true
		if c := spots[i].column; first < 0 || c < first {
			first = c
		}
		last = max(last, spots[i].column)
	}
	if len(letters) > 1 && first > 1 && first < 4 || len(letters) == 1 && first > 1 && first <= columns {
		first = 1 // a shelf begins at its first hook, also when nothing hangs there
	}
	if (last-first+1)*len(letters) > sparsest*len(s.rows)+2*columns {
		return append(lines, s.hangInOrder(group, columns)...)
	}
	if fits := (width - rowLabel - 1) / wholeCell; len(letters) > 1 && last-first < fits {
		columns = fits // a row of its own needs no round number
	}
	return append(lines, s.hangByNumber(group, columns, first, last, spots)...)
}

// hangByNumber gives every number its hook, row by row.
func (s *shelfPlants) hangByNumber(group, columns, first, last int, spots []spot) []hookLine {
	var lines []hookLine
	for from := 0; from < len(spots); {
		until := from
		for until < len(spots) && spots[until].row == spots[from].row {
			until++
		}
		lines = append(lines, s.hangRow(group, columns, first, last, from, until, spots)...)
		from = until
	}
	oneLine := last-first < columns
	if !oneLine {
		first = 1
	}
	head := hookLine{kind: columnHead, group: group, from: first, hooks: make([]hook, min(columns, last-first+1))}
	return append([]hookLine{head}, lines...)
}

// hangRow is one row of hooks, folded where it is longer than a line.
func (s *shelfPlants) hangRow(group, columns, first, last, from, until int, spots []spot) []hookLine {
	row := spots[from].row
	if last-first < columns {
		line := hookLine{kind: hookRow, group: group, label: row, from: first, hooks: make([]hook, last-first+1)}
		for i := from; i < until; i++ {
			h := &line.hooks[spots[i].column-first]
			h.rows = append(h.rows, s.rows[i])
		}
		return []hookLine{line}
	}
	var lines []hookLine
	start := (first - min(first, 1)) / columns * columns
	for at := start; at < last; at += columns {
		line := hookLine{kind: hookRow, group: group, label: row + strconv.Itoa(at+1), from: at + 1,
			hooks: make([]hook, min(columns, last-at))}
		lines = append(lines, line)
	}
	for i := from; i < until; i++ {
		n := max(spots[i].column-start-1, 0)
		h := &lines[n/columns].hooks[n%columns]
		h.rows = append(h.rows, s.rows[i])
	}
	return lines
}

// hangInOrder puts the plants side by side.
func (s *shelfPlants) hangInOrder(group, columns int) []hookLine {
	var lines []hookLine
	for at := 0; at < len(s.rows); at += columns {
		line := hookLine{kind: hookRow, group: group}
		for _, row := range s.rows[at:min(at+columns, len(s.rows))] {
			line.hooks = append(line.hooks, hook{[]int32{row}})
		}
		lines = append(lines, line)
	}
	return lines
}

// shelvesOf gathers the list's plants by shelf, in walking order.
func shelvesOf(book *model.Book, rows []rowRef) []shelfPlants {
	place := make(map[model.ID]int32, len(rows))
	ids := make(model.IDs, 0, len(rows))
	for i, r := range rows {
		if r.id != 0 {
			place[r.id] = int32(i)
			ids = append(ids, r.id)
		}
	}
	var shelves []shelfPlants
	for _, id := range book.Walk(ids) {
		home := book.Row(id).Home
		if n := len(shelves); n == 0 || !strings.EqualFold(shelves[n-1].name, home.Shelf) {
			shelves = append(shelves, shelfPlants{name: home.Shelf})
		}
		s := &shelves[len(shelves)-1]
		s.rows = append(s.rows, place[id])
		s.spots = append(s.spots, home.Spot)
	}
	return shelves
}
