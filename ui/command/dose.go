package command

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/feed"
	"tubside/ui/show"
)

// doseAnswer is the powder for one bath.
type doseAnswer struct {
	Grams         float64  `json:"grams"`
	GramsPerLitre float64  `json:"grams_per_litre"`
	Litres        float64  `json:"litres"`
	PPM           float64  `json:"ppm_n"`
	Teaspoons     *float64 `json:"teaspoons"` // null where no spoon was weighed
	Strength      string   `json:"strength"`
	Warning       string   `json:"warning"` // empty: none
	Caution       string   `json:"caution"`
}

// doseQuestion is the powder and the bath as given.
type doseQuestion struct {
	ppm, n, spoon, label, part quantity
	volume                     volume
	strong                     bool
}

// dose works out the powder for fed water.
func (r *run) dose() *cobra.Command {
	q := doseQuestion{ppm: of(0, "", "ppm"), n: of(0, "", "%"), spoon: of(0, "", "g"), label: of(0, "", "g/L", "g/l"),
		part: of(0, "", "")}
	c := &cobra.Command{
		Use:   "dose --ppm 50 --n 20 --volume \"20 L\"",
		Short: "how much powder for how much water",
		Long: `How much powder for how much water, by nitrogen: ppm is mg to the litre, n the
first of the three numbers on the label. Or by the label: --label 2 --part 0.25.
--spoon is what one level teaspoon of this powder weighs, on a scale.

` + wrapped("Feed", feedCaution),
		Example: "  tubside dose --ppm 50 --n 20 --volume \"20 L\"\n  tubside dose --ppm 50 --n 13 --volume \"5 gal\" --spoon 6.1",
		Args:    nothing,
		RunE: func(*cobra.Command, []string) error {
			if !q.volume.given || q.ppm.given == q.label.given || q.ppm.given && !q.n.given {
				return misread(errors.New("dose: give --volume, and --ppm with --n or --label with --part"))
			}
			d, err := q.work()
			if err != nil {
				return misread(err)
			}
			return r.peek(func(b *model.Book) error { return r.sayDose(d, b.Rules(), q) })
		},
	}
	flags := c.Flags()
	flags.Var(&q.ppm, "ppm", "strength in ppm (mg/L) of nitrogen")
	flags.Var(&q.n, "n", "nitrogen in the powder in %")
	flags.Var(&q.volume, "volume", "the bath: 20 L, 500 mL, 5 gal (US)")
	flags.Var(&q.spoon, "spoon", "what one level teaspoon of this powder weighs, in g")
	flags.Var(&q.label, "label", "the label's rate in g to the litre")
	flags.Var(&q.part, "part", "the part of the label's rate: 0.25 is a quarter")
	flags.BoolVar(&q.strong, "strong", false, "stronger than the house rule allows, on purpose")
	return c
}

func (q *doseQuestion) work() (feed.Dose, error) {
	powder := feed.Powder{N: q.n.value, TeaspoonG: q.spoon.value}
	if q.label.given {
		part := q.part.value
		if !q.part.given {
			part = 1
		}
		return powder.AtLabel(q.label.value, part, q.volume.litres)
	}
	return powder.Dose(q.ppm.value, q.volume.litres)
}

// sayDose judges the strength by the house rules, and refuses what is over them.
func (r *run) sayDose(d feed.Dose, rules model.Rules, q doseQuestion) error {
	limits := feed.UsualLimits
	limits.Warn, limits.Refuse = rules[model.FeedWarn], rules[model.FeedRefuse]
	limits.To = min(limits.To, limits.Warn)
	limits.From = min(limits.From, limits.To)
	strength, err := limits.Check(d.PPM, q.strong)
	if err != nil {
		return &model.Problem{What: err.Error(), Do: "or say that it is meant so: --strong"}
	}
	a := doseAnswer{Grams: round(d.Grams, 3), GramsPerLitre: round(d.GramsPerLitre(), 4), Litres: round(d.Litres, 3),
		PPM: round(d.PPM, 1), Strength: strength.String(), Caution: feedCaution}
	if q.n.value == 0 {
		a.Strength = "by its label" // without the nitrogen nobody can judge
	}
	if strength.Warns() {
		a.Warning = "over the house rule for leaves: thin it"
	}
	if d.Teaspoons > 0 {
		spoons := round(d.Teaspoons, 2)
		a.Teaspoons = &spoons
	}
	if r.json {
		return r.inJSON(a)
	}
	return r.tellDose(a)
}

func (r *run) tellDose(a doseAnswer) error {
	text := show.Grams(a.Grams) + " of powder in " + show.Litres(a.Litres)
	if a.Teaspoons != nil {
		text += ", " + show.Spoons(*a.Teaspoons) + " as weighed"
	}
	lines := []string{text + "\n"}
	if a.PPM > 0 {
		lines = append(lines, r.headed("Strength", show.PPM(a.PPM)+" nitrogen, "+a.Strength))
	} else {
		lines = append(lines, r.headed("Strength", a.Strength))
	}
	if a.Warning != "" {
		lines = append(lines, r.headed("Warning", a.Warning))
	}
	return r.print(strings.Join(append(lines, r.headed("Caution", a.Caution)), ""))
}

// volume is an amount of water given as 20 L, 500 mL or 5 gal.
type volume struct {
	litres float64
	text   string
	given  bool
}

// Set implements pflag.Value.
func (v *volume) Set(text string) (err error) {
	v.litres, err = show.ParseVolume(text, false)
	v.text, v.given = text, true
	return err
}

// String implements pflag.Value.
func (v *volume) String() string { return v.text }

// Type implements pflag.Value.
func (*volume) Type() string { return "L" }
