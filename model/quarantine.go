package model

import (
	"fmt"
	"strings"
	"time"

	"github.com/rickb777/date/v2"
)

var _ = register[Quarantine]("quarantine")

// Quarantine sets plants apart, as newcomers are, or releases them. They are
// released after the house rule's days and two clean looks, unless the grower
// says early.
type Quarantine struct {
	Over  bool `json:"over,omitempty"`
	Early bool `json:"early,omitempty"` // released before its time, and meant so
}

// Kind implements [Fact].
func (Quarantine) Kind() Kind { return "quarantine" }

func (f Quarantine) check(b *Book, e Entry) error {
	if err := b.present(e.Plants); err != nil || !f.Over {
		return err
	}
	for _, id := range e.Plants {
		r := b.rows[id]
		if r.Quarantine.IsZero() {
			return &Problem{What: fmt.Sprintf("plant %d (%s) is not in quarantine", id, r.Title())}
		}
	}
	return nil
}

// allow holds a release against the house rules.
func (f Quarantine) allow(b *Book, e Entry) error {
	if !f.Over || f.Early {
		return nil
	}
	for _, id := range e.Plants {
		r := b.rows[id]
		if lacks := b.Lacks(r, e.At); len(lacks) > 0 {
			return &Problem{
				What: fmt.Sprintf("plant %d (%s) is not ready for release: %s", id, r.Title(),
					strings.Join(lacks, "; ")),
				Do: "wait, or release it early if you are sure",
			}
		}
	}
	return nil
}

func (f Quarantine) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		if f.Over {
			r.Quarantine, r.Released = zeroTime, e.At
			return
		}
		r.Quarantine, r.CleanFrom = e.At, zeroTime
	})
}

// Lacks says what a plant in quarantine still needs before its release: days,
// two clean looks far enough apart, no trouble. Empty: it may go.
func (b *Book) Lacks(r *Row, at time.Time) []string {
	var lacks []string
	if until := b.QuarantineUntil(r); at.Before(until) {
		lacks = append(lacks, "quarantine until "+until.In(b.zone).Format(DayLayout))
	}
	if len(r.Troubles) > 0 || !r.Rot.IsZero() {
		lacks = append(lacks, "it has trouble on record")
	}
	if r.CleanFrom.IsZero() || b.daysBetween(r.CleanFrom, r.Looked) < int(b.rules[LooksApart]) {
		lacks = append(lacks, fmt.Sprintf("two clean looks at least %s days apart", b.rules.Word(LooksApart)))
	}
	return lacks
}

// QuarantineUntil is the beginning of the day on which the house rule's days are
// over, in the grower's zone; zero when the plant is not in quarantine.
func (b *Book) QuarantineUntil(r *Row) time.Time {
	if r.Quarantine.IsZero() {
		return zeroTime
	}
	y, m, d := r.Quarantine.In(b.zone).Date()
	return time.Date(y, m, d+int(b.rules[QuarantineDays]), 0, 0, 0, 0, b.zone)
}

// daysBetween counts the midnights between two times in the grower's zone: a
// look at nine and one at eight ten days on are ten days apart.
func (b *Book) daysBetween(from, to time.Time) int {
	return int(date.NewAt(to.In(b.zone)) - date.NewAt(from.In(b.zone)))
}

// days is a number of days of 24 hours.
func days(n float64) time.Duration { return time.Duration(n * 24 * float64(time.Hour)) }

// tellQuarantine takes the day told with a plant, unless it was released since.
func (r *Row) tellQuarantine(p Plant, zone *time.Location) {
	if p.NewOn == 0 {
		return
	}
	if told := NoonOf(p.NewOn, zone); told.After(r.Released) {
		r.Quarantine = told
	}
}

// Health is the company a plant may keep in the water, cleanest first.
type Health uint8

// The healths.
const (
	Sound    Health = iota
	Newcomer        // in quarantine
	Suspect         // was rid of something that spreads a short while ago
	Sick            // has something that spreads, rot among it
)

var healthWords = [...]string{"healthy", "newcomer", "suspect", "sick"}

// String is the health's word.
func (h Health) String() string { return healthWords[h] }

// Health is the company a plant may keep at a time. What was cleared counts as
// suspect for as long as two looks lie apart: rot shows 3 to 10 days late
// (common practice, no source).
func (b *Book) Health(r *Row, at time.Time) Health {
	for _, t := range r.Troubles {
		if t.What.Spreads() {
			return Sick
		}
	}
	switch {
	case !r.Rot.IsZero():
		return Sick
	case !r.Cleared.IsZero() && at.Sub(r.Cleared) < days(b.rules[LooksApart]):
		return Suspect
	case !r.Quarantine.IsZero():
		return Newcomer
	}
	return Sound
}
