package model

import (
	"fmt"
	"slices"
	"strings"
)

var _ = register[Bloom]("bloom")

// Stage is how far a bloom has come. The empty stage is a bloom of which only
// yes or no was said.
type Stage string

// The stages of a bloom.
const (
	Bud   Stage = "bud"   // the spike shows, no flower yet
	Open  Stage = "open"  // the first flower has opened
	Spent Stage = "spent" // the last flower has faded: back to soaking
)

// Stages lists the stages in their order.
var Stages = []Stage{Bud, Open, Spent}

// ParseStage reads a stage by its word or its first letters.
func ParseStage(s string) (Stage, error) {
	return oneOf("bloom", strings.ToLower(strings.TrimSpace(s)), Stages)
}

// Bloom sets plants in bloom, says how far the bloom has come, or that nothing
// is left of it. Without a stage, of a plant in bloom, it says that it still is.
type Bloom struct {
	Stage Stage `json:"stage,omitempty"`
	Over  bool  `json:"over,omitempty"`
}

// Kind implements [Fact].
func (Bloom) Kind() Kind { return "bloom" }

func (f Bloom) check(b *Book, e Entry) error {
	switch {
	case f.Stage != "" && !slices.Contains(Stages, f.Stage):
		_, err := ParseStage(string(f.Stage))
		return err
	case f.Over && f.Stage != "":
		return &Problem{What: fmt.Sprintf("a bloom that is over and %s", f.Stage), Do: "say one of the two"}
	}
	return b.present(e.Plants)
}

func (f Bloom) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.bloom(f, e) })
}

// bloom moves a plant on through its bloom. While it is in bud or open
// [Row.Bloom] is set, and care keeps the flower dry; spent or over it is not.
func (r *Row) bloom(f Bloom, e Entry) {
	over := f.Over || f.Stage == Spent
	if over && !r.Bloom.IsZero() {
		r.Bloomed = e.At
	}
	r.Bloom = sinceOrOver(r.Bloom, e.At, over)
	if r.InBloom = e.At; over {
		r.InBloom = zeroTime
	}
	switch {
	case f.Over, f.Stage == "" && r.Stage == Spent: // nothing left, or a new one
		r.Stage, r.StageAt = "", zeroTime
	case f.Stage != "" && f.Stage != r.Stage:
		r.Stage, r.StageAt = f.Stage, e.At
	}
}
