package model

import (
	"fmt"
	"maps"
	"slices"
)

var _ = register[Import]("import")

// Import is a whole file brought in at once: new rows, changed rows, and what the
// file says anew of a plant's bloom, rot, troubles and offsets. One strike takes
// it back.
type Import struct {
	File     string  `json:"file,omitempty"` // base name of the file
	Added    []Plant `json:"added,omitempty"`
	Changed  []Plant `json:"changed,omitempty"`
	BloomOn  IDs     `json:"bloom_on,omitempty"`
	BloomOff IDs     `json:"bloom_off,omitempty"`
	// Stages lists the plants of which the file says how far their bloom has come.
	Stages map[Stage]IDs `json:"stages,omitempty"`

	RotOn      IDs             `json:"rot_on,omitempty"`
	RotOff     IDs             `json:"rot_off,omitempty"`
	TroubleOn  map[Ailment]IDs `json:"trouble_on,omitempty"`
	TroubleOff map[Ailment]IDs `json:"trouble_off,omitempty"`
	Offsets    []OffsetsOf     `json:"offsets,omitempty"`
	FadingOn   IDs             `json:"fading_on,omitempty"`
	FadingOff  IDs             `json:"fading_off,omitempty"`
}

// OffsetsOf is what a file says of the offsets of one plant.
type OffsetsOf struct {
	Plant ID      `json:"plant"`
	Seen  Offsets `json:"seen"`
}

// Kind implements [Fact].
func (Import) Kind() Kind { return "import" }

func (f Import) check(b *Book, e Entry) error {
	if err := f.checkMarks(); err != nil {
		return err
	}
	marked := f.marked()
	if len(f.Added)+len(f.Changed)+len(marked) == 0 {
		return &Problem{What: "an import that changes nothing"}
	}
	if err := b.canInsert(f.Added); err != nil {
		return err
	}
	if len(f.Changed) > 0 {
		if err := b.canEdit(f.Changed); err != nil {
			return err
		}
	}
	added := make(map[ID]bool, len(f.Added))
	for _, p := range f.Added {
		added[p.ID] = true
	}
	for _, id := range marked {
		if b.Row(id) == nil && !added[id] {
			return &Problem{What: fmt.Sprintf("there is no plant %d", id)}
		}
	}
	return nil
}

// checkMarks says which trouble or count of offsets cannot be, if one cannot.
func (f Import) checkMarks() error {
	for _, troubles := range []map[Ailment]IDs{f.TroubleOn, f.TroubleOff} {
		for _, what := range slices.Sorted(maps.Keys(troubles)) {
			if !slices.Contains(Ailments, what) {
				return &Problem{What: fmt.Sprintf("%q is not one of the troubles", what)}
			}
		}
	}
	for _, o := range f.Offsets {
		if err := o.Seen.possible(); err != nil {
			return err
		}
	}
	return nil
}

// marked lists the plants of whose life the file says something new.
func (f Import) marked() IDs {
	ids := slices.Concat(f.BloomOn, f.BloomOff, f.RotOn, f.RotOff, f.FadingOn, f.FadingOff)
	for _, stage := range Stages {
		ids = append(ids, f.Stages[stage]...)
	}
	for _, what := range Ailments {
		ids = append(ids, f.TroubleOn[what]...)
		ids = append(ids, f.TroubleOff[what]...)
	}
	for _, o := range f.Offsets {
		ids = append(ids, o.Plant)
	}
	return ids
}

func (f Import) apply(b *Book, e Entry) {
	for _, p := range f.Added {
		b.insert(p, e.At)
	}
	b.edit(f.Changed)
	b.each(f.BloomOn, func(r *Row) { r.bloom(Bloom{}, e) })
	b.each(f.BloomOff, func(r *Row) { r.bloom(Bloom{Over: true}, e) })
	for _, stage := range Stages {
		b.each(f.Stages[stage], func(r *Row) { r.bloom(Bloom{Stage: stage}, e) })
	}
	f.applyHealth(b, e)
}

func (f Import) applyHealth(b *Book, e Entry) {
	b.each(f.RotOn, func(r *Row) { r.rot(Rot{}, e) })
	b.each(f.RotOff, func(r *Row) { r.rot(Rot{Over: true}, e) })
	for _, what := range Ailments {
		b.each(f.TroubleOn[what], func(r *Row) { r.trouble(Trouble{What: what}, e) })
		b.each(f.TroubleOff[what], func(r *Row) { r.trouble(Trouble{What: what, Over: true}, e) })
	}
	for _, o := range f.Offsets {
		b.each(IDs{o.Plant}, func(r *Row) { r.offsets(o.Seen, e) })
	}
	b.each(f.FadingOn, func(r *Row) { r.Fading = sinceOrOver(r.Fading, e.At, false) })
	b.each(f.FadingOff, func(r *Row) { r.Fading = zeroTime })
}
