package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"

	"github.com/kballard/go-shellquote"
)

func loadTitle(l *day.Load) string {
	title := fmt.Sprintf("Load %d: %s in %s", l.Number, show.Count(len(l.Plants), "plant"), l.Vessel)
	if l.Company != soak.Healthy {
		title += ", " + show.InCompany(l.Company) + " only"
	}
	if l.Fed {
		title += ", in fed water"
	}
	return title
}

// mostWalks is how many walks along the shelves a list is cut into; where the order of
// the times goes to and fro more often than that, it stays in one piece. A guess.
const mostWalks = 5

// load is a load said in a few sentences, and its plants in their order, a table for
// each walk along the shelves.
func (s *soakPaper) load(l *day.Load) []paper.Block {
	var said []string
	switch {
	case l.Done:
		said = append(said, fmt.Sprintf("It is out since %s.", s.at(l.End)))
	case l.Load != 0:
		said = append(said, fmt.Sprintf("It has been in since %s.", s.at(l.Start)), s.outWords(l))
		if n := s.toCome(l); n > 0 {
			said = append(said, fmt.Sprintf("The last %d of the list still go in.", n))
		}
	default:
		said = append(said, s.inWords(l), s.outWords(l))
		if n := stands(l); n > 0 {
			said = append(said, fmt.Sprintf("Standing by the water already, with a star in the list: %d. To pull: "+
				"%d.", n, len(l.Plants)-n))
		}
	}
	if heap := show.Heap(s.b, l); heap != "" {
		said = append(said, "It is "+heap+".")
	}
	if !l.Done {
		from, last := l.Plants[0].Dry, l.Plants[0].Dry
		for _, t := range l.Plants {
			from, last = model.Earlier(from, t.Dry), model.Later(last, t.Dry)
		}
		if first, all := s.at(from), s.at(last); first == all {
			said = append(said, fmt.Sprintf("Dry by %s.", all))
		} else {
			said = append(said, fmt.Sprintf("The first may be dry at %s; the last should be by %s.", first, all))
		}
	}
	bench := s.oneBench(l.IDs())
	switch {
	case bench == "":
	case l.Done:
		said = append(said, fmt.Sprintf("Each lies on: %s.", bench))
	default:
		said = append(said, fmt.Sprintf("Lay each on: %s.", bench))
	}
	if words := s.toEnter(l); words != "" {
		said = append(said, words)
	}
	walks := walksOf(s.b, l)
	if len(walks) > mostWalks {
		said = append(said, "The list goes to and fro between the shelves: in this order each plant has its own "+
			"time in the water.")
		walks = [][]int{slices.Concat(walks...)}
	}
	blocks := []paper.Block{paper.Words(strings.Join(said, " "))}
	for n, walk := range walks {
		if len(walks) > 1 {
			blocks = append(blocks, paper.Words(fmt.Sprintf("Walk %d of %d", n+1, len(walks))))
		}
		blocks = append(blocks, s.plants(l, walk, bench == ""))
	}
	return blocks
}

// toEnter is the lines of a file by which a load is entered later, without their times; "" where
// there is nothing to enter, and where nobody has agreed to the plan, whose numbers are nobody's
// then.
func (s *soakPaper) toEnter(l *day.Load) string {
	switch {
	case s.p.Agreed.IsZero() || l.Done:
		return ""
	case l.Load != 0:
		return fmt.Sprintf("To enter it: out load:%d.", l.Number)
	}
	return fmt.Sprintf("To enter it: pull load:%d; soak --vessel %s load:%[1]d; out load:%[1]d.", l.Number, shellquote.Join(l.Vessel))
}

// toTheMinute is from how little time on between the hour of a load to come out and its
// latest the hands are told so. A guess.
const toTheMinute = 2 * time.Minute

