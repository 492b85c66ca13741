package model

import (
	"cmp"
	"fmt"
	"time"
)

var _ = register[Agreed]("plan")

// Agreed is a soak day's plan that the grower has said yes to. It holds until
// another is agreed, or its day is over: board, shell and paper show this one.
type Agreed struct {
	Since  time.Time    `json:"since,omitzero"`   // when the day's first plan was agreed: what came out after that is ticked off
	Yes    time.Time    `json:"agreed,omitzero"`  // when the grower said yes to it; zero: with this entry, which else only changes it
	Stop   time.Time    `json:"stopped,omitzero"` // the grower has stopped for the day; zero: not
	From   time.Time    `json:"from,omitzero"`    // the hours of the hands; zero: the plan is given up
	Until  time.Time    `json:"until,omitzero"`   //
	DryBy  time.Time    `json:"dry_by,omitzero"`
	Pauses []Pause      `json:"pauses,omitempty"` // when the hands are away
	Help   []Pause      `json:"help,omitempty"`   // when another pair of hands is there
	Night  bool         `json:"night,omitempty"`  // a load may soak over night after the hours
	Feed   bool         `json:"feed,omitempty"`   // plants due a feed soak in fed water
	Small  bool         `json:"small,omitempty"`  // loads may be of any size
	AtOnce int          `json:"at_once,omitempty"`
	Last   int          `json:"last_number,omitempty"` // the highest number that a load of the day has had
	Loads  []AgreedLoad `json:"loads,omitempty"`
	Order  []AgreedWork `json:"order,omitempty"` // of the hands
	Left   []AgreedLeft `json:"left_out,omitempty"`
}

// Pause is a stretch of the day.
type Pause struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
}

// AgreedLoad is one load of the plan.
type AgreedLoad struct {
	Number int       `json:"number,omitempty"` // of the day, which it keeps; 0 in older books: see [Agreed.Number]
	Vessel string    `json:"vessel"`
	Heap   int       `json:"heap,omitempty"` // 1 by the tap, 2 at the far end, where two share the vessel
	Night  bool      `json:"night,omitempty"`
	Plants IDs       `json:"plants"`  // in the order in which they go in and come out
	Least  []int     `json:"least_s"` // the shortest soak of each, in seconds
	Most   []int     `json:"most_s"`  // the longest
	Start  time.Time `json:"in"`
	Out    time.Time `json:"out"`
}

// AgreedWork is a piece of the hands' work with a load: "pull", "in" or "out".
type AgreedWork struct {
	Do   string    `json:"do"`
	Load int       `json:"load"`        // from 1
	At   time.Time `json:"at,omitzero"` // when the hands begin with it
}

// AgreedLeft is a plant that the plan leaves out, and why.
type AgreedLeft struct {
	Plant ID     `json:"plant"`
	Why   string `json:"why"`
	By    int    `json:"by_s,omitempty"` // s that it would be dry too late

	Load    int       `json:"load,omitempty"`   // the number of the load that it was in; 0: it never was in one
	Dropped time.Time `json:"dropped,omitzero"` // from the plan, after the grower said yes to it; zero: it never was in it
}

// Number is the number of the load at a place in the plan. It keeps it all day, whatever
// becomes of the others; in books that have none it is its place, from 1.
func (f *Agreed) Number(place int) int { return cmp.Or(f.Loads[place].Number, place+1) }

// LastNumber is the highest number that a load of the day has had.
func (f *Agreed) LastNumber() int {
	last := f.Last
	for n := range f.Loads {
		last = max(last, f.Number(n))
	}
	return last
}

// Kind implements [Fact].
func (Agreed) Kind() Kind { return "plan" }

// longestPlan bounds the hours of a plan: a day and its night, and some change.
const longestPlan = 36 * time.Hour

func (f Agreed) check(b *Book, e Entry) error {
	if f.From.IsZero() {
		return nil
	}
	if d := f.Until.Sub(f.From); d <= 0 || d > longestPlan {
		return &Problem{
			What: fmt.Sprintf("a plan from %s until %s", f.From.In(b.zone).Format(MomentLayout), f.Until.In(b.zone).Format(MomentLayout)),
			Do:   "give the hours of one day",
		}
	}
	seen := map[ID]bool{}
	for n, l := range f.Loads {
		switch {
		case l.Vessel == "" || len(l.Plants) == 0:
			return &Problem{What: fmt.Sprintf("load %d of the plan has no vessel or no plants", n+1)}
		case len(l.Least) != len(l.Plants) || len(l.Most) != len(l.Plants):
			return &Problem{What: fmt.Sprintf("load %d of the plan has %d plants and %d and %d soaks", n+1,
				len(l.Plants), len(l.Least), len(l.Most))}
		}
		for _, id := range l.Plants {
			if seen[id] {
				return &Problem{What: fmt.Sprintf("plant %s is in the plan twice", id)}
			}
			if b.Row(id) == nil {
				return &Problem{
					What: fmt.Sprintf("load %d of the plan names plant %s, which is not in the book", n+1, id),
				}
			}
			seen[id] = true
		}
	}
	for _, w := range f.Order {
		if w.Load < 1 || w.Load > len(f.Loads) {
			return &Problem{What: fmt.Sprintf("the plan works on load %d of %d", w.Load, len(f.Loads))}
		}
	}
	return nil
}

func (f Agreed) apply(b *Book, e Entry) {
	b.agreed = &AgreedAt{Agreed: f, At: e.At}
	if f.From.IsZero() {
		b.agreed = nil
		return
	}
	for _, l := range b.inWater {
		if l.Heap == 0 {
			l.Heap = b.agreed.heapOf(l)
		}
	}
}

// AgreedTo is when the grower said yes to the plan.
func (a *AgreedAt) AgreedTo() time.Time {
	if a.Yes.IsZero() {
		return a.At
	}
	return a.Yes
}

// AgreedAt is an agreed plan and the time of its last entry.
type AgreedAt struct {
	Agreed
	At time.Time
}

// AgreedPlan is the plan that holds at a time: the last one agreed, until its day
// is over, or the morning after it where a load soaks over night. It returns nil
// when there is none. The caller must not change it.
func (b *Book) AgreedPlan(at time.Time) *AgreedAt {
	a := b.agreed
	if a == nil {
		return nil
	}
	from := a.From.In(b.zone)
	over := AtHour(from.AddDate(0, 0, 1), 0)
	for _, l := range a.Loads {
		if l.Night {
			over = AtHour(from.AddDate(0, 0, 1), b.rules[DayUntil])
		}
	}
	if !at.Before(over) {
		return nil
	}
	return a
}
