package board

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// proposing reports whether the round asks whom to weigh: nobody is weighed yet.
func (s *roundScreen) proposing() bool {
	return s.kind() == advice.WeighRound && s.desk.book.Ten(s.desk.now) == nil
}

// propose is the ten that the program would weigh, without those that were passed over.
func (s *roundScreen) propose() section {
	s.proposed = map[model.ID]advice.Weighable{}
	var ids model.IDs
	for _, w := range advice.ChooseTen(s.desk.keeper, s.desk.now, s.passed...) {
		s.proposed[w.ID] = w
		ids = append(ids, w.ID)
	}
	return section{"Ten that tell most about all the others", s.desk.book.Walk(ids)}
}

// proposal says why a plant is among them, in so many cells.
func (s *roundScreen) proposal(id model.ID, room int) string {
	w, row := s.proposed[id], s.desk.book.Row(id)
	why := fmt.Sprintf("for %d like it, about %.0f g", w.Alike, w.Grams)
	if kind := fmt.Sprintf("%s: %s %s", why, row.Leaf, row.Form); show.Width(kind) <= room {
		return kind
	}
	return show.Fit(why, room)
}

// oneByOne is why a whole group cannot be weighed at once.
func (s *roundScreen) oneByOne() string {
	if s.kind() == advice.WeighRound {
		return "Plants are weighed one by one"
	}
	return ""
}

// notWeighing is why the keys of the scale do nothing.
func (s *roundScreen) notWeighing() string {
	switch {
	case s.kind() != advice.WeighRound:
		return "That is for the scale: . goes to it"
	case s.rows.current() == 0:
		return "Nobody to weigh"
	}
	return ""
}

func (s *roundScreen) notRunning() string {
	if s.kind() != advice.WeighRound || s.proposing() {
		return "Nobody is being weighed"
	}
	return ""
}

func (s *roundScreen) scaleKeys() []binding {
	weighs := func() bool { return s.kind() == advice.WeighRound }
	return []binding{
		bind("0-9", "the grams that the scale shows, then enter", func(key tea.KeyMsg) tea.Cmd {
			s.askGrams(s.rows.current(), key.String(), "")
			return nil
		}).unless(s.notRunning).foot("grams"),
		act("x", "another plant in the place of this one", s.swap).unless(s.notWeighing).footWhen("another", weighs),
		act("O", "weigh no more", func() { s.desk.enter(&model.Weighing{Over: true}) }).unless(s.notRunning),
		act("s", "what the scale has shown", func() { newScalePage(s) }).footWhen("shown", weighs),
	}
}

// onScale takes the ten that are proposed, or asks for the grams of a plant.
func (s *roundScreen) onScale() {
	if !s.proposing() {
		s.askGrams(s.rows.current(), "", "")
		return
	}
	var ids model.IDs
	for _, row := range s.rows.rows {
		if row.id != 0 {
			ids = append(ids, row.id)
		}
	}
	if s.desk.enter(&model.Weighing{}, ids...) {
		s.passed = nil
	}
}

// swap puts the next best plant in the place of the one under the cursor.
func (s *roundScreen) swap() {
	id := s.rows.current()
	if s.proposing() {
		s.passed = append(s.passed, id)
		s.build()
		return
	}
	ten := s.desk.book.Ten(s.desk.now).Plants
	chosen := advice.ChooseTen(s.desk.keeper, s.desk.now, append(s.passed, ten...)...)
	if len(chosen) == 0 {
		s.desk.say("No other plant would tell anything on the scale")
		return
	}
	others := slices.DeleteFunc(slices.Clone(ten), func(other model.ID) bool { return other == id })
	s.passed = append(s.passed, id)
	s.desk.enter(&model.Weighing{}, append(others, chosen[0].ID)...)
}

// askGrams asks what the scale shows of a plant; questioned is what was asked about the text already.
func (s *roundScreen) askGrams(id model.ID, text, questioned string) {
	row := s.desk.book.Row(id)
	wet, how := row.State.Away(), "as it hangs"
	switch {
	case row.State == model.Soaking:
		how = "out of the water"
	case wet:
		how = "full"
	}
	what := "grams"
	if !wet {
		what = "grams, and its curl after a blank"
	}
	ask := fmt.Sprintf("%s, %s%s, %s:", show.Title(row.Plant), how, questioned, what)
	p := newPrompt(s.desk, s, ask, text)
	p.cancel = func() { s.desk.say("Nothing written") }
	p.accept = func(text string) {
		weight, signs := text, model.NoSigns
		if at := len(text) - 2; !wet && at > 0 && text[at] == ' ' && '0' <= text[at+1] && text[at+1] <= '3' {
			weight, signs.Curl = text[:at], model.Grade(text[at+1]-'0')
		}
		grams, err := show.ParseQuantity(weight, "g")
		if err != nil {
			s.desk.complain(err)
			return
		}
		if why := row.Questionable(grams); why != "" && questioned == "" {
			s.askGrams(id, text, "; "+why+". Enter again if it is so")
			return
		}
		at := s.rows.cursor
		if signs != model.NoSigns && !s.desk.enter(&model.Look{Signs: signs}, id) {
			return
		}
		if s.desk.enter(&model.Weigh{Grams: grams, Wet: wet}, id) {
			s.build()
			s.rows.put(at)
		}
	}
	s.desk.push(p)
}

// scalePage is what the scale has shown, over the round. It is worked out beside the keys: it asks what would be
// believed had nothing been weighed.
type scalePage struct {
	reader
	page *advice.WeighedPage // nil while it is worked out
}

// scaleShown is the page worked out.
type scaleShown struct {
	of   *scalePage
	page advice.WeighedPage
}

func newScalePage(s *roundScreen) {
	p := &scalePage{reader: reader{desk: s.desk, behind: s}}
	s.desk.push(p)
	book, now := s.desk.book.Copy(), s.desk.now
	s.desk.later = append(s.desk.later, func() tea.Msg {
		return scaleShown{p, advice.WhatWeighingShowed(estimate.New(book), now)}
	})
}

func (p *scalePage) lead() string { return "" }

func (p *scalePage) groups() []group {
	return []group{{"What the scale has shown", append(p.text.keys(),
		act("l →", "next part", func() { p.part(1) }).foot("next part"),
		act("h ←", "part before", func() { p.part(-1) }),
		act("esc s", "back to the round", func() { p.desk.drop(p) }).foot("back"),
		remark("(on paper: tubside weighing --sheet)"))}}
}

func (p *scalePage) draw(pg *page, height int) {
	pg.line(p.desk.heading("What the scale has shown", ""))
	switch {
	case p.page == nil:
		pg.line("")
		pg.line("   working out what would be believed without it …")
		return
	case p.wide != p.desk.laid():
		p.fill(paper.WeighedSheet(p.desk.book, p.page))
	}
	p.reader.draw(pg, height-1)
}
