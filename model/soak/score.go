package soak

import "cmp"

// score is how good a plan is: thirst left unserved, then when the hands are
// free, then the fills it draws, then its loads; all the less the better.
type score struct{ lost, free, fills, loads int }

func (d *day) score() score { return score{d.p.total - d.served, d.free, d.fills, d.count} }

func (a score) compare(b score) int {
	return cmp.Or(cmp.Compare(a.lost, b.lost), cmp.Compare(a.free, b.free), cmp.Compare(a.fills, b.fills), cmp.Compare(a.loads, b.loads))
}

// What a fill, a load and a second of a load's end count against a second of the hands'
// time while plans are tried. Our own: enough to lead the search, too little to
// mislead it; what is kept is chosen by score alone.
const (
	fillSeconds = 2
	loadSeconds = 1
	endShare    = 2000 // seconds of ends for one of the hands'
)

// cost is the score in one number for the search: no saving of time is worth
// any thirst.
func (d *day) cost() int {
	horizon := d.p.s.Hours[len(d.p.s.Hours)-1].To - d.p.start
	return (d.p.total-d.served)*(2*horizon) + d.free - d.p.start + d.fills*fillSeconds + d.count*loadSeconds + d.ends/endShare
}
