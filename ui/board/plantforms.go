package board

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
	"tubside/ui/show"
)

// Fields of the plant form, in order.
const (
	plantName = iota
	plantLabel
	plantForm
	plantLeaf
	plantSize
	plantCount
	plantShelf
	plantSpot
	plantAcquired
	plantMistOnly
	plantNow
	plantNote
)

// plantFields are a plant's fields, filled from p.
func plantFields(d *desk, p model.Plant) []field {
	size := ""
	if p.Size > 0 {
		size = strconv.FormatFloat(p.Size, 'g', -1, 64)
	}
	return []field{
		newField("name", p.Name, "species or cultivar as received; fills form, leaf and size if you leave them out").inWords(),
		newField("label", p.Label, "what is written on the tag, if anything").inWords(),
		newChoice("form", p.Form, "by its first letters", model.Forms...),
		newChoice("leaf", p.Leaf, "by its first letter", model.Leaves...),
		newField("size", size, "span in cm"),
		newField("count", strconv.Itoa(max(1, p.Count)), "how many plants alike"),
		newField("shelf", p.Home.Shelf, "the shelf or rack it hangs on").offering(d.book.ShelfNames()...),
		newField("spot", p.Home.Spot, "the hook or place on the shelf"),
		newField("acquired", show.Came(p), "when it came: 31 Jan 2026, Mar 2024, or 2021").ofDays(show.Date(d.now, d.book.Zone())),
		yesOrNo("mist only", p.MistOnly, "yes for one that is never soaked, as in a pot: it comes up in the mist round instead"),
		newField("renamed", p.Now, renamedHint(p)).inWords(),
		newField("note", p.Note, "anything worth keeping").inWords(),
	}
}

// renamedHint says what the species list would call the plant today.
func renamedHint(p model.Plant) string {
	if name, ok := species.Accepted(p.Name); ok && name != p.Name {
		return "the name in use today; the list has " + name
	}
	return "the name in use today, if it is another; the name as received stays"
}

// plant reads the fields back over p.
func (f *form) plant(p model.Plant) (model.Plant, error) {
	p.Label, p.Name, p.Now, p.Note = f.text(plantLabel), f.text(plantName), f.text(plantNow), f.text(plantNote)
	p.Home = model.Home{Shelf: f.text(plantShelf), Spot: f.text(plantSpot)}
	p.MistOnly = f.text(plantMistOnly) == "yes"
	var err error
	form, err := model.ParseForm(f.text(plantForm))
	if err != nil {
		return p, wrong(plantForm, err)
	}
	leaf, err := model.ParseLeaf(f.text(plantLeaf))
	if err != nil {
		return p, wrong(plantLeaf, err)
	}
	size := 0.0
	if text := f.text(plantSize); text != "" {
		if size, err = show.ParseQuantity(text, "cm"); err != nil {
			return p, wrong(plantSize, err)
		}
	}
	// What the grower has now said is no longer assumed.
	p.Assumed.Form = p.Assumed.Form && form == p.Form
	p.Assumed.Leaf = p.Assumed.Leaf && leaf == p.Leaf
	p.Assumed.Size = p.Assumed.Size && size == p.Size
	p.Form, p.Leaf, p.Size = form, leaf, size
	if p.Count, err = strconv.Atoi(f.text(plantCount)); err != nil {
		return p, wrong(plantCount, fmt.Errorf("count %q is not a whole number", f.text(plantCount)))
	}
	if text := f.text(plantAcquired); text == "" {
		p.Acquired, p.AcquiredTo = 0, ""
	} else if text != show.Came(p) {
		today := date.NewAt(f.desk.now.In(f.desk.book.Zone()))
		if p.Acquired, p.AcquiredTo, err = model.ParseCame(text, today); err != nil {
			return p, wrong(plantAcquired, err)
		}
	}
	if p.Label == "" && p.Name == "" {
		return p, wrong(plantName, fmt.Errorf("give it a name or a label"))
	}
	return species.Fill(p), nil
}

