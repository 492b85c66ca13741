package care

import "tubside/model"

// The one-minute test tells thirst from what looks like it, in the order in
// which a mistake kills. All of it is common practice, no source, unless a step
// says otherwise.

// Question is one step of the one-minute test.
type Question struct {
	Ask     string
	How     string // what to do with the hands
	Answers []Answer
}

// Answer is one thing that may be seen, and what it means.
type Answer struct {
	Key     rune // the key that gives it
	Text    string
	Verdict *Verdict // nil: on to the next question
}

// Verdict is what the test comes to.
type Verdict struct {
	What string     // "rot at the heart"
	Do   []string   // what growers do, in order
	Fact model.Fact // what to enter about the plant; nil: nothing
	Mark string     // where it comes from
}

var (
	rotVerdict = &Verdict{
		What: "rot", Fact: &model.Rot{}, Mark: commonPractice,
		Do: []string{
			"no water; take it away from the others, wash hands and tools",
			"pull off what comes off, dry it in moving air",
			"a shoot whose centre leaf comes out is lost, offsets at its side may live",
			"look again in 3 days",
		},
	}
	blightVerdict = &Verdict{
		What: "bacterial rot", Fact: &model.Rot{}, Mark: "A. R. Chase, plant pathologist: destroy, do not splash; bactericides do not help bromeliads",
		Do: []string{"bag it and throw it out, do not splash", "disinfect vessel, tools and hands", "enter it as lost to rot"},
	}
	sunVerdict = &Verdict{
		What: "sunburn", Fact: &model.Trouble{What: model.Sun}, Mark: commonPractice,
		Do: []string{"out of the direct sun; the patch stays", "back into light over two weeks"},
	}
	coldVerdict = &Verdict{
		What: "cold", Fact: &model.Trouble{What: model.Cold}, Mark: commonPractice,
		Do: []string{"away from the window, dry, at room warmth", "no soak until the patches have dried; look for rot in 3 days"},
	}
	burnVerdict = &Verdict{
		What: "salt or feed burn", Fact: &model.Trouble{What: model.Burn}, Mark: commonPractice,
		Do: []string{"two soaks in plain rain or low-mineral water", "skip two feeds", "measure the water's conductivity"},
	}
	thirstVerdict = &Verdict{
		What: "thirst", Mark: commonPractice,
		Do: []string{"grade curl, tips and shift, and soak as its band says"},
	}
	notThirstVerdict = &Verdict{
		What: "not thirst", Mark: commonPractice,
		Do: []string{"a plant thirsty twice in a row right after a soak is not thirsty: suspect rot, burn or dead scales", "do not soak it longer; look again in 3 days"},
	}
	wellVerdict = &Verdict{
		What: "nothing found", Fact: &model.LookedOver{}, Mark: commonPractice,
		Do: []string{"old lowest leaves that go crisp one by one are only age"},
	}
)

// pest is the verdict on something that lives on the plant.
func pest(what model.Ailment) *Verdict {
	t := TreatmentOf(what)
	return &Verdict{What: string(what), Do: t.Steps, Fact: &model.Trouble{What: what}, Mark: t.Origin}
}

// MinuteTest is the test, in its order. The first answer with a verdict ends it.
var MinuteTest = []Question{
	{"Is the base soft?", "press it between two fingers", []Answer{
		{'n', "hard", nil}, {'y', "soft or wet", rotVerdict}}},
	{"Does a centre leaf move?", "tug it lightly", []Answer{
		{'n', "it holds", nil}, {'y', "it comes out, or moves", rotVerdict}}},
	{"Does the base smell?", "hold it to the nose", []Answer{
		{'n', "of nothing", nil}, {'s', "sour", rotVerdict}, {'f', "fishy, and slimy", blightVerdict}}},
	{"Is the damage on one side?", "turn it in the light", []Answer{
		{'n', "all round, or none", nil}, {'s', "bleached or tan, on the side to the light", sunVerdict}, {'c', "dull or glassy, on the side to a cold pane", coldVerdict}}},
	{"Are others of the same bath brown at the new tips?", "look at its load", []Answer{
		{'n', "no", nil}, {'y', "yes, several", burnVerdict}}},
	{"What does the lens show?", "leaf axils and undersides; tap over white paper", []Answer{
		{'n', "nothing", nil}, {'s', "discs that scrape off: scale", pest(model.Scale)},
		{'m', "white cotton: mealybug", pest(model.Mealybug)}, {'w', "fine speckle or web: mites", pest(model.Mites)}}},
	{"Do its leaves roll, though it was soaked a day or two ago, for the second time?", "compare with the last look", []Answer{
		{'y', "yes, twice in a row", notThirstVerdict}, {'r', "they roll, but this is the first time", thirstVerdict}, {'n', "they are flat", wellVerdict}}},
}
