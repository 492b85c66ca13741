package command

import (
	"cmp"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"tubside/demo"
	"tubside/model"
	"tubside/model/soak"
	"tubside/store"
	"tubside/ui/show"
)

// offers lists what a word may be, of the book that is meant. A tab stands before
// what explains it.
type offers func(b *model.Book, begun string) []string

// completions makes a shell offer plants, shelves, vessels and other words where a
// command takes them.
func (r *run) completions(c *cobra.Command) {
	for _, sub := range c.Commands() {
		r.completions(sub)
	}
	for flag, list := range flagOffers {
		if f := c.Flags().Lookup(flag); f != nil && f.Value.Type() != "bool" {
			_ = c.RegisterFlagCompletionFunc(flag, r.offering(list)) // there is none yet
		}
	}
	if c.ValidArgsFunction == nil {
		c.ValidArgsFunction = r.offerWords
	}
}

// offerWords offers what the next of a command's own words may be: files where none
// of ours can be offered and it takes one.
func (r *run) offerWords(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	place := placeOf(c.Use, len(args))
	if list := wordOffers(c.Name(), place, len(args)); list != nil {
		return r.offering(list)(c, args, begun)
	}
	if strings.HasPrefix(place, "F") || place == "COPY" { // FILE, FOLDER
		return nil, cobra.ShellCompDirectiveDefault
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

// placeOf is what a command's word at a place is called where its use is told: "FILE"
// is the second of "sheet triage|check FILE [PLANTS...]". One with dots goes on.
func placeOf(use string, n int) string {
	_, takes, _ := strings.Cut(use, " ")
	fields := strings.Fields(takes)
	for i := 0; i < len(fields); i++ {
		switch word := strings.Trim(fields[i], "[]"); {
		case strings.HasPrefix(word, "--"):
			i++ // and what the flag takes
		case word == "|":
		case n == 0 || strings.HasSuffix(word, "..."):
			return strings.TrimSuffix(word, "...")
		default:
			n--
		}
	}
	return ""
}

// offering asks the book; where there is none, nothing of it is offered.
func (r *run) offering(list offers) func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return func(_ *cobra.Command, _ []string, begun string) (words []string, _ cobra.ShellCompDirective) {
		err := r.readEnv()
		if err == nil {
			err = r.look(func(s *store.Store) error {
				words = list(s.Book(), begun)
				return nil
			})
		}
		if err != nil {
			words = list(model.NewBook(r.now().Location()), begun)
		}
		words = slices.DeleteFunc(words, func(w string) bool { return !strings.HasPrefix(strings.ToLower(w), strings.ToLower(begun)) })
		return words, cobra.ShellCompDirectiveNoFileComp
	}
}

// fixed offers the same words whatever the book says.
func fixed[S ~string](words ...S) offers {
	return func(*model.Book, string) []string {
		all := make([]string, len(words))
		for i, w := range words {
			all[i] = string(w)
		}
		return all
	}
}

// flagOffers is what the flags of a name take, in every command.
var flagOffers = map[string]offers{
	"shelf":  shelfNames,
	"vessel": vesselNames,
	"scene": func(*model.Book, string) (words []string) {
		for _, s := range demo.Scenes {
			words = append(words, s.Name+"\t"+s.What)
		}
		return words
	},
	"band": func(*model.Book, string) (words []string) {
		for _, band := range soak.Bands {
			words = append(words, strings.ToLower(band.String()))
		}
		return words
	},
	"form":  fixed(model.Forms...),
	"leaf":  fixed(model.Leaves...),
	"water": fixed(strings.Split(sourceWords, ", ")...),
	"of":    fixed(strings.Split(sourceWords+", softened, sea", ", ")...),
	"fan":   fixed(model.FanOff, model.FanLow, model.FanOn, model.FanNear),
	"what":  fixed("scale", "mealybug", "mites", "burn", "cold", "sun"),
	"lost":  fixed("rot", "drought", "pests", "burn", "cold", "sun", "age", "unknown"),
	"by":    fixed(model.Feedings...),
	"order": fixed("urgency", "shelf", "band"),
	"paper": fixed("a4", "letter"),
	"dates": fixed("dmy", "mdy"),
	"kind": func(*model.Book, string) []string {
		words := make([]string, len(acts))
		for i, a := range acts {
			words[i] = a.word
		}
		return words
	},
}

// wordOffers is what a command's word may be, by the place it stands in; nil where
// nothing can be offered.
func wordOffers(command, place string, n int) offers {
	switch {
	case command == "rule" && n == 0:
		return func(*model.Book, string) (words []string) {
			for _, l := range model.LimitTable {
				words = append(words, l.Name+"\t"+l.What)
			}
			return words
		}
	case command == "bench" && n == 0:
		return func(b *model.Book, _ string) (words []string) {
			for _, bench := range b.Benches() {
				words = append(words, bench.Name)
			}
			return words
		}
	case place == "PLANTS", place == "PLANT", place == "MOTHER":
		return plantWords
	case place == "VESSEL", command == "vessel" && n == 0:
		return vesselNames
	case place == "SHELF", command == "shelf" && n == 0:
		return shelfNames
	case place == strings.ToLower(place) && strings.Contains(place, "|"):
		return fixed(strings.Split(place, "|")...)
	}
	return nil
}

func vesselNames(b *model.Book, _ string) (words []string) {
	for _, v := range b.Vessels() {
		words = append(words, show.Safe(v.Name))
	}
	return words
}

// shelfNames lists the shelves with plants, in walking order.
func shelfNames(b *model.Book, _ string) (words []string) {
	for _, id := range b.Walk(b.IDs()) {
		if row := b.Row(id); row.State != model.Gone && row.Home.Shelf != "" {
			words = append(words, show.Safe(row.Home.Shelf))
		}
	}
	return slices.Compact(words)
}

// plantWords are the ways to name plants: how they stand, their shelf or load,
// and, once a digit is typed, their number.
func plantWords(b *model.Book, begun string) (words []string) {
	if begun != "" && begun[0] >= '0' && begun[0] <= '9' {
		for _, id := range b.IDs() {
			if row := b.Row(id); row.State != model.Gone {
				words = append(words, fmt.Sprintf("%d\t%s, %s", id, row.Title(), show.Home(row.Home)))
			}
		}
		return words
	}
	words = model.Standings()
	for _, name := range shelfNames(b, "") {
		words = append(words, "shelf:"+name)
	}
	for _, l := range b.OpenLoads() {
		words = append(words, fmt.Sprintf("load:%d\t%s in %s", l.ID, show.Count(l.Left, "plant"), show.Safe(l.Vessel)))
	}
	return words
}

// man writes the pages of the manual.
func (r *run) man() *cobra.Command {
	return &cobra.Command{
		Use: "man FOLDER", Short: "write the pages of the manual, one a command, for man(1)", Hidden: true,
		Args: wants(1, 1, "name the folder to write them to"),
		RunE: func(c *cobra.Command, args []string) error {
			if err := os.MkdirAll(args[0], 0o755); err != nil {
				return err
			}
			day := r.now()
			root := c.Root()
			root.DisableAutoGenTag = true
			return doc.GenManTree(root, &doc.GenManHeader{
				Title: "TUBSIDE", Section: "1", Date: &day, Source: "tubside " + cmp.Or(root.Version, "devel"),
			}, args[0])
		},
	}
}
