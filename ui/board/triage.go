package board

import (
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// order is how triage lists the plants.
type order int

// The orders.
const (
	byShelf order = iota
	byUrgency
	byBand
	orderCount
)

var orderWords = [orderCount]string{"by shelf", "thirstiest first", "by band"}

// triage is the first screen: every plant, how thirsty, and why. Signs are
// entered here at walking pace.
type triage struct {
	desk     *desk
	rows     *list
	pass     func(tea.KeyMsg) tea.Cmd // gives a key to whatever is in front
	order    order
	filter   string        // which plants are listed, as it is typed
	only     string        // and in words
	digits   []model.Grade // signs being keyed in
	last     model.Signs   // the signs entered last, to repeat
	keyingIn keyingIn      // a sheet from paper
	walk     time.Time     // when the walk at hand began
	counts   bandCounts    // of the whole collection
	perGroup []groupCount  // of each group listed
	shares   []share       // of each plant in these, as the outlook lists them
	counted  int           // the version these were counted at
	placed   int           // the layout the rows were built at
	at       columns       // of the frame being drawn
	drawn    rowsDrawn     // of the frames before
	side     beside        // the card beside the list
	staying  model.IDs     // need no soak, and stay until p is pressed again
	byRule   model.IDs     // pulled when the rule on pulling was set
	byRuleAt int           // the version after that
	choosing []int         // while it is asked from which band on plants are pulled: how many each answer pulls now
	walked   walkedOn      // from the plant looked at last
	hooks    *shelfMap     // the same plants as they hang
	mapped   bool          // the map is shown
}

func newTriage(d *desk, pass func(tea.KeyMsg) tea.Cmd) *triage {
	rows := newList()
	t := &triage{desk: d, pass: pass, rows: rows, last: model.NoSigns, side: beside{desk: d, rows: rows}, hooks: &shelfMap{desk: d, rows: rows}}
	rows.bar = func(line string) string { return d.barredIn(line, t.listWidth()) }
	rows.skip = func(id model.ID) bool {
		r := d.book.Row(id) // nil when the entry that brought it was just struck
		return !t.mapped && r != nil && r.State.Away()
	}
	return t
}

func (t *triage) name() string   { return "Triage" }
func (t *triage) letter() string { return "t" }
func (t *triage) badge() string  { return "" }
func (t *triage) list() *list    { return t.rows }

// open sorts the rows anew. While the screen stays open they keep their
// places, so that a plant just graded does not jump from under the cursor.
func (t *triage) open() {
	t.keyingIn.on, t.keyingIn.asking, t.choosing = false, false, nil
	t.build()
	t.sayHalfLooked()
}

// sync keeps up with the entries made.
func (t *triage) sync() {
	t.rows.resize(t.desk.body() - 2 - t.detailLines())
	switch {
	case t.placed != t.desk.layout:
		t.build()
	default:
		t.recount()
	}
	if t.mapped {
		t.hooks.sync()
	}
	if t.walked.to != t.rows.current() {
		t.walked = walkedOn{}
	}
	if !t.mapped {
		t.side.ask()
	}
}

// added shows a plant that has just come into the book.
func (t *triage) added(id model.ID) {
	t.build()
	t.rows.goTo(id)
}

// build sorts the plants that pass the filter into sections.
func (t *triage) build() {
	defer t.count()
	t.placed, t.hooks.stale = t.desk.layout, true
	t.only = t.filterWords()
	want, err := parseFilter(t.filter)
	if err != nil {
		want = func(*model.Row, *advice.Need) bool { return true }
	}
	var ids model.IDs
	for i := range t.desk.outlook.Needs {
		n := &t.desk.outlook.Needs[i]
		if want(t.desk.book.Row(n.ID), n) {
			ids = append(ids, n.ID)
		}
	}
	ids = t.desk.book.Walk(ids)
	switch t.order {
	case byUrgency:
		t.rows.fill(t.urgentSections(t.urgent(ids)))
	case byBand:
		t.rows.fill(t.bandSections(ids))
	default:
		t.rows.fill(t.shelfSections(ids))
	}
}

// urgent sorts the thirstiest first; plants away come last.
func (t *triage) urgent(ids model.IDs) model.IDs {
	slices.SortStableFunc(ids, func(a, b model.ID) int { return advice.Thirstier(t.desk.book, *t.desk.need(a), *t.desk.need(b)) })
	return ids
}

// urgentSections puts first those whom the estimates have earned to name, and last
// those that no soak helps, so that a range of thirsty plants is thirsty throughout.
func (t *triage) urgentSections(ids model.IDs) []section {
	ids, none := t.partBy(ids, func(n *advice.Need) bool { return t.soaks(n) || n.LookFirst || t.inDanger(n) })
	earned := advice.DriestOf(t.desk.keeper, t.desk.now)
	last := section{"Need no soak now", none}
	if !earned.Earned || t.filter != "" {
		return someOf(section{"Thirstiest first", ids}, last)
	}
	named := make(map[model.ID]bool, len(earned.First))
	for _, id := range earned.First {
		named[id] = true
	}
	var first, rest model.IDs
	for _, id := range ids {
		if named[id] {
			first = append(first, id)
		} else {
			rest = append(rest, id)
		}
	}
	return someOf(section{show.Driest(earned), first}, section{"The rest, thirstiest first", rest}, last)
}

// someOf leaves out sections that no plant is in.
func someOf(sections ...section) []section {
	return slices.DeleteFunc(sections, func(s section) bool { return len(s.ids) == 0 })
}

// bandSections groups plants by band, the longest soak first. Those in danger that no
// soak helps stand before them.
func (t *triage) bandSections(ids model.IDs) []section {
	danger, ids := t.partBy(ids, func(n *advice.Need) bool { return !t.soaks(n) && t.inDanger(n) })
	sections := someOf(section{"In danger", danger})
	for i := len(soak.Bands) - 1; i >= 0; i-- {
		band := soak.Bands[i]
		var some model.IDs
		for _, id := range ids {
			if t.desk.need(id).Band == band && !t.desk.book.Row(id).State.Away() {
				some = append(some, id)
			}
		}
		if len(some) > 0 {
			sections = append(sections, section{band.String(), some})
		}
	}
	var away model.IDs
	for _, id := range ids {
		if t.desk.book.Row(id).State.Away() {
			away = append(away, id)
		}
	}
	if len(away) > 0 {
		sections = append(sections, section{"Off the shelf", away})
	}
	return sections
}

// shelfSections groups plants in walking order by shelf.
func (t *triage) shelfSections(ids model.IDs) []section {
	var sections []section
	for _, id := range ids {
		shelf := t.desk.book.Row(id).Home.Shelf
		if shelf == "" {
			shelf = "No shelf"
		}
		if n := len(sections); n > 0 && strings.EqualFold(sections[n-1].head, shelf) {
			sections[n-1].ids = append(sections[n-1].ids, id)
			continue
		}
		sections = append(sections, section{shelf, model.IDs{id}})
	}
	return sections
}

// turn shows the map in place of the list, or the list again.
func (t *triage) turn() {
	t.mapped = !t.mapped
	t.hooks.sync()
}

func (t *triage) lead() string {
	if len(t.digits) > 0 {
		return t.scale()
	}
	if t.keyingIn.asking {
		return "first box:"
	}
	if t.keyingIn.on {
		return fmt.Sprintf("sheet, %d of %d:", t.keyingIn.done, t.keyingIn.all)
	}
	return t.rows.lead()
}