// addForm asks for a new plant; it begins with the home of the plant under the
// cursor, since plants come in by the shelf.
func addForm(d *desk, l *list, added func(model.ID)) *form {
	p := model.Plant{ID: d.book.NextID(), Count: 1}
	if r := d.book.Row(l.current()); r != nil {
		p.Home.Shelf = r.Home.Shelf
	}
	return newForm(d, fmt.Sprintf("Add plant #%d", p.ID), func(f *form) error {
		p, err := f.plant(p)
		if err != nil {
			return err
		}
		err = d.write(&model.Add{Plants: []model.Plant{p}}, p.ID)
		if err == nil {
			added(p.ID)
			d.sayNamesake(p)
		}
		return err
	}, plantFields(d, p)...)
}

// sayNamesake says of a plant that came in where another of its name hangs, or how many
// there are.
func (d *desk) sayNamesake(p model.Plant) {
	var twins model.IDs
	for _, id := range d.book.IDs() {
		r := d.book.Row(id)
		if id != p.ID && r.State != model.Gone && strings.EqualFold(show.Title(r.Plant), show.Title(p)) {
			twins = append(twins, id)
		}
	}
	switch n := len(twins); n {
	case 0:
	case 1:
		d.say("%s: another of this name is #%s, %s", d.said, twins[0], show.Home(d.book.Row(twins[0]).Home))
	default:
		d.say("%s: %d others of this name, the first is #%s, %s", d.said, n, twins[0], show.Home(d.book.Row(twins[0]).Home))
	}
}

func editForm(d *desk, id model.ID) *form {
	old := d.book.Row(id).Plant
	return newForm(d, fmt.Sprintf("Edit #%d  %s", id, show.Title(old)), func(f *form) error {
		p, err := f.plant(old)
		if err != nil {
			return err
		}
		if p == old {
			d.say("Nothing changed")
			return nil
		}
		return d.write(&model.Edit{Plants: []model.Plant{p}}, id)
	}, plantFields(d, old)...)
}

func moveForm(d *desk, l *list) *form {
	ids := l.chosen()
	home := d.book.Row(ids[0]).Home
	spot := home.Spot
	if len(ids) > 1 {
		spot = ""
	}
	return newForm(d, "Move "+show.Plants(ids, d.book), func(f *form) error {
		err := d.write(&model.Move{To: model.Home{Shelf: f.text(0), Spot: f.text(1)}}, ids...)
		if err == nil {
			l.unmark()
		}
		return err
	}, newField("shelf", home.Shelf, "the new shelf").offering(d.book.ShelfNames()...), newField("spot", spot, "the new spot; may be left out"))
}

// splitForm takes plants off a tray, or offsets off a mother, as a row of their
// own.
func splitForm(d *desk, id model.ID) *form {
	row := d.book.Row(id)
	offsets := row.Count == 1
	title := fmt.Sprintf("Split off #%d  %s, %d of them", id, show.Title(row.Plant), row.Count)
	if offsets {
		title = fmt.Sprintf("Separate from #%d  %s, %s seen", id, show.Title(row.Plant),
			show.Count(row.Offsets, "offset"))
	}
	return newForm(d, title, func(f *form) error {
		n, err := strconv.Atoi(f.text(0))
		if err != nil {
			return wrong(0, fmt.Errorf("%q is not a whole number", f.text(0)))
		}
		part := row.Plant
		part.ID, part.Count, part.Label = d.book.NextID(), n, f.text(1)
		part.Home = model.Home{Shelf: f.text(2), Spot: f.text(3)}
		if offsets {
			part.Mother, part.Size, part.Note = id, math.Round(row.Size*row.OffsetShare), ""
		}
		return d.write(&model.Split{New: part, Offset: offsets}, id)
	},
		newField("how many", "1", "plants to take off"),
		newField("label", row.Label, "what to write on the new tag").inWords(),
		newField("shelf", row.Home.Shelf, "where the new plants will hang").offering(d.book.ShelfNames()...),
		newField("spot", "", "its spot"))
}

