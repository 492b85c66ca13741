package model

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

var (
	_ = register[Trouble]("trouble")
	_ = register[LookedOver]("looked")
)

// Ailment is what may be wrong with a plant, other than rot, which is a kind of
// entry of its own: see [Rot].
type Ailment string

// The ailments.
const (
	Scale    Ailment = "scale"
	Mealybug Ailment = "mealybug"
	Mites    Ailment = "mites"
	Burn     Ailment = "burn" // of salt or feed, at the new tips
	Cold     Ailment = "cold"
	Sun      Ailment = "sun"
)

// Ailments lists the ailments, in the order a field offers them.
var Ailments = []Ailment{Scale, Mealybug, Mites, Burn, Cold, Sun}

// ParseAilment reads an ailment by its word or its first letters.
func ParseAilment(s string) (Ailment, error) {
	s = strings.ToLower(strings.TrimSpace(s))
	if s == "rot" {
		return "", &Problem{What: "suspected rot is an entry of its own", Do: "enter it as rot"}
	}
	return oneOf("trouble", s, Ailments)
}

// Spreads reports whether the ailment goes from plant to plant.
func (a Ailment) Spreads() bool { return a == Scale || a == Mealybug || a == Mites }

// Trouble says what is wrong with plants, what was done about it, or that it is
// over. Saying it again keeps the first day and notes the new treatment.
type Trouble struct {
	What      Ailment `json:"what"`
	Treatment string  `json:"treatment,omitempty"` // what was done, in the grower's words
	Over      bool    `json:"over,omitempty"`
}

// Kind implements [Fact].
func (Trouble) Kind() Kind { return "trouble" }

func (f Trouble) check(b *Book, e Entry) error {
	switch {
	case !slices.Contains(Ailments, f.What):
		_, err := ParseAilment(string(f.What))
		return err
	case TooLong(f.Treatment):
		return &Problem{What: fmt.Sprintf("a treatment of more than %d characters", MaxText), Do: "shorten it"}
	}
	if err := b.present(e.Plants); err != nil || !f.Over {
		return err
	}
	for _, id := range e.Plants {
		if r := b.rows[id]; r.ill(f.What) < 0 {
			return &Problem{What: fmt.Sprintf("plant %d (%s) has no %s on record", id, r.Title(), f.What)}
		}
	}
	return nil
}

func (f Trouble) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.trouble(f, e) })
	b.spoilWater(e)
}

// trouble notes or ends a trouble of the plant. The end of one it does not have
// says nothing.
func (r *Row) trouble(f Trouble, e Entry) {
	i := r.ill(f.What)
	if f.Over && i < 0 {
		return
	}
	r.Troubles = slices.Clone(r.Troubles) // a part split off keeps its own
	r.CleanFrom = zeroTime
	if f.Over {
		r.Troubles = slices.Delete(r.Troubles, i, i+1)
		if f.What.Spreads() {
			r.Cleared = e.At
		}
		return
	}
	if i < 0 {
		i = len(r.Troubles)
		r.Troubles = append(r.Troubles, Ill{What: f.What, Since: e.At})
	}
	if f.Treatment != "" {
		r.Troubles[i].Treated, r.Troubles[i].Treatment = e.At, f.Treatment
	}
}

// Ill is one trouble a plant has.
type Ill struct {
	What      Ailment
	Since     time.Time
	Treated   time.Time // last; zero never
	Treatment string    // what was done then
}

// ill finds a trouble of the plant, or -1.
func (r *Row) ill(what Ailment) int {
	return slices.IndexFunc(r.Troubles, func(t Ill) bool { return t.What == what })
}

// LookedOver says plants were looked over on a round, leaf axils and base, and
// nothing was found. What is found is an entry of its own.
type LookedOver struct{}

// Kind implements [Fact].
func (LookedOver) Kind() Kind { return "looked" }

func (f LookedOver) check(b *Book, e Entry) error { return b.present(e.Plants) }

func (f LookedOver) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		r.Looked = Later(r.Looked, e.At)
		if r.CleanFrom.IsZero() {
			r.CleanFrom = e.At
		}
	})
}
