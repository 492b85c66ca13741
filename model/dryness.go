package model

var (
	_ = register[Damp]("damp")
	_ = register[FoundDry]("dry")
	_ = register[Hung]("hung")
)

// Damp says plants were looked at and are still damp at the heart.
type Damp struct{}

// Kind implements [Fact].
func (Damp) Kind() Kind { return "damp" }

// A plant that was marked dry too soon can be found damp after all.
func (f Damp) check(b *Book, e Entry) error {
	return b.presentIn(e.Plants, "only a plant that is out to dry can be damp", Drying, Dry)
}

func (f Damp) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		if r.State == Dry {
			b.setState(r, Drying, r.Out)
			r.DryAt = zeroTime
		}
		r.DampAt = e.At
	})
}

// FoundDry says plants were looked at and are dry to the heart.
type FoundDry struct{}

// Kind implements [Fact].
func (FoundDry) Kind() Kind { return "dry" }

func (f FoundDry) check(b *Book, e Entry) error {
	return b.presentIn(e.Plants, "only a plant that is drying can be marked dry", Drying)
}

func (f FoundDry) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		b.setState(r, Dry, e.At)
		r.DryAt = e.At
	})
}

// Hung sends dry plants home.
type Hung struct{}

// Kind implements [Fact].
func (Hung) Kind() Kind { return "hung" }

// Hanging a plant back that nobody found dry is the classic loss, so the dry
// mark comes first.
func (f Hung) check(b *Book, e Entry) error {
	return b.presentIn(e.Plants, "mark it dry first, then hang it", Dry)
}

func (f Hung) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		b.setState(r, AtHome, e.At)
		r.HungAt = e.At
	})
}
