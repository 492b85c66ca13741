package care

import "tubside/model"

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
	{model.Scale, []string{"apart from the others, own water", "lift the discs with a nail or a swab of 70 % alcohol, test one plant first, rinse",
		"count live ones: dead ones stay on", "again in a week: it is the young that move which can be hit; oils and soaps clog the leaf, a last resort"},
		"Mizell 1998, UF/IFAS, Management of scale insect pests of bromeliads; the swab is common practice"},
	{model.Mealybug, []string{"apart from the others, own water", "dab the cotton with 70 % alcohol on a swab, test one plant first, rinse",
		"look at neighbours and for ants", "again in a week"}, extensionStyle},
	{model.Mites, []string{"apart from the others, own water", "rinse hard under the tap, dry well; damper air", "tap over white paper again in a week"}, extensionStyle},
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