// outWords say when a load comes out, and how long it may stay in.
func (s *soakPaper) outWords(l *day.Load) string {
	if since, over := s.overdue(l); over {
		return fmt.Sprintf("OVERDUE since %s: %s in for longer than they may be. Take it out at once, in its order. "+
			"Those marked \"look again\" look at tomorrow as well: for soft or glassy leaves.",
			s.at(since), are(s.tooLong(l)))
	}
	least, most := l.Plants[0].Out.Sub(l.Plants[0].In), time.Duration(0)
	for _, t := range l.Plants {
		least, most = min(least, t.Out.Sub(t.In)), max(most, t.Out.Sub(t.In))
	}
	off := clockOut(l) - l.Out.Sub(l.Start) // what the clock makes of it, which has whole minutes
	soaks := "Each plant soaks " + show.Soak((least+off).Minutes(), (most+off).Minutes()) + "."
	if l.Load == 0 && !l.Night {
		soaks += lateWords(l)
	}
	if isTight(l) {
		return fmt.Sprintf("Begin to take it out at %s, to the minute; that takes until %s. "+
			"", s.at(l.Out), s.at(l.End)) + soaks
	}
	return fmt.Sprintf("Take it out from %s on, done by %s. At the latest begin at %s. "+
		"", s.at(l.Out), s.at(l.End), s.at(minute(l.Start).Add(clockLatest(l)))) + soaks
}

// clockOut is how long a load is in before it comes out, by the minutes that the sheet shows.
func clockOut(l *day.Load) time.Duration { return minute(l.Out).Sub(minute(l.Start)) }

// clockLatest is how long it may be in before it comes out, in whole minutes of the same clock,
// of which none is too many.
func clockLatest(l *day.Load) time.Duration { return latestOut(l).Sub(l.Start).Truncate(time.Minute) }

// lateWords say when a load that goes in late comes out: after as many minutes as one that is
// in time, and at the latest by the same clock.
func lateWords(l *day.Load) string {
	from, latest := clockOut(l), clockLatest(l)
	if from >= latest {
		return fmt.Sprintf(" If it goes in late: begin to take it out %s after its first plant went in, to the minute.",
			show.Duration(from))
	}
	return fmt.Sprintf(" If it goes in late: take it out from %s on after its first plant went in, and begin no later "+
		"than %s after.", show.Duration(from), show.Duration(latest))
}

func are(n int) string {
	if n == 1 {
		return "1 plant is"
	}
	return fmt.Sprintf("%d plants are", n)
}

// toCome is how many plants of a load that is in the water still go in.
func (s *soakPaper) toCome(l *day.Load) int {
	n := 0
	for i := range l.Plants {
		if s.b.Row(l.Plants[i].ID).State != model.Soaking {
			n++
		}
	}
	return n
}

// isTight reports whether a load has to come out at its minute.
func isTight(l *day.Load) bool { return latestOut(l).Sub(l.Out) < toTheMinute }

// latestOut is when a load begins to come out at the latest, so that none of its
// plants, one after the other, is in for longer than it may be.
func latestOut(l *day.Load) time.Time {
	latest := l.Plants[0].In.Add(time.Duration(l.Plants[0].Most) * time.Second)
	before := 0 // s of hands for those that come out first
	for _, t := range l.Plants {
		latest = model.Earlier(latest, t.In.Add(time.Duration(t.Most-before)*time.Second))
		before += t.Hands.Out + t.Hands.Lay
	}
	return latest
}

// overdue reports whether a load is in the water beyond its latest time to come out, and
// since when.
func (s *soakPaper) overdue(l *day.Load) (since time.Time, over bool) {
	if l.Done || l.Load == 0 || !latestOut(l).Before(s.now) {
		return time.Time{}, false
	}
	return latestOut(l), true
}

// tooLong is how many plants of a load come out later than they may.
func (s *soakPaper) tooLong(l *day.Load) int {
	n := 0
	for i := range l.Plants {
		if isTooLong(&l.Plants[i]) {
			n++
		}
	}
	return n
}

