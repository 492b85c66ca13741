package board

import (
	"tubside/model"
	"tubside/model/soak"
)

// bandCounts counts plants at home by band.
type bandCounts [soak.Overnight + 1]int

// groupCount is what stands in a group's heading.
type groupCount struct {
	rows   int // all of them
	graded int // looked at in the walk at hand
	pulled int
	bands  bandCounts
}

// share is what one plant adds to the counts, kept so that an entry about a few
// plants counts no others.
type share struct {
	group               int32 // the group that lists it, unlisted when none does
	band                int8  // its band, offShelf when it is away
	graded, pulled, due bool  // looked at in this walk; waiting; on a sheet that is keyed in
}

const unlisted, offShelf = -1, -1

// recount makes the counts keep up with the entries made.
func (t *triage) recount() {
	switch {
	case t.counted == t.desk.version:
		return
	case t.counted < t.desk.whole:
		t.count()
		return
	}
	t.counted = t.desk.version
	for _, id := range t.desk.touched {
		if i, ok := t.desk.outlook.Place(id); ok {
			t.add(t.shares[i], -1)
			t.shares[i] = t.shareOf(i, t.shares[i].group, t.desk.book.Waiting().Has(id))
			t.add(t.shares[i], 1)
		}
	}
	t.desk.touched = t.desk.touched[:0]
}

// count counts bands for the collection and for each group.
func (t *triage) count() {
	t.counted = t.desk.version
	t.counts, t.perGroup = bandCounts{}, make([]groupCount, len(t.rows.heads))
	t.keyingIn.done, t.keyingIn.all = 0, 0
	waiting := make(map[model.ID]bool)
	for _, id := range t.desk.book.Waiting() {
		waiting[id] = true
	}
	needs := t.desk.outlook.Needs
	group := make([]int32, len(needs))
	for i := range group {
		group[i] = unlisted
	}
	for _, r := range t.rows.rows {
		if i, ok := t.desk.outlook.Place(r.id); ok {
			group[i] = int32(r.group)
		}
	}
	t.shares = make([]share, len(needs))
	t.findWalk()
	for i := range needs {
		t.shares[i] = t.shareOf(i, group[i], waiting[needs[i].ID])
		t.add(t.shares[i], 1)
	}
}

// shareOf is what a plant adds.
func (t *triage) shareOf(i int, group int32, pulled bool) share {
	n := &t.desk.outlook.Needs[i]
	r := t.desk.book.Row(n.ID)
	s := share{group: group, band: offShelf, pulled: pulled, graded: t.looked(n.ID)}
	if !r.State.Away() {
		s.band = int8(n.Band)
	}
	s.due = s.graded || !r.State.Away()
	return s
}

// add puts a plant's share into the counts, or with -1 takes it out.
func (t *triage) add(s share, n int) {
	if s.band != offShelf {
		t.counts[s.band] += n
	}
	if s.group == unlisted {
		return
	}
	c := &t.perGroup[s.group]
	c.rows += n
	if s.band != offShelf {
		c.bands[s.band] += n
	}
	if s.graded {
		c.graded += n
		t.keyingIn.done += n
	}
	if s.due {
		t.keyingIn.all += n
	}
	if s.pulled {
		c.pulled += n
	}
}
