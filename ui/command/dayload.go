package command

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
)

// plants is the plants that the words name for a fact. While a plan is agreed, load:3 is the
// load that sheet and board name so: of it those that the fact may be said of. One that is
// left for another day is nobody; numbers that no load of the day has had are the book's.
func (in *said) plants(b *model.Book, f model.Fact) (model.IDs, error) {
	words, soaked := make([]string, 0, len(in.words)), false
	for _, word := range in.words {
		n := loadNumber(word)
		if n == 0 || b.AgreedPlan(in.now) == nil {
			words = append(words, word)
			continue
		}
		p, err := day.Current(context.Background(), estimate.New(b), in.now)
		var ids model.IDs
		if err == nil {
			ids = p.Numbered(n)
		}
		switch {
		case len(ids) == 0 && n <= b.AgreedPlan(in.now).LastNumber():
			return nil, &model.Problem{What: fmt.Sprintf("load %d of the day is left for another day", n),
				Do: "see what is to do now: tubside plan"}
		case len(ids) == 0:
			words = append(words, word)
			continue
		}
		may := func(id model.ID) bool {
			_, pulls := f.(*model.Pull)
			return b.Row(id).State == before(f) && !(pulls && slices.Contains(b.Waiting(), id))
		}
		if some := slices.DeleteFunc(slices.Clone(ids), func(id model.ID) bool { return !may(id) }); len(some) > 0 {
			ids = some
		}
		for _, id := range ids {
			words = append(words, id.String())
		}
		soaked = true
	}
	ids, err := b.Choose(words...)
	if err != nil && soaked {
		return nil, fmt.Errorf("of the day's loads: %w", err)
	}
	return ids, err
}

// asPlanned is how long plants soak in a vessel by the day's plan, if they are of one of its
// loads there.
func (in *said) asPlanned(b *model.Book, vessel string, ids model.IDs) (time.Duration, bool) {
	if b.AgreedPlan(in.now) == nil || len(ids) == 0 {
		return 0, false
	}
	p, err := day.Current(context.Background(), estimate.New(b), in.now)
	if err != nil {
		return 0, false
	}
	n, _, ok := p.Placed(ids[0])
	if !ok || !p.Loads[n].ToCome() || p.Loads[n].Vessel != vessel {
		return 0, false
	}
	l := &p.Loads[n]
	others := slices.ContainsFunc(ids, func(id model.ID) bool { return !slices.Contains(l.IDs(), id) })
	return l.Out.Sub(l.Start), !others
}

// loadNumber is the number in load:3; 0 for another word.
func loadNumber(word string) int {
	key, value, _ := strings.Cut(word, ":")
	if n, err := strconv.Atoi(value); err == nil && strings.EqualFold(key, "load") {
		return max(0, n)
	}
	return 0
}

// before is how a plant stands of which a fact of the soak day may be said.
func before(f model.Fact) model.State {
	switch f.(type) {
	case *model.Out:
		return model.Soaking
	case *model.Damp, *model.FoundDry, *model.Laid:
		return model.Drying
	case *model.Hung:
		return model.Dry
	}
	return model.AtHome
}

// dayLoad says which load of the day's plan one is that went into the water, or was pulled
// but for those that stood there already; "" for none.
func (r *run) dayLoad(e model.Entry, b *model.Book) string {
	_, into := e.Fact.(*model.Soak)
	_, pulled := e.Fact.(*model.Pull)
	if !into && !pulled || b.AgreedPlan(r.now()) == nil || len(e.Plants) == 0 {
		return ""
	}
	p, err := day.Current(context.Background(), r.beliefs.Keeper(b), r.now())
	if err != nil {
		return ""
	}
	n, _, ok := p.Placed(e.Plants[0])
	if !ok {
		return ""
	}
	l := &p.Loads[n]
	words, stood := fmt.Sprintf("; load %d of the day", l.Number), 0
	for _, id := range l.IDs() {
		if pulled && slices.Contains(b.Waiting(), id) && !slices.Contains(e.Plants, id) {
			stood++
		}
	}
	if stood > 0 {
		words += fmt.Sprintf(", of which %d stood by the water already", stood)
	}
	return words
}
