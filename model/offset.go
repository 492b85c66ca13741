package model

import "fmt"

var (
	_ = register[Offsets]("offsets")
	_ = register[Fading]("fading")
)

// Offsets says how many offsets (pups) are seen on each of the plants, and how
// big the biggest is.
type Offsets struct {
	Count int     `json:"count"`           // 0: none
	Share float64 `json:"share,omitempty"` // size of the biggest as a part of the parent's, 0..1; 0 not said
}

// Kind implements [Fact].
func (Offsets) Kind() Kind { return "offsets" }

// mostOffsets bounds a count. A choice; growers speak of 1 to 12.
const mostOffsets = 100

func (f Offsets) check(b *Book, e Entry) error {
	if err := f.possible(); err != nil {
		return err
	}
	return b.present(e.Plants)
}

// possible says why there cannot be such offsets, if there cannot.
func (f Offsets) possible() error {
	switch {
	case f.Count < 0 || f.Count > mostOffsets:
		return &Problem{What: fmt.Sprintf("%d offsets", f.Count), Do: fmt.Sprintf("count is 0 to %d", mostOffsets)}
	case !(f.Share >= 0 && f.Share <= 1.5):
		return &Problem{
			What: fmt.Sprintf("an offset %.0f %% of the size of its mother", 100*f.Share),
			Do:   "give a part of hers, a third is 33 %; at most 150 %",
		}
	}
	return nil
}

func (f Offsets) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.offsets(f, e) })
}

func (r *Row) offsets(f Offsets, e Entry) {
	if !e.At.Before(r.OffsetsAt) {
		r.Offsets, r.OffsetShare, r.OffsetsAt = f.Count, f.Share, e.At
	}
}

// MaySeparate reports whether the biggest offset has the size from which the
// house rule lets it be taken off, and whether it has that by which it should
// be.
func (b *Book) MaySeparate(r *Row) (may, should bool) {
	if r.Offsets == 0 {
		return false, false
	}
	return r.OffsetShare >= b.rules[OffsetFrom]/100, r.OffsetShare >= b.rules[OffsetTo]/100
}

// Fading says mothers that have bloomed are giving out, or that they are not
// after all. A mother gone is a loss like any other, of age.
type Fading struct {
	Over bool `json:"over,omitempty"`
}

// Kind implements [Fact].
func (Fading) Kind() Kind { return "fading" }

func (f Fading) check(b *Book, e Entry) error { return b.present(e.Plants) }

func (f Fading) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.Fading = sinceOrOver(r.Fading, e.At, f.Over) })
}

// Children lists the plants taken off a mother, by number, gone ones among
// them.
func (b *Book) Children(mother ID) IDs {
	var ids IDs
	for _, id := range b.order {
		if b.rows[id].Mother == mother {
			ids = append(ids, id)
		}
	}
	return ids
}
