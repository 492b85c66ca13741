package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"tubside/model"
)

// act is one thing that can be entered: its word in the shell, what it takes,
// and how a fact is made of that. The whole of `enter` is a list of them, see
// [acts].
type act struct {
	word  string // "signs"
	takes string // "PLANTS... CURL TIPS SHIFT", as help writes it
	short string // one line of help
	long  string // help in full; empty where the one line says it all
	words arity  // how many words it takes
	flags []flag
	only  []string // flags of which one alone may be given

	examples [2]string // without "tubside enter"

	// fact reads what was said, before there is a book to ask.
	fact func(in *said) (model.Fact, error)
	// on finishes the fact on the book as it stands and names its plants. Without
	// it the plants are those that the words name.
	on func(in *said, b *model.Book, f model.Fact) (model.IDs, error)
}

// arity is how many words an act takes, and what it says when they are others.
type arity struct {
	low, high int
	want      string
}

// The words that most acts take.
var (
	plantsNamed = arity{1, many, plantsWanted}
	noWords     = arity{0, 0, "it takes flags only"}
	vesselNamed = arity{1, many, "name the vessel"}
)

// says is an act whose words name plants and which says the same of each.
func says(word, short string, fact model.Fact, examples ...string) act {
	return act{
		word: word, takes: "PLANTS...", short: short, words: plantsNamed, examples: [2]string(examples),
		fact: func(*said) (model.Fact, error) { return fact, nil },
	}
}

// flag is one flag of an act.
type flag struct {
	name string
	add  func(f *pflag.FlagSet, name string)
}

// text is a flag that takes words. A word of the usage in backquotes names what
// it takes.
func text(name, usage string) flag {
	return flag{name, func(f *pflag.FlagSet, name string) { f.String(name, "", usage) }}
}

// yes is a flag that is given or not.
func yes(name, usage string) flag {
	return flag{name, func(f *pflag.FlagSet, name string) { f.Bool(name, false, usage) }}
}

// number is a flag that takes a whole number.
func number(name string, usual int, usage string) flag {
	return flag{name, func(f *pflag.FlagSet, name string) { f.Int(name, usual, usage) }}
}

// list is a flag that takes words with commas between, or is given several times.
func list(name, usage string) flag {
	return flag{name, func(f *pflag.FlagSet, name string) { f.StringSlice(name, nil, usage) }}
}

// amount is a flag that takes a number with or without its unit, see [quantity].
func amount(name, usage string, units ...string) flag {
	return flag{name, func(f *pflag.FlagSet, name string) { f.Var(&quantity{units: units}, name, usage) }}
}

// said is what a person typed for one act.
type said struct {
	act   *act
	words []string // without the act's own word; fact may take some off, and what is left names plants
	flags *pflag.FlagSet
	now   time.Time // when it is said, in the grower's zone
	past  bool      // that time was given with it: it is over, whatever there is to say about it
}

// text is what a flag of words says.
func (in *said) text(name string) string { return sure(in.flags.GetString(name)) }

// yes reports whether a flag was given.
func (in *said) yes(name string) bool { return sure(in.flags.GetBool(name)) }

// number is what a flag of a whole number says.
func (in *said) number(name string) int { return sure(in.flags.GetInt(name)) }

// list is what a flag of several words says.
func (in *said) list(name string) []string { return sure(in.flags.GetStringSlice(name)) }

// amount is what a flag of a number says, in its first unit; 0 where it is not given.
func (in *said) amount(name string) float64 { return in.flags.Lookup(name).Value.(*quantity).value }

// given reports whether a flag was given at all.
func (in *said) given(name string) bool { return in.flags.Changed(name) }

// name is the words as one name: a vessel or a shelf need no quotes.
func (in *said) name() string { return strings.Join(in.words, " ") }

// sure is a flag's value. The table names no flag that is not there and none as
// another kind than it is; every act's examples are run in a test.
func sure[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// read makes the fact of what was said, as far as it can be without the book.
// What it refuses is wrong usage.
func (a *act) read(in *said) (model.Fact, error) {
	if err := a.words.check("enter "+a.word, in.words); err != nil {
		return nil, err
	}
	if both := slices.DeleteFunc(slices.Clone(a.only), func(name string) bool { return !in.given(name) }); len(both) > 1 {
		return nil, fmt.Errorf("enter %s: give --%s or --%s, not both", a.word, both[0], both[1])
	}
	return a.fact(in)
}

// fact is what was said, as far as it can be told without the book.
func (in *said) fact() (model.Fact, error) {
	again := *in // what is read takes words off
	return again.act.read(&again)
}

// entry makes the entry of what was said on a book.
func (in *said) entry(b *model.Book) (model.Entry, error) {
	again := *in
	again.words = slices.Clone(in.words)
	f, err := again.act.read(&again)
	if err != nil {
		return model.Entry{}, err
	}
	settle := again.act.on
	if settle == nil {
		settle = plantsSaid
	}
	ids, err := settle(&again, b, f)
	if err != nil {
		return model.Entry{}, err
	}
	return model.NewEntry(in.now, f, ids...), nil
}

// plantsSaid is the plants that the words name.
func plantsSaid(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
	return in.plants(b, f)
}

// check says why words are not as many as they should be.
func (s arity) check(name string, words []string) error {
	switch {
	case len(words) < s.low:
		return fmt.Errorf("%s: %s", name, s.want)
	case s.high >= 0 && len(words) > s.high:
		return fmt.Errorf("%s: %q is one word too many: %s", name, words[s.high], s.want)
	}
	return nil
}
