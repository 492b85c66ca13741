package command

import (
	"fmt"
	"slices"

	"github.com/rickb777/date/v2"
	"github.com/spf13/pflag"

	"tubside/model"
	"tubside/model/species"
)

// wording is what the flags say of a plant.
type wording struct {
	label, name, nameNow, form, leaf, shelf, spot, acquired, soaked, fed, isolated, note string
	size                                                                                 quantity
	count                                                                                int
	mother                                                                               uint32
}

// wordingFlags are the flags of a wording.
var wordingFlags = []string{"label", "name", "name-now", "form", "leaf", "size", "count", "shelf", "spot", "acquired", "last-soaked", "last-fed", "quarantine", "mother", "note"}

func (w *wording) flags(f *pflag.FlagSet) {
	w.size = of(0, "", "cm")
	f.StringVar(&w.label, "label", "", "what stands on the tag")
	f.StringVar(&w.name, "name", "", "species or cultivar as received")
	f.StringVar(&w.nameNow, "name-now", "", "species or cultivar as known now, where that differs")
	f.StringVar(&w.form, "form", "", "`form`: rosette, bulbous, wispy, stemmed, fuzzy, tank, pendent")
	f.StringVar(&w.leaf, "leaf", "", "`leaf`: mesic, intermediate, xeric")
	f.Var(&w.size, "size", "span in cm")
	f.IntVar(&w.count, "count", 1, "how many plants in the row")
	f.StringVar(&w.shelf, "shelf", "", "its shelf")
	f.StringVar(&w.spot, "spot", "", "its spot on the shelf")
	f.StringVar(&w.acquired, "acquired", "", "`day` it came, 2026-01-31")
	f.StringVar(&w.soaked, "last-soaked", "", "`day` of its last soak, 2026-01-31")
	f.StringVar(&w.fed, "last-fed", "", "`day` it was last fed, 2026-01-31")
	f.StringVar(&w.isolated, "quarantine", "", "`day` its quarantine began, 2026-01-31")
	f.Uint32Var(&w.mother, "mother", 0, "`number` of the plant it was taken off")
	f.StringVar(&w.note, "note", "", "anything else")
}

// any reports whether a flag says anything.
func (w *wording) any(f *pflag.FlagSet) bool { return slices.ContainsFunc(wordingFlags, f.Changed) }

// onto changes what the flags name. What the grower says is no longer assumed.
func (w *wording) onto(p *model.Plant, f *pflag.FlagSet) error {
	said := map[string]func() error{
		"label":       func() error { p.Label = w.label; return nil },
		"name":        func() error { p.Name = w.name; return nil },
		"name-now":    func() error { p.Now = w.nameNow; return nil },
		"form":        func() (err error) { p.Form, err = model.ParseForm(w.form); p.Assumed.Form = false; return err },
		"leaf":        func() (err error) { p.Leaf, err = model.ParseLeaf(w.leaf); p.Assumed.Leaf = false; return err },
		"size":        func() error { p.Size, p.Assumed.Size = w.size.value, false; return nil },
		"count":       func() error { p.Count = w.count; return nil },
		"shelf":       func() error { p.Home.Shelf = w.shelf; return nil },
		"spot":        func() error { p.Home.Spot = w.spot; return nil },
		"acquired":    func() (err error) { p.Acquired, err = day(w.acquired); return err },
		"last-soaked": func() (err error) { p.SoakedOn, err = day(w.soaked); return err },
		"last-fed":    func() (err error) { p.FedOn, err = day(w.fed); return err },
		"quarantine":  func() (err error) { p.NewOn, err = day(w.isolated); return err },
		"mother":      func() error { p.Mother = model.ID(w.mother); return nil },
		"note":        func() error { p.Note = w.note; return nil },
	}
	for _, flag := range wordingFlags {
		if !f.Changed(flag) {
			continue
		}
		if err := said[flag](); err != nil {
			return fmt.Errorf("--%s: %w", flag, err)
		}
	}
	return nil
}

// day reads a date; none is not known.
func day(text string) (date.Date, error) {
	if text == "" {
		return 0, nil
	}
	return model.ParseDay(text, model.ISO)
}

// edited is the rows that words name, with what the flags change.
func (w *wording) edited(b *model.Book, words []string, f *pflag.FlagSet) ([]model.Plant, error) {
	ids, err := b.Choose(words...)
	if err != nil {
		return nil, err
	}
	var rows []model.Plant
	for _, id := range ids {
		row := b.Row(id).Plant
		if err := w.onto(&row, f); err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// assume fills in from the species list what nobody said of a new plant.
func assume(p *model.Plant) {
	kind, ok := species.Find(p.Name)
	if !ok {
		return
	}
	if p.Form == "" {
		p.Form, p.Assumed.Form = kind.Form, true
	}
	if p.Leaf == "" {
		p.Leaf, p.Assumed.Leaf = kind.Leaf, true
	}
	if p.Size == 0 && kind.SizeCM > 0 {
		p.Size, p.Assumed.Size = kind.SizeCM, true
	}
}
