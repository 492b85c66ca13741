package show

import (
	"tubside/model"
)

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
		What: "bacterial rot", Fact: &model.Rot{},
		Mark: "A. R. Chase, plant pathologist: destroy, do not splash; bactericides do not help bromeliads",
		Do: []string{"bag it and throw it out, do not splash", "disinfect vessel, tools and hands",
			"enter it as lost to rot"},
	}
	sunVerdict = &Verdict{
		What: "sunburn", Fact: &model.Trouble{What: model.Sun}, Mark: commonPractice,
		Do: []string{"out of the direct sun; the patch stays", "back into light over two weeks"},
	}
	coldVerdict = &Verdict{
		What: "cold", Fact: &model.Trouble{What: model.Cold}, Mark: commonPractice,
		Do: []string{"away from the window, dry, at room warmth",
			"no soak until the patches have dried; look for rot in 3 days"},
	}
	burnVerdict = &Verdict{
		What: "salt or feed burn", Fact: &model.Trouble{What: model.Burn}, Mark: commonPractice,
		Do: []string{"two soaks in plain rain or low-mineral water", "skip two feeds",
			"measure the water's conductivity"},
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
		{'n', "all round, or none", nil}, {'s', "bleached or tan, on the side to the light", sunVerdict},
		{'c', "dull or glassy, on the side to a cold pane", coldVerdict}}},
	{"Are others of the same bath brown at the new tips?", "look at its load", []Answer{
		{'n', "no", nil}, {'y', "yes, several", burnVerdict}}},
	{"What does the lens show?", "leaf axils and undersides; tap over white paper", []Answer{
		{'n', "nothing", nil}, {'s', "discs that scrape off: scale", pest(model.Scale)},
		{'m', "white cotton: mealybug", pest(model.Mealybug)}, {'w', "fine speckle or web: mites", pest(model.Mites)}}},
	{"Do its leaves roll, though it was soaked a day or two ago, for the second time?", "compare with the last look",
		[]Answer{
			{'y', "yes, twice in a row", notThirstVerdict}, {'r', "they roll, but this is the first time", thirstVerdict},
			{'n', "they are flat", wellVerdict}}},
}

// Treatment is what growers do about a trouble.
type Treatment struct {
	What   model.Ailment
	Steps  []string
	Origin string // where the advice comes from
}

// PesticideCaution stands wherever a treatment with a product is shown. The
// label part is that of the US EPA; the rest is common practice.
const PesticideCaution = "Only products labelled for indoor use on houseplants, and only as the label says (US EPA): it and local law come first. " +
	"Keep them in their own container, out of reach of children and pets; gloves, an open window; never mix products. " +
	"Alcohol burns: away from flames and motors. No copper on these plants."

// DisinfectCaution stands where a vessel is to be disinfected: 10 % household
// bleach for 10 minutes, used within 2 hours (Iowa State Univ. Extension); the
// rest is common practice.
const DisinfectCaution = "Wash off the dirt, then 1 part of household bleach to 9 of water for 10 minutes, mixed within 2 hours (Iowa State Univ. Extension); rinse well. " +
	"Never mix bleach with ammonia or acids; open a window, wear gloves; none of it on the plants."

const extensionStyle = "common practice, in the manner of extension advice"

// Treatments tells of every trouble, in the order of [model.Ailments].
var Treatments = []Treatment{
	{model.Scale, []string{"apart from the others, own water",
		"lift the discs with a nail or a swab of 70 % alcohol, test one plant first, rinse",
		"count live ones: dead ones stay on", "again in a week: it is the young that move which can be hit; oils and soaps clog the leaf, a last resort"},
		"Mizell 1998, UF/IFAS, Management of scale insect pests of bromeliads; the swab is common practice"},
	{model.Mealybug, []string{"apart from the others, own water",
		"dab the cotton with 70 % alcohol on a swab, test one plant first, rinse",
		"look at neighbours and for ants", "again in a week"}, extensionStyle},
	{model.Mites, []string{"apart from the others, own water", "rinse hard under the tap, dry well; damper air",
		"tap over white paper again in a week"}, extensionStyle},
	{model.Burn, burnVerdict.Do, commonPractice},
	{model.Cold, coldVerdict.Do, commonPractice},
	{model.Sun, sunVerdict.Do, commonPractice},
}

// TreatmentOf is what growers do about a trouble.
func TreatmentOf(what model.Ailment) Treatment {
	for _, t := range Treatments {
		if t.What == what {
			return t
		}
	}
	return Treatment{What: what}
}