func goneForm(d *desk, l *list) *form {
	ids := l.chosen()
	return newForm(d, "Gone: "+show.Plants(ids, d.book), func(f *form) error {
		how, err := goneWord(f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		fact := &model.Leave{How: how, Cause: f.text(1), Note: f.text(2)}
		if how != model.Lost {
			fact.Cause = ""
		}
		if how == model.Lost && fact.Cause == "" {
			return wrong(1, fmt.Errorf("give the cause: %s", strings.Join(model.LossCauses, ", ")))
		}
		err = d.write(fact, ids...)
		if err == nil {
			l.unmark()
		}
		return err
	},
		newChoice("how", "", "by its first letter", model.Lost, model.Sold, model.Given),
		newField("cause", "", "of a loss: "+strings.Join(model.LossCauses, ", ")).offering(model.LossCauses...),
		newField("note", "", "to whom, for how much, what was seen; may be left out").inWords())
}

func goneWord(s string) (string, error) {
	for _, word := range []string{model.Lost, model.Sold, model.Given} {
		if s != "" && strings.HasPrefix(word, strings.ToLower(s)) {
			return word, nil
		}
	}
	return "", fmt.Errorf("say lost, sold or given")
}

func noteForm(d *desk, l *list) *form {
	ids := l.chosen()
	return newForm(d, "Note on "+show.Plants(ids, d.book), func(f *form) error {
		if f.text(0) == "" {
			return wrong(0, fmt.Errorf("nothing to write yet"))
		}
		return d.write(&model.Note{Text: f.text(0)}, ids...)
	}, newField("note", "", "what is worth remembering").inWords())
}

// readingForm asks for the room's air. The unit follows the house rule; a
// letter overrules it.
func readingForm(d *desk) *form {
	unit := "°C"
	if d.book.Rules().Fahrenheit() {
		unit = "°F"
	}
	return newForm(d, "The air of the room", func(f *form) error {
		temp, err := show.ParseTemp(f.text(0), d.book.Rules().Fahrenheit())
		if err != nil {
			return wrong(0, err)
		}
		rh, err := show.ParseQuantity(f.text(1), "%")
		if err != nil {
			return wrong(1, err)
		}
		var fan model.Fan
		if f.text(2) != "" {
			if fan, err = model.ParseFan(f.text(2)); err != nil {
				return wrong(2, err)
			}
		}
		return d.write(&model.Reading{TempC: temp, RH: rh, Fan: fan})
	},
		newField("temperature", "", "in "+unit+", or with its letter: 21C, 70F"),
		newField("humidity", "", "relative humidity in %"),
		newChoice("fan", d.outlook.Air.Fan, "low: across the room, on: 2 m away, near: 1 m", model.Fans...))
}

func vesselForm(d *desk, v model.Vessel) *form {
	f := newForm(d, "Tub or bucket", func(f *form) error {
		if f.text(1) == "away" {
			return d.write(&model.VesselSet{Vessel: model.Vessel{Name: f.text(0)}, Away: true})
		}
		set, known := d.book.Vessel(f.text(0)) // what else is known of it stays
		set.Name = f.text(0)
		if !known || f.text(1) != show.Volume(set.Litres, d.book.Rules()) { // what is shown is rounded
			litres, err := show.ParseVolume(f.text(1), d.book.Rules().Gallons())
			if err != nil {
				return wrong(1, err)
			}
			set.Litres = litres
		}
		return d.write(&model.VesselSet{Vessel: set})
	},
		newField("name", v.Name, "a new name adds a vessel, a known one changes it"),
		newField("water", show.Volume(v.Litres, d.book.Rules()),
			"in L or gal: what it holds with plants in it; the word away puts it away").in("litres"))
	f.caution = "A full bucket drowns a small child as surely as a tub: empty it after use."
	return f
}
