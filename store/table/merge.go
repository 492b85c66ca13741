package table

import (
	"math"
	"slices"
	"strings"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
)

// What a row does to a plant that is there already: a column the file does not
// have changes nothing. An empty cell empties the label, both names, shelf, spot,
// note and the day acquired; in the other columns, where empty means that nobody
// looked, it leaves what the book says.

// merged is the plant as the row would have it.
func (s Sheet) merged(old *model.Row, r row, zone *time.Location) model.Plant {
	p := old.Plant
	s.mergeText(&p, r)
	mergeFact(s, &p.Form, r.Form, &p.Assumed.Form, r.Assumed.Form)
	mergeFact(s, &p.Leaf, r.Leaf, &p.Assumed.Leaf, r.Assumed.Leaf)
	if r.Size == roundSize(p.Size) {
		r.Size = p.Size // the file rounds
	}
	mergeFact(s, &p.Size, r.Size, &p.Assumed.Size, r.Assumed.Size)
	if r.Count > 0 {
		p.Count = r.Count
	}
	if s.has[fieldAcquired] && (r.AcquiredTo == "" || r.Came() != p.Came()) { // the last day of a year goes on while it lasts
		p.Acquired, p.AcquiredTo = r.Acquired, r.AcquiredTo
	}
	if r.SoakedOn > lastSoak(old, zone) {
		p.SoakedOn = r.SoakedOn
	}
	if r.FedOn > dayOf(old.Fed, zone) {
		p.FedOn = r.FedOn
	}
	if r.NewOn > max(dayOf(old.Quarantine, zone), dayOf(old.Released, zone)) {
		p.NewOn = r.NewOn
	}
	if r.Mother != 0 && r.Mother != p.ID {
		p.Mother = r.Mother
	}
	if p.Name != old.Name || p.Now != old.Now {
		refill(&p, r)
	}
	return p
}

func (s Sheet) mergeText(p *model.Plant, r row) {
	for _, f := range []field{fieldLabel, fieldName, fieldNow, fieldShelf, fieldSpot, fieldNote} {
		was, now := textOf(p, f), *textOf(&r.Plant, f)
		if s.has[f] && plainText(*was, f == fieldNote) != now {
			*was = now
		}
	}
	keepUnread(p, r)
}

// keepUnread writes into the note what could not be read, once, while there is room.
func keepUnread(p *model.Plant, r row) {
	for _, text := range r.unread {
		note := strings.TrimSpace(p.Note + "\n" + text)
		if !slices.Contains(strings.Split(p.Note, "\n"), text) && !model.TooLong(note) {
			p.Note = note
		}
	}
}

// mergeFact takes a form, a leaf or a size that the file gives. A new one is no
// longer assumed. One that is as it was keeps its mark, unless the file has a
// column of marks and leaves it out there.
func mergeFact[F comparable](s Sheet, was *F, now F, mark *bool, told bool) {
	var none F
	switch {
	case now == none:
	case now != *was:
		*was, *mark = now, false
	case s.has[fieldAssumed]:
		*mark = *mark && told
	}
}

// roundSize is a size as the file holds it, to a tenth of a millimetre.
func roundSize(cm float64) float64 { return math.Round(cm*100) / 100 }

// lastSoak is the day of a plant's last soak, which is what the file holds; the
// zero Date when none is known.
func lastSoak(r *model.Row, zone *time.Location) date.Date {
	return dayOf(r.LastSoak(), zone)
}

// dayOf is the day of a time, the zero Date for none.
func dayOf(t time.Time, zone *time.Location) date.Date {
	if t.IsZero() {
		return 0
	}
	return date.NewAt(t.In(zone))
}

// fresh is a new plant as the row describes it. What it leaves out is filled in
// from the species list, but not in a file that has been through it: an export
// says by number and marks what is assumed.
func (s Sheet) fresh(r row) model.Plant {
	p := r.Plant
	keepUnread(&p, r)
	p.Count = max(p.Count, 1)
	p.Assumed.Form = p.Assumed.Form && p.Form != ""
	p.Assumed.Leaf = p.Assumed.Leaf && p.Leaf != ""
	p.Assumed.Size = p.Assumed.Size && p.Size != 0
	if !s.has[fieldAssumed] || !r.numbered {
		refill(&p, r)
	}
	return p
}

// refill takes from the species list what the row does not give and the book
// does not know or only assumes. What the row gives stays, even where it is
// marked as assumed.
func refill(p *model.Plant, r row) {
	marks := p.Assumed
	p.Assumed.Form = marks.Form && r.Form == ""
	p.Assumed.Leaf = marks.Leaf && r.Leaf == ""
	p.Assumed.Size = marks.Size && r.Size == 0
	*p = species.Fill(*p)
	p.Assumed.Form = p.Assumed.Form || marks.Form
	p.Assumed.Leaf = p.Assumed.Leaf || marks.Leaf
	p.Assumed.Size = p.Assumed.Size || marks.Size
}
