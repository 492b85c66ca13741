package command

import (
	"errors"
	"fmt"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
	"tubside/ui/show"
)

// plantFlags describe a plant.
var plantFlags = []flag{
	text("label", "what stands on the tag"),
	text("name", "species or cultivar as received"),
	text("name-now", "what it was renamed to, where that differs"),
	text("form", "`form`: rosette, bulbous, wispy, stemmed, fuzzy, tank, pendent"),
	text("leaf", "`leaf`: mesic, intermediate, xeric"),
	amount("size", "span in cm", "cm"),
	number("count", 1, "how many plants on the tray or in the clump"),
	text("shelf", "its shelf"),
	text("spot", "its spot on the shelf"),
	text("acquired", "`day` it came, 2026-01-31, or Mar 2024, or 2021"),
	text("last-soaked", "`day` of its last soak, 2026-01-31"),
	text("last-fed", "`day` it was last fed, 2026-01-31"),
	text("quarantine", "`day` its quarantine began, 2026-01-31"),
	yes("mist-only", "never soaked, as one in a pot: misted on rounds; --mist-only=false takes that back"),
	number("mother", 0, "`number` of the plant it was taken off"),
	text("note", "anything else"),
}

// plantActs is plants that come, change and go.
var plantActs = []act{
	{
		word: "add", takes: "--label LABEL | --name NAME", words: noWords,
		short: "a new plant, clump or tray",
		long: `A new plant, clump or tray. What is not said of form, leaf and size is filled in
from the species list and marked as assumed.`,
		examples: [2]string{
			`add --label Fuego --name "Tillandsia ionantha" --shelf A --spot 12`,
			"add --name bulbosa --count 12 --shelf B",
		},
		flags: plantFlags,
		fact: func(in *said) (model.Fact, error) {
			p := model.Plant{Count: 1}
			if err := in.describe(&p); err != nil {
				return nil, err
			}
			if p.Label == "" && p.Name == "" {
				return nil, errors.New("enter add: give --label or --name")
			}
			return &model.Add{Plants: []model.Plant{species.Fill(p)}}, nil
		},
		on: func(_ *said, b *model.Book, f model.Fact) (model.IDs, error) {
			id := b.NextID()
			f.(*model.Add).Plants[0].ID = id
			return model.IDs{id}, nil
		},
	},
	{
		word: "edit", takes: "PLANTS... --form fuzzy", words: plantsNamed,
		short:    "change what is said of plants; only what a flag names",
		examples: [2]string{`edit 17 --label Fuego --note ""`, "edit 12-40 --form fuzzy --leaf xeric"},
		flags:    plantFlags,
		fact: func(in *said) (model.Fact, error) {
			if err := in.describe(&model.Plant{}); err != nil {
				return nil, err
			}
			if !in.any() {
				return nil, errors.New("enter edit: say what changes, with a flag")
			}
			return &model.Edit{}, nil
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			ids, err := b.Choose(in.words...)
			if err != nil {
				return nil, err
			}
			edit := f.(*model.Edit)
			for _, id := range ids {
				p := b.Row(id).Plant
				if err := in.describe(&p); err != nil {
					return nil, err
				}
				if in.given("name") || in.given("name-now") {
					p = species.Fill(p)
				}
				edit.Plants = append(edit.Plants, p)
			}
			return ids, nil
		},
	},
	{
		word: "move", takes: "PLANTS... --shelf A --spot 12", words: plantsNamed,
		short:    "a new home",
		examples: [2]string{"move 17 --shelf A --spot 12", "move shelf:A --shelf B"},
		flags: []flag{text("shelf", "the `shelf`"),
			text("spot", "the `spot` on it; none is somewhere on the shelf")},
		fact: func(in *said) (model.Fact, error) {
			return &model.Move{To: model.Home{Shelf: in.text("shelf"), Spot: in.text("spot")}}, nil
		},
	},
	{
		word: "swap", takes: "PLANT PLANT", words: arity{2, 2, "name the two plants"},
		short:    "two plants that hang on each other's hooks",
		examples: [2]string{"swap 17 18", "swap 3 40"},
		fact:     func(*said) (model.Fact, error) { return &model.Swap{}, nil },
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			ids, err := b.Choose(in.words...)
			if err != nil {
				return nil, err
			}
			if len(ids) == 2 {
				*f.(*model.Swap) = *model.NewSwap(b.Row(ids[0]), b.Row(ids[1]))
			}
			return ids, nil
		},
	},
	{
		word: "split", takes: "PLANT --count N", words: arity{1, 1, "name the one tray or clump"},
		short: "plants taken off a tray or clump, under a number of their own",
		long: `Plants taken off a tray or clump, under a number of their own. The part is described
as the whole, but for what a flag names.`,
		examples: [2]string{`split 17 --count 3 --shelf B --label "Fuego pups"`, "split 17 --count 1"},
		flags:    plantFlags,
		fact: func(in *said) (model.Fact, error) {
			if !in.given("count") {
				return nil, errors.New("enter split: give --count")
			}
			return &model.Split{}, in.describe(&model.Plant{})
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			return in.takenOff(b, f.(*model.Split), func(whole *model.Row) model.Plant {
				part := whole.Plant
				part.ID = b.NextID()
				return part
			})
		},
	},
	{
		word: "separate", takes: "MOTHER", words: arity{1, 1, "name the one mother"},
		short: "an offset taken off its mother, as a plant of its own",
		long: `An offset taken off its mother, as a plant of its own that knows its mother. It is
described as she is, but for what a flag names; its size is taken from how big
the offset was seen. Growers take it off at a third to a half of her size and
let the wound dry for some days: until then it is misted only.`,
		examples: [2]string{`separate 17 --shelf B --spot 4 --label "Fuego 2"`, "separate 17"},
		flags:    plantFlags,
		fact: func(in *said) (model.Fact, error) {
			return &model.Split{Offset: true}, in.describe(&model.Plant{})
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			return in.takenOff(b, f.(*model.Split),
				func(mother *model.Row) model.Plant { return mother.AsOffset(b.NextID()) })
		},
	},
	{
		word: "gone", takes: "PLANTS... --lost CAUSE | --sold | --given", words: plantsNamed,
		short:    "lost, sold or given away; they leave the shelf, never the book",
		examples: [2]string{"gone 17 --lost rot", `gone 18 --given --note "a neighbour"`},
		flags: []flag{
			text("lost", "the `cause`: rot, drought, pests, burn, cold, sun, age, unknown"),
			yes("sold", "sold"),
			yes("given", "given away"),
			text("note", "for whom, for how much, what was seen"),
		},
		only: []string{"lost", "sold", "given"},
		fact: func(in *said) (model.Fact, error) {
			f := &model.Leave{How: model.Lost, Cause: in.text("lost"), Note: in.text("note")}
			switch {
			case in.yes("sold"):
				f.How = model.Sold
			case in.yes("given"):
				f.How = model.Given
			case f.Cause == "":
				return nil, errors.New("enter gone: give --lost with the cause, --sold or --given")
			}
			return f, nil
		},
	},
}

