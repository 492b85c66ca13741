package board

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/model/feed"
	"tubside/ui/show"
)

// troubleForm says what plants have, what was done, or that it is over.
func troubleForm(d *desk, l *list) *form {
	ids := l.chosen()
	f := newForm(d, "Trouble on "+show.Plants(ids, d.book), func(f *form) error {
		what, err := model.ParseAilment(f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		over, err := yesNo(f.text(2))
		if err != nil {
			return wrong(2, err)
		}
		err = d.write(&model.Trouble{What: what, Treatment: f.text(1), Over: over}, ids...)
		if err == nil {
			l.unmark()
		}
		return err
	},
		newChoice("what", "", "by its first letters; suspected rot has the key !", model.Ailments...),
		newField("treated", "", "what was done about it; may be left out").inWords(),
		yesOrNo("over", false, "yes when the plant is rid of it"))
	f.caution = show.PesticideCaution
	return f
}

func yesNo(s string) (bool, error) {
	switch strings.ToLower(s) {
	case "y", "yes":
		return true, nil
	case "", "n", "no":
		return false, nil
	}
	return false, errors.New("say yes or no")
}

// offsetForm says how many offsets are seen and how big the biggest is.
func offsetForm(d *desk, l *list) *form {
	ids := l.chosen()
	r := d.book.Row(ids[0])
	count, share := "", ""
	if r.Offsets > 0 {
		count, share = strconv.Itoa(r.Offsets), strconv.Itoa(int(100*r.OffsetShare))
	}
	return newForm(d, "Offsets on "+show.Plants(ids, d.book), func(f *form) error {
		n, err := strconv.Atoi(f.text(0))
		if err != nil {
			return wrong(0, fmt.Errorf("%q is not a whole number", f.text(0)))
		}
		fact := &model.Offsets{Count: n}
		if f.text(1) != "" {
			percent, err := show.ParseQuantity(f.text(1), "%")
			if err != nil {
				return wrong(1, err)
			}
			fact.Share = percent / 100
		}
		err = d.write(fact, ids...)
		if err == nil {
			l.unmark()
		}
		return err
	},
		newField("how many", count, "offsets on each plant; 0 when there are none"),
		newField("biggest", share, "its size in % of the mother's: a third is 33").in("mother"))
}

// bottleForm says what is in the mist bottle.
func bottleForm(d *desk) *form {
	f := newForm(d, "The mist bottle", func(f *form) error {
		of, err := model.ParseSource(f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		mix, err := f.mix(1)
		if err != nil {
			return err
		}
		return d.write(&model.Bottle{Fed: mix, Of: of})
	},
		newField("water", string(d.book.Bottle().Of), "tap, rested, filtered, rain, well, bottled …; may be left out").offering(wordsOf(model.Sources)...),
		newField("ppm nitrogen", "", "of fed water; left empty for plain water"),
		newField("powder", "", "its name and first number: bloom powder 20").inWords())
	f.caution = feed.Caution
	return f
}

// mix reads a field of ppm and one of powder; no ppm is plain water.
func (f *form) mix(at int) (*model.Mix, error) {
	if f.text(at) == "" {
		return nil, nil
	}
	ppm, err := show.ParseQuantity(f.text(at), "ppm")
	if err != nil {
		return nil, wrong(at, err)
	}
	mix := &model.Mix{PPM: ppm, Powder: f.text(at + 1)}
	if words := strings.Fields(mix.Powder); len(words) > 0 {
		if n, err := strconv.ParseFloat(words[len(words)-1], 64); err == nil {
			mix.N, mix.Powder = n, strings.Join(words[:len(words)-1], " ")
		}
	}
	return mix, nil
}

// fillForm says with what a vessel was filled.
func fillForm(d *desk, v model.Vessel) *form {
	f := newForm(d, "Fill "+show.Safe(v.Name), func(f *form) error {
		var of []model.Source
		for _, word := range strings.FieldsFunc(f.text(0), func(r rune) bool { return r == ' ' || r == ',' || r == '+' }) {
			s, err := model.ParseSource(word)
			if err != nil {
				return wrong(0, err)
			}
			of = append(of, s)
		}
		fact := &model.Fill{Vessel: v.Name, Of: of}
		var err error
		if fact.Stood, err = f.optional(1, "h"); err != nil {
			return err
		}
		if fact.EC, err = f.optional(2, "dS/m", "mS/cm"); err != nil {
			return err
		}
		if f.text(3) != "" {
			if fact.TempC, err = show.ParseTemp(f.text(3), d.book.Rules().Fahrenheit()); err != nil {
				return wrong(3, err)
			}
		}
		if fact.Fed, err = f.mix(4); err != nil {
			return err
		}
		return d.write(fact)
	},
		newField("water", "", "tap, rested, rain, filtered …; two words are a blend").offering(wordsOf(model.Sources)...),
		newField("stood", "", "hours it stood elsewhere before; may be left out"),
		newField("EC", "", "conductivity in dS/m (= mS/cm), if you measured it"),
		newField("temperature", "", "of the water, if you measured it").in("°C"),
		newField("ppm nitrogen", "", "only for a feed bath; plain water leaves it empty"),
		newField("powder", "", "its name and first number").inWords())
	f.caution = "Standing water: never a child or a pet alone with it, not for seconds."
	return f
}

// optional reads a number that may be left out.
func (f *form) optional(i int, units ...string) (float64, error) {
	if f.text(i) == "" {
		return 0, nil
	}
	v, err := show.ParseQuantity(f.text(i), units...)
	if err != nil {
		return 0, wrong(i, err)
	}
	return v, nil
}

// weighForm asks what the scale says of one plant.
func weighForm(d *desk, id model.ID) *form {
	r, asked := d.book.Row(id), 0.0
	return newForm(d, fmt.Sprintf("Weigh #%d  %s", id, show.Title(r.Plant)), func(f *form) error {
		grams, err := show.ParseQuantity(f.text(0), "g")
		if err != nil {
			return wrong(0, err)
		}
		wet, err := yesNo(f.text(1))
		if err != nil {
			return wrong(1, err)
		}
		if why := r.Questionable(grams); why != "" && grams != asked {
			asked = grams
			return wrong(0, fmt.Errorf("%s; write it again if it is so", why))
		}
		return d.write(&model.Weigh{Grams: grams, Wet: wet}, id)
	},
		newField("weight", "", "in g"),
		yesOrNo("wet", r.State.Away(), "yes: fully soaked, shaken and blotted; no: as it hangs"))
}
