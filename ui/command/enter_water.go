package command

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// sourceWords lists the words for water in a flag's help.
const sourceWords = "tap, rested, filtered, rain, well, bottled, rice, aquarium, pond, distilled, ro"

const anywayFlag = "fed all the same, whatever speaks against it"

// mixFlags say what is in fed water.
var mixFlags = []flag{
	text("powder", "the `product`, as on its label"),
	amount("n", "nitrogen in it: the first number of its label, in %", "%"),
	amount("ppm", "strength of the water in ppm (mg/L) of nitrogen", "ppm"),
	amount("part", "strength as a part of the label's rate: 0.25 is a quarter", ""),
	yes("strong", "stronger than the house rule allows, on purpose"),
}

// mix is the fed water as told, or nil when no flag tells of any.
func (in *said) mix() *model.Mix {
	if !in.given("ppm") && !in.given("part") && !in.given("n") && in.text("powder") == "" {
		return nil
	}
	return &model.Mix{
		Powder: in.text("powder"), N: in.amount("n"), PPM: in.amount("ppm"), Part: in.amount("part"),
		Over: in.yes("strong"),
	}
}

// sampleFlags are what a meter or a laboratory says of water.
var sampleFlags = []flag{
	amount("ec", "conductivity in dS/m (= mS/cm)", "dS/m", "mS/cm", "mS"),
	amount("temp", "its temperature in °C, or 70F", celsius),
}

// waterActs is water: in the vessels, in the bottle, and what is in it.
var waterActs = []act{
	{
		word: "feed", takes: "PLANTS... --by mist|dip|bath --ppm 50 | --bottle", words: plantsNamed,
		short: "fed; refused where it is too soon, or something speaks against it",
		long: `Plants were fed: by mist, by a dip, or in a bath that is no load of the book. A
load in fed water feeds its plants by itself (see: enter fill, enter soak).

A plant is not fed twice within its interval, nor in bloom, sick, new, just
separated or in winter light; --anyway writes it all the same.

` + wrapped("Feed", feedCaution),
		examples: [2]string{"feed shelf:A --bottle", `feed 17 --by dip --ppm 50 --powder "orchid 20-10-20" --n 20`},
		flags: append([]flag{
			text("by", "`how`: mist, dip or bath; mist when not said"),
			yes("bottle", "with what the mist bottle holds"),
			yes("anyway", anywayFlag),
			amount("litres", "how much was mixed, in litres", "L", "l", "litres"),
		}, mixFlags...),
		fact: func(in *said) (model.Fact, error) {
			f := &model.Feed{How: model.ByMist, Litres: in.amount("litres")}
			mix := in.mix()
			if in.yes("bottle") == (mix != nil) {
				return nil, errors.New("enter feed: give the strength with --ppm or --part, or say --bottle")
			}
			if mix != nil {
				f.Mix = *mix
			}
			var err error
			if in.given("by") {
				f.How, err = model.ParseFeeding(strings.ToLower(in.text("by")))
			}
			return f, err
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			ids, err := mayFeed(b, in.words, in.now, in.yes("anyway"))
			if err == nil && in.yes("bottle") {
				f.(*model.Feed).Mix, err = inBottle(b)
			}
			return ids, err
		},
	},
	{
		word: "bottle", takes: "plain|fed|empty", words: arity{1, 1, "say plain, fed or empty"},
		short: "what the mist bottle holds from now on",
		long: "What the mist bottle holds from now on. While it holds fed water no plain misting\n" +
			"is written, so that nothing is fed by mistake.\n\n" + wrapped("Feed", feedCaution),
		examples: [2]string{`bottle fed --ppm 50 --powder "orchid 20-10-20"`, "bottle plain --water rain"},
		flags:    append([]flag{text("water", "the `water`: "+sourceWords)}, mixFlags...),
		fact:     bottleHolds,
		on:       noPlants,
	},
	{
		word: "fill", takes: "VESSEL --water rain", words: vesselNamed,
		short: "a vessel filled with fresh water: from where, how long it stood, what was measured",
		long: `A vessel filled with fresh water. Several waters are a blend: --water ro,tap. With
a strength it is fed water, and what soaks in it is fed.

Sea water and water softened with salt are refused. Never leave a child or a pet
alone with a filled vessel, keep lamps, fans and cords away from it, and wipe up
what spills.`,
		examples: [2]string{"fill tub --water tap --ec 0.35 --temp 21", "fill bucket 1 --water rain --ppm 50"},
		flags: append(append([]flag{
			list("water", "the `water`: "+sourceWords+"; several are a blend"),
			amount("stood", "hours it had stood before", "h"),
		}, sampleFlags...), mixFlags...),
		fact: func(in *said) (model.Fact, error) {
			f := &model.Fill{
				Vessel: in.name(), Stood: in.amount("stood"), EC: in.amount("ec"), TempC: in.amount("temp"),
				Fed: in.mix(),
			}
			for _, word := range in.list("water") {
				of, err := model.ParseSource(word)
				if err != nil {
					return nil, err
				}
				f.Of = append(f.Of, of)
			}
			return f, nil
		},
		on: func(_ *said, b *model.Book, f model.Fact) (model.IDs, error) {
			fill := f.(*model.Fill)
			fill.Vessel = vesselName(b, fill.Vessel)
			return nil, nil
		},
	},
	{
		word: "drain", takes: "VESSEL", words: vesselNamed,
		short:    "a vessel emptied: the closing step of a soak day",
		examples: [2]string{"drain tub", "drain bucket 1"},
		fact:     func(in *said) (model.Fact, error) { return &model.Drain{Vessel: in.name()}, nil },
		on: func(_ *said, b *model.Book, f model.Fact) (model.IDs, error) {
			drain := f.(*model.Drain)
			drain.Vessel = vesselName(b, drain.Vessel)
			return nil, nil
		},
	},
	{
		word: "water", takes: "--vessel tub | --of tap", words: noWords,
		short:    "what a meter or a report says of water",
		examples: [2]string{"water --of tap --ec 0.42 --hardness 180", "water --vessel tub --ec 0.4 --temp 21"},
		flags: append([]flag{
			text("vessel", "the `vessel` it stands in"),
			text("of", "the `water` by its source: "+sourceWords+", softened, sea"),
			inMilligrams("tds", "dissolved solids in mg/L"),
			inMilligrams("hardness", "in mg/L as CaCO3"),
			inMilligrams("sodium", "in mg/L"),
			inMilligrams("chloride", "in mg/L"),
			inMilligrams("boron", "in mg/L"),
		}, sampleFlags...),
		fact: func(in *said) (model.Fact, error) {
			if in.text("vessel") == "" && in.text("of") == "" {
				return nil, errors.New("enter water: give --vessel or --of")
			}
			of, err := model.ParseSource(in.text("of"))
			return &model.Sample{
				Vessel: in.text("vessel"), Of: of, EC: in.amount("ec"), TempC: in.amount("temp"),
				TDS: in.amount("tds"), Hardness: in.amount("hardness"),
				Sodium: in.amount("sodium"), Chloride: in.amount("chloride"), Boron: in.amount("boron"),
			}, err
		},
		on: func(_ *said, b *model.Book, f model.Fact) (model.IDs, error) {
			sample := f.(*model.Sample)
			sample.Vessel = vesselName(b, sample.Vessel)
			return nil, nil
		},
	},
}

