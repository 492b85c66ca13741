package trade_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/model/species"
	"tubside/store/table"
)

// How long, when sources and growers differ: common practice, no source. At 21 °C and 40 %, full after the last soak.
// The table is what growers would give; what a plant is given must lie in it.

// cell is one field of the table, minutes: the least soak lies from Least[0] to Least[1], and the most is Most. A
// zero Most is no soak: one of the bands of Dry. Dry beside a Most is that no soak will do too.
type cell struct {
	Least [2]float64
	Most  float64
	Dry   []soak.Band
	Again bool     // and again a day apart
	Says  []string // what it is told besides
}

var (
	rest       = cell{Dry: []soak.Band{soak.Rest}}
	mist       = cell{Dry: []soak.Band{soak.Mist}}
	restOrMist = cell{Dry: []soak.Band{soak.Rest, soak.Mist}}
)

func from(least, upTo, most float64) cell { return cell{Least: [2]float64{least, upTo}, Most: most} }

func (c cell) orDry() cell              { c.Dry = restOrMist.Dry; return c }
func (c cell) says(what ...string) cell { c.Says = append(slices.Clone(c.Says), what...); return c }

// twice is the same, and once more a day later.
func (c cell) twice() cell { c.Again = true; return c.says("again tomorrow, just as long") }

// overnight is a soak of the night; or two by day, a day apart, which the grower may choose instead.
var overnight = from(480, 720, 720).says("two long soaks a day apart")

// columns of the table. Many brown new tips stand for a deep channel.
const (
	threeDays = iota
	week
	fortnight
	lifting
	channel
	tips
	rolled
)

var columnWords = [...]string{"3 days", "7 days", "13 days", "edges lifting", "deep channel", "many brown new tips", "rolled shut"}

// upToNight is by day, and may be left in overnight.
func upToNight(least float64) cell { return from(least, 475, 720) }

// A least that is not said in the table is bound by its most: three quarters of it, so that a load has room.
var howLong = func() map[string][7]cell {
	deep := func(c cell) [2]cell { return [2]cell{c, c} }
	row := func(three, week, fortnight, lifting cell, deep [2]cell, rolled cell) [7]cell {
		return [7]cell{three, week, fortnight, lifting, deep[0], deep[1], rolled}
	}
	dip, strand, cup := from(5, 7.5, 10), from(45, 45, 60), from(15, 15, 20)
	return map[string][7]cell{
		"mesic": row(restOrMist, from(20, 60, 180), from(45, 120, 240), from(120, 180, 240), deep(upToNight(180)), overnight),
		"intermediate": row(restOrMist, from(15, 45, 180), from(30, 90, 180), from(90, 180, 240), deep(from(150, 180, 240)),
			overnight),
		"wispy": row(restOrMist, from(30, 90, 240), from(60, 180, 240), from(120, 180, 240), deep(upToNight(180)), overnight),
		"xeric": row(rest, from(1, 20, 60).orDry(), from(10, 30, 60), from(30, 30, 60), deep(from(45, 45, 60)),
			from(45, 45, 60).twice()),
		"bulbous": row(rest, from(10, 20, 30), from(15, 22, 30), from(30, 30, 90), deep(from(60, 60, 90).says("shake hard")),
			from(60, 60, 90).twice()),
		"fuzzy":   row(rest, mist, dip, dip, deep(dip.twice()), dip.twice().says("may not recover")),
		"pendent": row(restOrMist, from(20, 45, 60), from(20, 45, 60), strand, deep(strand.twice()), strand.twice()),
		"tank": row(restOrMist, from(5, 15, 20), cup, cup, deep(cup.says("fill the cup daily")),
			cup.says("fill the cup daily")),
	}
}()

// rowOf is the row of the table that a listed plant goes by: form before leaf, but xeric wispy plants go with the
// xeric.
func rowOf(e species.Entry) string {
	switch e.Form {
	case model.Bulbous, model.Fuzzy, model.Tank, model.Pendent:
		return string(e.Form)
	case model.Wispy:
		if e.Leaf != model.Xeric {
			return string(e.Form)
		}
	}
	return string(e.Leaf)
}

// outside names the fields in which a listed plant is given something else, and why.
var outside = map[string]string{
	"T. capillaris, 13 days":                  smaller,
	"T. bandensis, edges lifting on day 13":   smaller,
	"T. mallemontii, edges lifting on day 13": smaller,
	"T. capillaris, edges lifting on day 13":  smaller,
	"T. rothii, 7 days":                       larger,
	"T. polystachia, 7 days":                  larger,
	"T. elongata, 7 days":                     larger,
	"T. fasciculata, 7 days":                  larger,
}

const (
	smaller = "6 to 8 cm: it loses water faster than the medium plant of the table"
	larger  = "32 to 45 cm: it loses water more slowly than the medium plant of the table"
)

// looks are what is seen, by column; the first three see nothing.
var looks = map[int]model.Signs{
	lifting: {Curl: 1, Tips: 0, Shift: model.NotSeen},
	channel: {Curl: 2, Tips: 0, Shift: model.NotSeen},
	tips:    {Curl: 0, Tips: 2, Shift: model.NotSeen},
	rolled:  {Curl: 3, Tips: 0, Shift: model.NotSeen},
}

