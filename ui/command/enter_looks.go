package command

import (
	"errors"
	"fmt"
	"slices"

	"tubside/model"
)

// looksActs is what was seen on plants.
var looksActs = []act{
	{
		word: "signs", takes: "PLANTS... CURL TIPS SHIFT", words: plantsNamed,
		short: "what is seen: curl, tips and colour shift, 0 to 3, - for not looked at",
		long: `What is seen on plants, the same on each: the plants, then three grades, - for
not looked at.

  curl   0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut
  tips   brown new tips: 0 none, 1 a few, 2 many, 3 most
  shift  colour when a drop wets the leaf: 0 already dark, 1 slow or patchy,
         2 quick and full, 3 stays pale

--fine takes no grades: leaves flat, tips clean.`,
		examples: [2]string{"signs 17 2 1 0", "signs shelf:A --fine"},
		flags:    []flag{yes("fine", "leaves flat, tips clean; no grades")},
		fact: func(in *said) (model.Fact, error) {
			if in.yes("fine") {
				return &model.Look{Signs: model.LooksFine}, nil
			}
			signs, err := in.grades()
			return &model.Look{Signs: signs}, err
		},
	},
	{
		word: "bloom", takes: "PLANTS...", words: plantsNamed,
		short: "in bloom: --bud, --open, --spent, or --over when nothing is left of it",
		long: `In bloom. In bud and open a plant is misted, not soaked; spent or over it goes
back to soaking. Without a flag only "in bloom" is said.`,
		examples: [2]string{"bloom 17 --bud", "bloom 17 --over"},
		flags: []flag{
			yes("bud", "the spike shows, no flower yet"),
			yes("open", "the first flower has opened"),
			yes("spent", "the last flower has faded"),
			yes("over", "the bloom is over"),
		},
		only: []string{"bud", "open", "spent", "over"},
		fact: func(in *said) (model.Fact, error) {
			f := &model.Bloom{Over: in.yes("over")}
			switch {
			case in.yes("bud"):
				f.Stage = model.Bud
			case in.yes("open"):
				f.Stage = model.Open
			case in.yes("spent"):
				f.Stage = model.Spent
			}
			return f, nil
		},
	},
	{
		word: "rot", takes: "PLANTS...", words: plantsNamed,
		short:    "may be rotting, or --over",
		examples: [2]string{"rot 17", "rot 17 --over"},
		flags:    []flag{yes("over", "they turned out sound")},
		fact:     func(in *said) (model.Fact, error) { return &model.Rot{Over: in.yes("over")}, nil },
	},
	says("looked", "looked over, base, axils and tips, and nothing found", &model.LookedOver{},
		"looked new", "looked 17 18"),
	{
		word: "offsets", takes: "PLANTS... --count 2 --size 40%", words: plantsNamed,
		short:    "offsets (pups) seen on each plant, and how big the biggest is",
		examples: [2]string{"offsets 17 --count 2 --size 35%", "offsets 17 --count 0"},
		flags: []flag{number("count", 1, "how many; 0 is none"),
			amount("size", "the biggest, in % of its parent", "%")},
		fact: func(in *said) (model.Fact, error) {
			return &model.Offsets{Count: in.number("count"), Share: in.amount("size") / 100}, nil
		},
	},
	{
		word: "fading", takes: "PLANTS...", words: plantsNamed,
		short:    "a mother that gives out after her bloom, or --over",
		examples: [2]string{"fading 17", "fading 17 --over"},
		flags:    []flag{yes("over", "not fading after all")},
		fact:     func(in *said) (model.Fact, error) { return &model.Fading{Over: in.yes("over")}, nil },
	},
	{
		word: "quarantine", takes: "PLANTS...", words: plantsNamed,
		short: "set apart, as newcomers are, or --over: released",
		long: `Set apart, as newcomers are: another room, their own water, towel and tools. They
are released with --over after the house rule's days and two clean looks
(see: enter looked); --early releases them before.`,
		examples: [2]string{"quarantine 17", "quarantine 17 --over"},
		flags:    []flag{yes("over", "released"), yes("early", "release before its time, on purpose")},
		fact: func(in *said) (model.Fact, error) {
			if in.yes("early") && !in.yes("over") {
				return nil, errors.New("enter quarantine: --early goes with --over")
			}
			return &model.Quarantine{Over: in.yes("over"), Early: in.yes("early")}, nil
		},
	},
	{
		word: "trouble", takes: "PLANTS... --what scale", words: plantsNamed,
		short: "scale, mealybug, mites, burn, cold or sun; what was done; or --over",
		long: "What is wrong with plants: scale, mealybug, mites, burn, cold or sun. Suspected\n" +
			"rot is an entry of its own (see: enter rot). Said again it notes the new\n" +
			"treatment, and the next look is due some days after.\n\n" +
			wrapped("Treat", pesticideCaution) + "\n" + wrapped("Disinfect", disinfectCaution),
		examples: [2]string{`trouble 17 --what scale --treatment "alcohol swab"`, "trouble 17 --what scale --over"},
		flags: []flag{
			text("what", "the `trouble`: scale, mealybug, mites, burn, cold, sun"),
			text("treatment", "what was done about it"),
			yes("over", "it is over"),
		},
		fact: func(in *said) (model.Fact, error) {
			if in.text("what") == "" {
				return nil, errors.New("enter trouble: give --what: scale, mealybug, mites, burn, cold or sun")
			}
			what, err := model.ParseAilment(in.text("what"))
			return &model.Trouble{What: what, Treatment: in.text("treatment"), Over: in.yes("over")}, err
		},
	},
	{
		word: "weighing", takes: "PLANTS... | --over", words: arity{0, many, plantsWanted},
		short: "the ten plants that are weighed for four weeks, or --over",
		long: `The plants that are weighed for four weeks: before each soak, after it when they
are dry to the heart, and half way to the next. Named again, others take their
place and the weeks go on. Whom to weigh is proposed by: tubside weighing --propose`,
		examples: [2]string{"weighing 3 8 17 21 40 55 56 71 90 112", "weighing --over"},
		flags:    []flag{yes("over", "stop weighing them")},
		fact:     func(in *said) (model.Fact, error) { return &model.Weighing{Over: in.yes("over")}, nil },
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			if in.yes("over") && len(in.words) == 0 {
				return nil, nil
			}
			return plantsSaid(in, b, f)
		},
	},
	{
		word: "weight", takes: "PLANT --g N", words: arity{1, 1, "name one plant"},
		short: "a plant on the kitchen scale: --wet when it comes out of the water, later without",
		long: `Put the plant on the kitchen scale. Weigh it --wet when it comes out of a long
soak, shaken and blotted, at best when it is dry to the heart, and again whenever
you like before the next: what it has lost says more than any sign. A weight that
looks wrong beside the ones before is asked about; --anyway writes it. Weighed
in the midst of a soak, a minute after it went in and every half hour, it says
how fast it drinks.`,
		examples: [2]string{"weight 17 --g 41.5 --wet", "weight 17 --g 33.2"},
		flags: []flag{amount("g", "weight in grams", "g", "grams"), yes("wet", "fully soaked, shaken and blotted"),
			yes("anyway", "it does weigh that")},
		fact: func(in *said) (model.Fact, error) {
			if !in.given("g") {
				return nil, errors.New("enter weight: give --g")
			}
			return &model.Weigh{Grams: in.amount("g"), Wet: in.yes("wet")}, nil
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			ids, err := plantsSaid(in, b, f)
			if err != nil || len(ids) != 1 || in.yes("anyway") || b.Row(ids[0]) == nil {
				return ids, err
			}
			row, grams := b.Row(ids[0]), f.(*model.Weigh).Grams
			if why := row.Questionable(grams); why != "" {
				return nil, &model.Problem{What: fmt.Sprintf("plant %d (%s) at %g g? %s", row.ID, row.Title(), grams, why),
					Do: "weigh it once more, or say that it is so: --anyway"}
			}
			return ids, nil
		},
	},
	{
		word: "note", takes: "[PLANTS...] --text TEXT", words: arity{0, many, plantsWanted},
		short:    "anything worth writing down, about plants or about the day",
		examples: [2]string{`note --text "new lamp"`, `note 17 --text "pups at the base"`},
		flags:    []flag{text("text", "the `note`")},
		fact: func(in *said) (model.Fact, error) {
			if in.text("text") == "" {
				return nil, errors.New("enter note: give --text")
			}
			return &model.Note{Text: in.text("text")}, nil
		},
	},
}

// grades takes the three grades off the end of the words.
func (in *said) grades() (signs model.Signs, err error) {
	n := len(in.words) - 3
	if n < 1 {
		return signs, errors.New("enter signs: name plants, then the grades of curl, tips and shift: 17 2 1 0")
	}
	for i, grade := range []*model.Grade{&signs.Curl, &signs.Tips, &signs.Shift} {
		if *grade, err = model.ParseGrade(in.words[n+i]); err != nil {
			return signs, err
		}
	}
	in.words = slices.Clip(in.words[:n])
	return signs, nil
}