func inMilligrams(name, usage string) flag { return amount(name, usage, "mg/L", "mg/l", "ppm") }

// noPlants is an act about the room or the house: its words are no plants.
func noPlants(*said, *model.Book, model.Fact) (model.IDs, error) { return nil, nil }

// bottleHolds reads what the mist bottle holds.
func bottleHolds(in *said) (model.Fact, error) {
	of, err := model.ParseSource(in.text("water"))
	if err != nil {
		return nil, err
	}
	f := &model.Bottle{Fed: in.mix(), Of: of}
	switch word := strings.ToLower(in.words[0]); {
	case word == "empty":
		f.Empty = true
	case word == "fed" && f.Fed == nil:
		return nil, errors.New("enter bottle: give the strength with --ppm or --part")
	case word == "plain" && f.Fed != nil:
		return nil, errors.New("enter bottle: plain water has no strength; say fed")
	case word != "plain" && word != "fed":
		return nil, fmt.Errorf("enter bottle: %q: say plain, fed or empty", in.words[0])
	}
	return f, nil
}

// mayFeed chooses plants, and refuses those that are not to be fed now.
func mayFeed(b *model.Book, words []string, now time.Time, anyway bool) (model.IDs, error) {
	ids, err := b.Choose(words...)
	if err != nil || anyway {
		return ids, err
	}
	if stop, refused := advice.NotToFeed(estimate.New(b), ids, now); refused {
		return ids, withAnyway(show.NotFed(b, stop, now))
	}
	return ids, nil
}

// withAnyway names the flag that gets past a refusal.
func withAnyway(err error) error {
	if p, ok := model.AsProblem(err); ok {
		return &model.Problem{What: p.What, Do: p.Do + ": --anyway"}
	}
	return err
}

// inBottle is the fed water that the mist bottle holds.
func inBottle(b *model.Book) (model.Mix, error) {
	if held := b.Bottle().Fed; held != nil {
		return *held, nil
	}
	return model.Mix{}, &model.Problem{
		What: "the mist bottle is not said to hold fed water", Do: "enter it first: tubside enter bottle fed --ppm 50",
	}
}
