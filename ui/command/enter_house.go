package command

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"tubside/model"
)

// houseActs is what the home has and how it is run, and the entry taken back.
var houseActs = []act{
	{
		word: "rule", takes: "NAME VALUE", words: arity{2, 2, "name the rule and its value"},
		short: "change a house rule",
		long: `Change a house rule. List them with: tubside rules
From where on plants are pulled when you look at them can be said for today only.`,
		examples: [2]string{"rule cap-bulbous 90", "rule pull-itself long --today"},
		flags:    []flag{yes("today", "only for today: pull-itself")},
		fact: func(in *said) (model.Fact, error) {
			l, err := model.FindLimit(in.words[0])
			if err != nil {
				return nil, err
			}
			value, err := model.ParseLimit(l, in.words[1])
			return &model.RuleSet{Name: model.LimitTable[l].Name, Value: value, Today: in.yes("today")}, err
		},
		on: noPlants,
	},
	{
		word: "vessel", takes: "NAME --litres N | --away", words: vesselNamed,
		short:    "a tub or bucket: how much room it has, what a fill of it serves, or that it is put away",
		examples: [2]string{`vessel "bucket 3" --litres 12`, `vessel "bucket 3" --fed`},
		flags: []flag{
			amount("litres", "room for plants when filled, in litres", "L", "l", "litres"),
			amount("refill", "minutes to empty, rinse and fill it; without it, by the house rules", "min", "minutes"),
			number("loads", 0, "`loads` that one fill serves; without it, the house rule"),
			amount("hours", "from a fill's first plant in to its last load; without it, the house rule", "h", "hours"),
			yes("fed", "it is for fed water only"),
			yes("plain", "it is not for fed water any more"),
			yes("away", "it is no longer used"),
		},
		only: []string{"fed", "plain"},
		fact: func(in *said) (model.Fact, error) {
			if !in.any() || in.given("litres") && in.yes("away") {
				return nil, errors.New("enter vessel: give --litres or --away")
			}
			return &model.VesselSet{Away: in.yes("away")}, nil
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			v, ok := b.Vessel(in.name())
			if !ok {
				v.Name = in.name()
			}
			in.amountOver("litres", &v.Litres)
			in.amountOver("refill", &v.Refill)
			in.amountOver("hours", &v.Hours)
			if in.number("loads") != 0 {
				v.Loads = in.number("loads")
			}
			v.Fed = (v.Fed || in.yes("fed")) && !in.yes("plain")
			f.(*model.VesselSet).Vessel = v
			return nil, nil
		},
	},
	{
		word: "bench", takes: "NAME --room 2.4 | --away", words: arity{1, many, "name the drying place"},
		short: "a drying place: how much room it has and what moves the air over it, or that it is put away",
		long: `A drying place: a rack, a tray, a table with towels. Its room is in square
metres to lay plants on, none on top of another. Its fan is off, low, on at 2 m
or near at 1 m; without one it has the room's. Keep a fan, its cord and its plug
where no water can reach them; follow your local electrical code.`,
		examples: [2]string{"bench rack --room 2.4 --fan on", `bench towels --room "1.5 m2" --factor 1.3`},
		flags: []flag{
			amount("room", "room to lay plants on, in m²", "m2", "m²"),
			text("fan", "`off`, low, on or near, where it has a fan of its own"),
			amount("factor", "how many times as long drying takes there; without it, by the fan", "times"),
			yes("away", "it is no longer used"),
		},
		fact: func(in *said) (model.Fact, error) {
			if !in.any() || in.given("room") && in.yes("away") {
				return nil, errors.New("enter bench: give --room or --away")
			}
			fan, err := readFan(in.text("fan"))
			return &model.BenchSet{Bench: model.Bench{Fan: fan}, Away: in.yes("away")}, err
		},
		on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
			set := f.(*model.BenchSet)
			o, ok := b.Bench(in.name())
			if !ok {
				o.Name = in.name()
			}
			in.amountOver("room", &o.Room)
			in.amountOver("factor", &o.Factor)
			if set.Fan != "" {
				o.Fan = set.Fan
			}
			set.Bench = o
			return nil, nil
		},
	},
	{
		word: "shelfday", takes: "SHELF DAY|none", words: arity{2, many, "name the shelf and its day"},
		short:    "the day of the week on which a shelf is soaked",
		examples: [2]string{"shelfday A sat", "shelfday A none"},
		fact: func(in *said) (model.Fact, error) {
			last := len(in.words) - 1
			var day model.Weekday
			var err error
			if word := in.words[last]; !strings.EqualFold(word, "none") {
				day, err = model.ParseWeekday(word)
			}
			return &model.ShelfDays{Days: map[string]model.Weekday{strings.Join(in.words[:last], " "): day}}, err
		},
		on: noPlants,
	},
	{
		word: "strike", takes: "[N]", words: arity{0, 1, "give one entry's number, or none for the last"},
		short: "undo an entry: the last one, or number N",
		long: `Undo an entry: the last one, or number N (see: tubside book --entries). An entry
that was undone stays in the book and stops counting. --back does the last one
again.`,
		examples: [2]string{"strike", "strike 118"},
		flags:    []flag{yes("back", "do again the entry undone last")},
		fact: func(in *said) (model.Fact, error) {
			if in.yes("back") && len(in.words) > 0 {
				return nil, errors.New("enter strike: --back does again the entry undone last, and takes no number")
			}
			seq, err := readSeq(in.words)
			return &model.Strike{Seq: seq}, err
		},
		on: func(in *said, b *model.Book, f model.Fact) (_ model.IDs, err error) {
			strike := f.(*model.Strike)
			strike.Seq, err = toStrike(b, strike.Seq, in.yes("back"))
			return nil, err
		},
	},
}

// any reports whether a flag of the act's own was given.
func (in *said) any() bool {
	for _, f := range in.act.flags {
		if in.given(f.name) {
			return true
		}
	}
	return false
}

// amountOver puts an amount in the place of what is there, if it was given.
func (in *said) amountOver(name string, v *float64) {
	if in.given(name) {
		*v = in.amount(name)
	}
}

// readSeq reads an entry's number; none is 0.
func readSeq(args []string) (model.Seq, error) {
	if len(args) == 0 {
		return 0, nil
	}
	n, err := strconv.ParseUint(args[0], 10, 63)
	if err != nil || n == 0 {
		return 0, &model.Problem{
			What: fmt.Sprintf("%q is not the number of an entry", args[0]),
			Do:   "list them with: tubside book --entries",
		}
	}
	return model.Seq(n), nil
}

// toStrike finds the entry to strike: the one named, the last that counts, or
// the last strike.
func toStrike(b *model.Book, seq model.Seq, back bool) (model.Seq, error) {
	if seq != 0 {
		return seq, nil
	}
	last, what := b.LastToStrike, "no entry is left to strike"
	if back {
		last, what = b.LastStrike, "the last entry is not a strike, so there is nothing to bring back"
	}
	e, ok := last()
	if !ok {
		return 0, &model.Problem{What: what, Do: "list the entries with: tubside book --entries"}
	}
	return e.Seq, nil
}
