package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// hangRound is one walk along the shelves that hangs back what is dry.
type hangRound struct {
	at, until time.Time
	ids       model.IDs // in the order to hang them
	late      int       // of them, the last, are not dry yet when it begins
	free      bool      // the hands have nothing else to do: any time between, or left for the morning
	hands     int       // which pair
}

// hangInRounds finds the rounds of the day: those of the plan, and after them those for
// which the hands are free within their hours, of which the second is for what is dry only
// later, and for as many as may be.
func (s *soakPaper) hangInRounds() {
	s.round = map[model.ID]int{}
	for i := range s.p.Steps {
		if step := &s.p.Steps[i]; step.Do == soak.Hang && !step.Done {
			s.addRound(step.Plants, step.At, step.Until, false, step.Hands)
		}
	}
	from, until := s.freeHours()
	from = s.hangFree(from, from, until)
	last := until
	for _, id := range s.morning() {
		if !s.dry(id).After(until) {
			last = last.Add(-s.hangs1(id))
		}
	}
	s.hangFree(from, model.Later(from, last), until)
}

// freeHours are those after the day's work in which the hands still are there.
func (s *soakPaper) freeHours() (from, until time.Time) {
	from, until = model.Later(s.p.DayFree, s.p.Ask.From), s.p.Ask.Until
	for _, away := range s.p.Ask.Pauses {
		if away.Until.After(from) {
			until = model.Earlier(until, away.From)
		}
	}
	return from, until
}

// fewestHung are worth a walk along the shelves. A guess.
const fewestHung = 5

// hangFree adds a round of what is dry when it begins, at some time at the latest, as far
// as the hours go, what is dry longest first. It may be done from when all of it is dry. The
// answer is when the hands are free after it.
func (s *soakPaper) hangFree(free, latest, until time.Time) time.Time {
	var dry model.IDs
	for _, id := range s.morning() {
		if !s.dry(id).After(latest) {
			dry = append(dry, id)
		}
	}
	slices.SortStableFunc(dry, func(x, y model.ID) int { return s.dry(x).Compare(s.dry(y)) })
	var takes time.Duration
	n, from := 0, free
	for n < len(dry) && !latest.Add(takes+s.hangs1(dry[n])).After(until) {
		takes += s.hangs1(dry[n])
		from = model.Later(from, s.dry(dry[n]))
		n++
	}
	if n < fewestHung {
		return free
	}
	s.addRound(dry[:n], from, until, true, 0)
	return from.Add(takes)
}

// addRound adds a round: along the shelves, and what is dry only after its begin last.
func (s *soakPaper) addRound(ids model.IDs, at, until time.Time, free bool, hands int) {
	r := hangRound{at: at, until: until, free: free, hands: hands}
	var late model.IDs
	for _, id := range ids {
		if s.round[id] = len(s.rounds) + 1; s.dry(id).After(at) {
			late = append(late, id)
		} else {
			r.ids = append(r.ids, id)
		}
	}
	r.ids, r.late = append(s.b.Walk(r.ids), late...), len(late)
	s.rounds = append(s.rounds, r)
}

// dry is when a plant is dry at the latest.
func (s *soakPaper) dry(id model.ID) time.Time {
	row := s.b.Row(id)
	if _, place, ok := s.p.Placed(id); ok && !place.Dry.IsZero() {
		return place.Dry
	}
	if row.State == model.Drying {
		return s.k.DryOut(row, s.now).High
	}
	return time.Time{}
}

// hangs1 is how long the hands take to hang back a plant.
func (s *soakPaper) hangs1(id model.ID) time.Duration {
	return time.Duration(estimate.HandsFor(s.b.Row(id).Plant, s.b.Rules()).Hang) * time.Second
}

// morning lists whom no round hangs.
func (s *soakPaper) morning() model.IDs {
	var ids model.IDs
	for _, id := range s.p.Morning {
		if s.round[id] == 0 {
			ids = append(ids, id)
		}
	}
	return ids
}

// hanging says how many are hung when: those for the morning as board and shell count
// them, and how many of them may be done in the evening.
func (s *soakPaper) hanging() string {
	busy, free := 0, 0
	var until time.Time
	for _, r := range s.rounds {
		if r.free {
			free, until = free+len(r.ids), r.until
		} else {
			busy += len(r.ids)
		}
	}
	if busy+len(s.p.Morning) == 0 {
		return "Nothing is left to hang back."
	}
	line := fmt.Sprintf("To hang back between the other work: %d; in the morning: %d.", busy, len(s.p.Morning))
	if free > 0 {
		line += fmt.Sprintf(" If you like, %d of these when you are free, until %s: then %d are left.", free, s.at(until),
			len(s.morning()))
	}
	return line
}