// imported is a book made from a spreadsheet with names and last soaks alone.
func imported(t *testing.T, names []string, daysAgo int, rh float64) *collection {
	t.Helper()
	c := &collection{t, model.NewBook(time.UTC)}
	c.enter(today.AddDate(0, 0, -daysAgo-1), &model.Reading{TempC: 21, RH: rh})
	c.enter(today, &model.Reading{TempC: 21, RH: rh})
	var sheet strings.Builder
	sheet.WriteString("name,last soak\n")
	for _, name := range names {
		fmt.Fprintf(&sheet, "\"%s\",%s\n", name, today.AddDate(0, 0, -daysAgo).Format(time.DateOnly))
	}
	c.importSheet(sheet.String())
	return c
}

// importSheet brings in a spreadsheet today.
func (c *collection) importSheet(text string) {
	c.t.Helper()
	c.importAt(today, text)
}

func (c *collection) importAt(at time.Time, text string) {
	c.t.Helper()
	sheet, err := table.Read(strings.NewReader(text), table.ReadOptions{})
	if err != nil {
		c.t.Fatal(err)
	}
	fact, _, err := table.Plan(c.book, sheet, at)
	if err != nil {
		c.t.Fatal(err)
	}
	c.enter(at, fact)
}

func listed() (names []string) {
	for _, e := range species.All() {
		names = append(names, e.Name)
	}
	return names
}

// Every plant of the list by its name, through import and triage: three, seven and thirteen days after a soak with
// nothing seen, and with each sign seen at each of those.
func TestEverySpeciesIsGivenWhatGrowersGive(t *testing.T) {
	fields, inside := 0, 0
	for column, word := range columnWords {
		for _, days := range []int{3, 7, 13} {
			if column <= fortnight && days != []int{3, 7, 13}[column] {
				continue
			}
			c := imported(t, listed(), days, 40)
			ids := c.book.IDs()
			if signs, look := looks[column]; look {
				c.enter(today, &model.Look{Signs: signs}, ids...)
			}
			keeper := estimate.New(c.book)
			for i, e := range species.All() {
				n, _ := advice.NeedOf(keeper, ids[i], today)
				field := fmt.Sprintf("%s, %s", e.Name, word)
				if column > fortnight {
					field += fmt.Sprintf(" on day %d", days)
				}
				fields++
				wrong := howLong[rowOf(e)][column].wrong(c, n)
				switch {
				case wrong == "" && outside[field] != "":
					t.Errorf("%s is inside: take it off the list of those that are not", field)
				case wrong == "":
					inside++
				case outside[field] == "":
					t.Errorf("%s (%s, %.0f cm): %s; %.0f %% gone", field, rowOf(e), e.SizeCM, wrong, 100*n.Thirst())
				}
			}
		}
	}
	t.Logf("%d of %d fields inside, %.1f %%", inside, fields, 100*float64(inside)/float64(fields))
	if float64(inside) < 0.9*float64(fields) {
		t.Error("less than 90 % inside")
	}
}

// wrong says what of a need is not as in the field.
func (w cell) wrong(c *collection, n advice.Need) string {
	given := fmt.Sprintf("%v %.0f to %.0f min, again %t", n.Band, n.From, n.To, n.Again)
	switch {
	case !n.Band.InWater() && slices.Contains(w.Dry, n.Band):
		return ""
	case w.Most == 0:
		return fmt.Sprintf("%s, want %v", given, w.Dry)
	case !n.Band.InWater():
		return given + ", want a soak"
	case n.From < w.Least[0] || n.From > w.Least[1]:
		return fmt.Sprintf("%s, want at least %.0f to %.0f", given, w.Least[0], w.Least[1])
	case n.To != w.Most || n.Again != w.Again:
		return fmt.Sprintf("%s, want at most %.0f, again %t", given, w.Most, w.Again)
	}
	for _, what := range w.Says {
		if !c.says(n, what) {
			return fmt.Sprintf("%s, and does not say %q", given, what)
		}
	}
	return ""
}

// A week and a half leaves a band of every length but the night's, in one collection.
func TestTheBandFollowsTheLeast(t *testing.T) {
	rules := model.DefaultRules()
	for least, want := range map[float64]soak.Band{
		0: soak.Rest, 5: soak.Dip, 20: soak.Dip, 25: soak.Short, 60: soak.Short, 65: soak.Long, 180: soak.Long,
		185: soak.Deep, 475: soak.Deep,
		480: soak.Overnight,
	} {
		if got := advice.BandOf(least, rules); got != want {
			t.Errorf("%.0f min is %v, want %v", least, got, want)
		}
	}
}

// A look that finds nothing does not give a plant more water than it had without one:
// flat leaves do not tell when it was last soaked. Common practice, no source.
func TestLookingFineNeverLengthensASoak(t *testing.T) {
	for _, form := range model.Forms {
		for _, leaf := range model.Leaves {
			c := newCollection(t)
			id := c.book.NextID()
			c.enter(today.AddDate(0, 0, -1), &model.Add{Plants: []model.Plant{{ID: id, Form: form, Leaf: leaf, Size: 15, Count: 1}}})
			before := c.need(id)
			c.enter(today, &model.Look{Signs: model.LooksFine}, id)
			if after := c.need(id); after.To > before.To || after.From > before.From {
				t.Errorf("%s, %s: %g to %g min unseen, %g to %g min once it looks fine", form, leaf, before.From, before.To, after.From, after.To)
			}
		}
	}
}