func isTooLong(t *day.Plant) bool { return t.Out.Sub(t.In) > time.Duration(t.Most)*time.Second }

// stands is how many plants of a load are pulled already.
func stands(l *day.Load) int {
	n := 0
	for i := range l.Plants {
		if l.Plants[i].Hands.Pull == 0 {
			n++
		}
	}
	return n
}

// walksOf cuts a load's plants where a walk along the shelves begins anew, by their
// place in the load.
func walksOf(b *model.Book, l *day.Load) [][]int {
	var walks [][]int
	for i := range l.Plants {
		if i == 0 || b.Row(l.Plants[i].ID).WalkCompare(b.Row(l.Plants[i-1].ID)) < 0 {
			walks = append(walks, nil)
		}
		walks[len(walks)-1] = append(walks[len(walks)-1], i)
	}
	return walks
}

// plants lists those of a load at some places, with where each is laid if that is not the
// same for all.
func (s *soakPaper) plants(l *day.Load, places []int, lay bool) *paper.Table {
	t := &paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{
		{Head: "order", Right: true}, {Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true},
		{Head: "dry by"}, {Head: "hang back"},
	}}
	if wants := slices.ContainsFunc(places, func(i int) bool { return s.whenOut(l, &l.Plants[i]) != "" }); wants {
		t.Columns = append(t.Columns, paper.Column{Head: "out"})
	}
	if lay {
		t.Columns = append(t.Columns, paper.Column{Head: "lay on"})
	}
	for _, i := range places {
		plant, row := l.Plants[i], s.b.Row(l.Plants[i].ID)
		order := fmt.Sprint(i + 1)
		if !l.Done && plant.Hands.Pull == 0 && row.State != model.Soaking {
			order += standsBy
		}
		var cells []string
		for _, c := range t.Columns {
			cells = append(cells, map[string]string{"order": order, "home": show.Home(row.Home), "plant": show.Title(row.Plant),
				"id": plant.ID.String(), "dry by": s.dryWord(plant.ID), "hang back": s.hangs(plant.ID),
				"out": s.whenOut(l, &plant), "lay on": s.lies(plant.ID)}[c.Head])
		}
		t.Add(cells...)
	}
	return t
}

// standsBy marks a plant that is pulled already.
const standsBy = "*"

// lies is where a plant lies, or is to be laid: as the book has it, or the plan.
func (s *soakPaper) lies(id model.ID) string {
	row := s.b.Row(id)
	l, place, ok := s.p.Placed(id)
	switch {
	case row.State == model.Drying || row.State == model.Dry:
		if row.Bench != "" {
			return row.Bench
		}
	case row.State == model.AtHome && ok && s.p.Loads[l].Done:
		return "home"
	}
	if ok && s.p.Loads[l].Company != soak.Healthy {
		return model.OwnTray
	}
	return cmp.Or(place.Bench, "any rack")
}

// dryWord says by when a plant is dry.
func (s *soakPaper) dryWord(id model.ID) string {
	if s.b.Row(id).State == model.Dry {
		return "dry"
	}
	return s.at(s.dry(id))
}

// handlings are what a form wants done when it comes out, beyond a shake, in a word.
var handlings = map[model.Form]string{model.Bulbous: "hard", model.Tank: "cup", model.Pendent: "wring"}

// handlingWords say what the words of the lists mean.
const handlingWords = "Under \"out\" stands what more a plant wants: hard, shake it hard; cup, tip its cup; wring, wring it " +
	"gently."

// whenOut says what a plant wants done when it comes out, beyond a shake; "" for most.
func (s *soakPaper) whenOut(l *day.Load, plant *day.Plant) string {
	words := handlings[s.b.Row(plant.ID).Form]
	if _, over := s.overdue(l); over && isTooLong(plant) {
		words = strings.TrimPrefix(words+"; look again", "; ")
	}
	return words
}