// hangs says when a plant hangs back.
func (s *soakPaper) hangs(id model.ID) string {
	switch {
	case s.round[id] > 0:
		return fmt.Sprintf("round %d", s.round[id])
	case slices.Contains(s.p.Morning, id):
		return "tomorrow"
	case s.b.Row(id).State == model.AtHome:
		return "hangs"
	}
	return "tomorrow"
}

// addRounds lists by name whom each round hangs, where they lie and where they hang.
func (s *soakPaper) addRounds(sheet *paper.Sheet) {
	for n, r := range s.rounds {
		var words []string
		t := &paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{{Head: "hang it at", Least: 10},
			{Head: "plant", Least: 10}, {Head: "id", Right: true}, {Head: "from", Least: 6}}}
		bench := s.mostly(r.ids)
		if bench != "" {
			words = append(words, fmt.Sprintf("What is from a load lies on: %s. Else its place stands there.", bench))
		}
		for _, id := range r.ids {
			from := s.lies(id)
			if l, _, ok := s.p.Placed(id); ok && from == bench {
				from = fmt.Sprint("load ", s.p.Loads[l].Number)
			} else if ok {
				from = fmt.Sprintf("load %d, %s", s.p.Loads[l].Number, from)
			}
			row := s.b.Row(id)
			t.Add(show.Home(row.Home), show.Title(row.Plant), id.String(), from)
		}
		if r.late > 0 {
			words = append(words, fmt.Sprintf("The last of the list are dry a little after the round begins (%d of them): "+
				"take them last.", r.late))
		}
		when := s.at(r.at) + " to " + s.at(r.until)
		if r.free {
			when = "any time from " + s.at(r.at) + " on, until " + s.at(r.until)
		}
		blocks := []paper.Block{t}
		if len(words) > 0 {
			blocks = []paper.Block{paper.Words(strings.Join(words, " ")), t}
		}
		addSmall(sheet, fmt.Sprintf("Round %d of hanging, %s: %s", n+1, when, show.Count(len(r.ids), "plant")), blocks...)
	}
}

// mostly is where most of those of some plants lie that are of a load; "" for none.
func (s *soakPaper) mostly(ids model.IDs) string {
	lie, bench := map[string]int{}, ""
	for _, id := range ids {
		if _, _, ok := s.p.Placed(id); ok {
			if lie[s.lies(id)]++; bench == "" || lie[s.lies(id)] > lie[bench] {
				bench = s.lies(id)
			}
		}
	}
	return bench
}

// oneBench is where all of some plants lie, or are to be laid; "" where they lie apart.
func (s *soakPaper) oneBench(ids model.IDs) string {
	for _, id := range ids {
		if s.lies(id) != s.lies(ids[0]) {
			return ""
		}
	}
	return s.lies(ids[0])
}

// lyingBefore is what the day hangs that is of none of its loads, with when.
func (s *soakPaper) lyingBefore() *paper.Table {
	t := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "lies on"},
		{Head: "home", Least: 8}, {Head: "plant", Least: 12},
		{Head: "id", Right: true}, {Head: "hang back"}}}
	ids := slices.Clone(s.p.Morning)
	for id := range s.round {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, id := range s.b.Walk(ids) {
		if _, _, ok := s.p.Placed(id); ok {
			continue
		}
		row := s.b.Row(id)
		t.Add(s.lies(id), show.Home(row.Home), show.Title(row.Plant), id.String(), s.hangs(id))
	}
	return t
}

// notToday is who stays where it hangs, by name, under why.
func (s *soakPaper) notToday() []paper.Block {
	var blocks []paper.Block
	if gone := show.LoadsGone(s.p); gone != "" {
		blocks = append(blocks, paper.Words(show.Line(gone)+"."))
	}
	if back := s.p.Back(s.b); len(back) > 0 {
		t := &paper.Table{Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true}}}
		for _, id := range back {
			row := s.b.Row(id)
			t.Add(show.Home(row.Home), show.Title(row.Plant), id.String())
		}
		blocks = append(blocks, paper.Words(fmt.Sprintf("Put back %s, which you have pulled.", show.Count(len(back), "plant"))), t)
	}
	blocks = append(blocks, paper.Words("Leave these where they hang."))
	for _, g := range show.LeftGroups(s.b, s.p, s.p.Left) {
		t := &paper.Table{Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12},
			{Head: "id", Right: true}}}
		for _, id := range s.b.Walk(g.IDs) {
			if slices.Contains(s.b.Waiting(), id) {
				continue
			}
			row := s.b.Row(id)
			t.Add(show.Home(row.Home), show.Title(row.Plant), id.String())
		}
		if len(t.Rows) > 0 {
			blocks = append(blocks, paper.Words(g.Words), t)
		}
	}
	return blocks
}
