package model

import "fmt"

var _ = register[Split]("split")

// Split makes a new row out of plants of another: Count plants off a tray or
// clump, or offsets off a mother. The entry names the tray or the mother; New is
// the new row, and inherits nothing that it does not say.
type Split struct {
	New    Plant `json:"new"`
	Offset bool  `json:"offset,omitempty"` // the new plants were offsets; New.Mother is the mother
}

// Kind implements [Fact].
func (Split) Kind() Kind { return "split" }

func (f Split) check(b *Book, e Entry) error {
	if err := b.presentIn(e.Plants, "split plants at home", AtHome); err != nil {
		return err
	}
	if len(e.Plants) != 1 {
		return &Problem{What: "split names more than one tray", Do: "split one tray at a time"}
	}
	tray := b.rows[e.Plants[0]]
	switch {
	case f.Offset && f.New.Mother != tray.ID:
		return &Problem{What: fmt.Sprintf("an offset of plant %d whose mother is %d", tray.ID, f.New.Mother)}
	case !f.Offset && f.New.Count >= tray.Count:
		return &Problem{
			What: fmt.Sprintf("plant %d (%s) has %d, so %d cannot be split off", tray.ID, tray.Title(), tray.Count,
				f.New.Count),
			Do: "leave at least one behind, or move all of it; an offset is separated instead",
		}
	}
	return b.canInsert([]Plant{f.New})
}

func (f Split) apply(b *Book, e Entry) {
	tray := b.rows[e.Plants[0]]
	b.insert(f.New, e.At)
	// The part has lived as the whole did until now.
	part := b.rows[f.New.ID]
	told, p := *tray, part.Plant
	*part = told
	part.Plant = p
	part.InSession = false
	// What the whole weighed says nothing of either half.
	tray.Weight, tray.WetWeight = WeightAt{}, WeightAt{}
	part.Weight, part.WetWeight = WeightAt{}, WeightAt{}
	if f.Offset {
		tray.Offsets = max(0, tray.Offsets-f.New.Count)
		part.separated(e)
		return
	}
	tray.Count -= f.New.Count
}

// separated makes a row that was copied off its mother an offset of her.
func (r *Row) separated(e Entry) {
	r.Separated = e.At
	r.Bloom, r.Stage, r.StageAt, r.InBloom, r.Bloomed = zeroTime, "", zeroTime, zeroTime, zeroTime
	r.Offsets, r.OffsetShare, r.OffsetsAt, r.Fading = 0, 0, zeroTime, zeroTime
	r.Signs, r.SignsAt = NoSigns, zeroTime
}

// AsOffset describes an offset of the plant as a row of its own, numbered id: as
// its mother but for its size, which is as the offset was seen, and without what
// was told of her alone.
func (r *Row) AsOffset(id ID) Plant {
	p := r.Plant
	p.ID, p.Mother, p.Count = id, r.ID, 1
	p.Size = r.Size * r.OffsetShare // 0 unknown
	p.AcquiredTo = ""
	p.Acquired, p.SoakedOn, p.FedOn, p.NewOn, p.Note = 0, 0, 0, 0, ""
	return p
}