// takenOff finishes what is taken off one row: the part as it begins, with what
// the flags change.
func (in *said) takenOff(b *model.Book, f *model.Split, part func(*model.Row) model.Plant) (model.IDs, error) {
	ids, err := b.Choose(in.words...)
	if err != nil || len(ids) != 1 {
		return ids, err // several: the book says so itself
	}
	f.New = part(b.Row(ids[0]))
	return ids, in.describe(&f.New)
}

// describe changes what the flags name. What the grower says is no longer
// assumed.
func (in *said) describe(p *model.Plant) (err error) {
	for _, flag := range plantFlags {
		if err == nil && in.given(flag.name) {
			err = in.describeOne(p, flag.name)
		}
	}
	return err
}

// describeOne changes what one flag names.
func (in *said) describeOne(p *model.Plant, flag string) (err error) {
	switch flag {
	case "label":
		p.Label = in.text(flag)
	case "name":
		p.Name = in.text(flag)
	case "name-now":
		p.Now = in.text(flag)
	case "form":
		p.Assumed.Form = false
		p.Form, err = model.ParseForm(in.text(flag))
	case "leaf":
		p.Assumed.Leaf = false
		p.Leaf, err = model.ParseLeaf(in.text(flag))
	case "size":
		p.Size, p.Assumed.Size = in.amount(flag), false
	case "count":
		p.Count = in.number(flag)
	case "shelf":
		p.Home.Shelf = in.text(flag)
	case "spot":
		p.Home.Spot = in.text(flag)
	case "acquired":
		p.Acquired, p.AcquiredTo = 0, ""
		if text := in.text(flag); text != "" {
			p.Acquired, p.AcquiredTo, err = model.ParseCame(text, date.NewAt(in.now))
		}
	case "last-soaked":
		p.SoakedOn, err = parseDay(in.text(flag))
	case "last-fed":
		p.FedOn, err = parseDay(in.text(flag))
	case "quarantine":
		p.NewOn, err = parseDay(in.text(flag))
	case "mist-only":
		p.MistOnly = in.yes(flag)
	case "mother":
		if n := in.number(flag); n < 0 || n > 1<<32-1 {
			err = &model.Problem{
				What: fmt.Sprintf("%d is not the number of a plant", n),
				Do:   "give the number on its label",
			}
		} else {
			p.Mother = model.ID(n)
		}
	case "note":
		p.Note = in.text(flag)
	}
	if err != nil {
		return fmt.Errorf("--%s: %w", flag, err)
	}
	return nil
}

// parseDay reads a date; none is not known.
func parseDay(text string) (date.Date, error) {
	if text == "" {
		return 0, nil
	}
	return model.ParseDay(text, model.ISO)
}

// suggestName tells a person the accepted name of a plant that came under
// another. Nothing is changed by it.
func (r *run) suggestName(f model.Fact) error {
	add, ok := f.(*model.Add)
	if !ok || r.json || len(add.Plants) != 1 {
		return nil
	}
	p := add.Plants[0]
	name, ok := species.Accepted(p.Name)
	if !ok || p.Now != "" {
		return nil
	}
	name = show.Safe(name)
	return r.say("  the species list has it as %s; to note that: tubside enter edit %d --name-now %q", name, p.ID, name)
}
