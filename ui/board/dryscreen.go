package board

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// dryScreen is what is out of the water: how far it is, what holds it up, and
// where it hangs when it is dry.
type dryScreen struct {
	desk     *desk
	rows     *list
	groupsOf []dryGroup // what each heading says
	built    int
	last     time.Time // when the last should be dry
	into     int       // plants that may be wet into the night
	help     string    // what would help most of those past the house rule
	ahead    *estimate.Ahead
	looked   time.Time // when ahead was worked out
	chart    []string  // the room's humidity
	charted  chartWhen
	side     beside
	named    naming
	clock    int // how wide the times are
}

// dryGroup is what the heading of a group says: how many plants are under it and, of
// those that are dry later, by when most are likely to be.
type dryGroup struct {
	plants int
	likely time.Time
}

func newDrying(d *desk) *dryScreen {
	rows := newList()
	rows.bar = func(line string) string { return d.barredIn(line, d.listWidth()) }
	return &dryScreen{desk: d, rows: rows, built: -1, side: beside{desk: d, rows: rows}}
}

func (s *dryScreen) name() string   { return "Drying" }
func (s *dryScreen) letter() string { return "d" }

func (s *dryScreen) badge() string {
	switch n := s.desk.tally.Drying + s.desk.tally.Dry; {
	case n == 0:
		return ""
	case s.desk.likely > 0:
		return fmt.Sprintf("%d, %d to check", n, s.desk.likely)
	default:
		return fmt.Sprint(n)
	}
}

func (s *dryScreen) list() *list { return s.rows }

func (s *dryScreen) open() { s.build() }

func (s *dryScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
	s.lookAhead()
	s.rows.resize(s.desk.body() - 1 - len(s.rackLines()))
	s.side.ask()
}

// lookAhead works out the hours to come, after an entry and once a minute.
func (s *dryScreen) lookAhead() {
	if s.ahead != nil && s.looked.Equal(s.desk.outlook.At) {
		return
	}
	s.looked, s.ahead = s.desk.outlook.At, nil
	if a, ok := s.desk.keeper.Ahead(s.desk.now); ok {
		s.ahead = &a
	}
}

// build lists what is ready to check, what is out longer than the house rule lets a plant
// stay wet, what is dry and waits to be hung, in walking order, then what will be dry
// later: each by the places where they lie, and by risk.
func (s *dryScreen) build() {
	s.built, s.last, s.into, s.ahead = s.desk.version, time.Time{}, 0, nil
	by := s.desk.book.Rules().DryBy(s.desk.now.In(s.desk.book.Zone()))
	var long, ready, dry, later model.IDs
	for i := range s.desk.outlook.Drying {
		d := &s.desk.outlook.Drying[i]
		drying := s.desk.book.Row(d.ID).State == model.Drying
		if drying && d.High.After(s.last) {
			s.last = d.High
		}
		if drying && d.High.After(by) {
			s.into++
		}
		switch {
		case !drying:
			dry = append(dry, d.ID)
		case s.desk.toCheck(d):
			ready = append(ready, d.ID)
		case s.past(d):
			long = append(long, d.ID)
		default:
			later = append(later, d.ID)
		}
	}
	slices.SortFunc(long, s.riskier)
	slices.SortFunc(ready, s.riskier)
	slices.SortStableFunc(later, s.riskierLater)
	var sections []section
	s.groupsOf = s.groupsOf[:0]
	for _, kind := range []struct {
		before, after string
		ids           model.IDs
	}{
		{"Ready to check", ", hearts first", ready},
		{"Out too long", ", and not likely dry: help them", long},
		{"Dry", ": hang these back", s.desk.book.Walk(dry)},
		{laterWord, ", hearts first", later},
	} {
		for _, g := range s.byPlace(kind.ids) {
			sections = append(sections, section{kind.before + g.head + kind.after, g.ids})
			group := dryGroup{plants: len(g.ids)}
			if kind.before == laterWord {
				for _, id := range g.ids {
					group.likely = model.Later(group.likely, s.out(id).Expected)
				}
			}
			s.groupsOf = append(s.groupsOf, group)
		}
	}
	s.help = s.bestHelp(long)
	var all model.IDs
	s.clock = show.Width(likelyHead)
	for i := range s.desk.outlook.Drying {
		d := &s.desk.outlook.Drying[i]
		all = append(all, d.ID)
		for _, at := range []time.Time{d.OutAt, d.Expected, d.High} {
			s.clock = max(s.clock, show.Width(show.Clock(at, s.desk.now, s.desk.book.Zone())))
		}
	}
	s.named = s.desk.namingOf(all)
	s.rows.fill(sections)
}

// laterWord begins the heading of what is not likely dry yet.
const laterWord = "Later"

// byPlace parts plants by where they lie, in the order of the drying places; last come
// those of whom it is not written. The head is " on the rack".
func (s *dryScreen) byPlace(ids model.IDs) []section {
	var places []section
	benches := s.desk.book.Benches()
	for i := range len(benches) + 1 {
		name, head := "", ""
		if i < len(benches) {
			name = benches[i].Name
			head = " on the " + show.Safe(name)
		}
		var here model.IDs
		for _, id := range ids {
			if s.lies(id) == name {
				here = append(here, id)
			}
		}
		if len(here) > 0 {
			places = append(places, section{head, here})
		}
	}
	return places
}

// lies is the drying place a plant is on, "" when that is not written.
func (s *dryScreen) lies(id model.ID) string {
	benches := s.desk.book.Benches()
	if b, ok := s.desk.book.Bench(s.desk.book.Row(id).Bench); ok {
		return b.Name
	} else if len(benches) == 1 {
		return benches[0].Name
	}
	return ""
}

// riskier orders plants that are ready to check: those past the house rule, then
// those that hold water at the heart, then by when they came out and where they
// hang.
func (s *dryScreen) riskier(a, b model.ID) int {
	x, y := s.out(a), s.out(b)
	return cmp.Or(first(s.past(x), s.past(y)), hearts(x, y),
		x.OutAt.Compare(y.OutAt), s.desk.book.Row(a).WalkCompare(s.desk.book.Row(b)), cmp.Compare(a, b))
}

// riskierLater orders plants that will be dry later: hearts first, then by when each is
// likely dry.
func (s *dryScreen) riskierLater(a, b model.ID) int {
	x, y := s.out(a), s.out(b)
	return cmp.Or(hearts(x, y), x.Expected.Compare(y.Expected))
}

// hearts puts what holds water at the heart before what does not.
func hearts(x, y *advice.Drying) int {
	return first(x.HoldUp == estimate.HeldByPocket, y.HoldUp == estimate.HeldByPocket)
}

// first puts what is so before what is not.
func first(a, b bool) int {
	switch {
	case a && !b:
		return -1
	case b && !a:
		return 1
	}
	return 0
}

// past reports whether a plant is out longer than the house rule lets one stay wet.
func (s *dryScreen) past(d *advice.Drying) bool { return s.desk.now.After(d.Limit) }

// bestHelp is what would help most of the plants that are out too long, said once
// for all of them; "" when none are.
func (s *dryScreen) bestHelp(long model.IDs) string {
	counts := map[string]int{}
	best := ""
	for _, id := range long {
		help := s.desk.adviceOf(s.out(id).Reasons)
		if counts[help]++; counts[help] > counts[best] {
			best = help
		}
	}
	return best
}

func (s *dryScreen) out(id model.ID) *advice.Drying { return s.desk.outlook.DryOut(id) }

// groups are the keys of the drying screen.
func (s *dryScreen) groups() []group {
	empty := func() string {
		if s.rows.current() == 0 {
			return "Nothing is drying"
		}
		return ""
	}
	return []group{
		{"Drying", []binding{
			act("d", "dry to the heart", func() { s.mark(&model.FoundDry{}, model.Drying) }).pad("1").unless(empty).foot("dry"),
			act("D", "a whole place is dry: all that lie with this one and are ready, save what was felt damp",
				s.dryPlace).pad("*").unless(empty).foot("all ready here"),
			act("w", "still damp", func() { s.mark(&model.Damp{}, model.Drying, model.Dry) }).pad("2").unless(empty).foot("still damp"),
			act("r", "rehung: it is back home", func() { s.mark(&model.Hung{}, model.Dry) }).pad("3").unless(empty).foot("rehung"),
			act("b", "lay on another drying place: a tray is a place of its own",
				s.layElsewhere).pad("8").unless(empty).foot("move"),
			act("W", "weigh it wet: what later weights are held against",
				func() { s.desk.push(weighForm(s.desk, s.rows.current())) }).unless(empty),
			act("f", "fan: off, low, on, near", s.desk.nextFan).pad("5").foot("fan"),
			act("i", "window: shut, door, open, extractor", s.desk.nextWindow).pad("6").foot("window"),
		}},
		{"The list", append(s.rows.keys(), act("esc", "drop marks", s.rows.unmark).pad(".").footWhen("unmark",
			s.rows.several))},
	}
}

// mark writes a fact about the chosen plants that are in one of the states.
func (s *dryScreen) mark(f model.Fact, states ...model.State) {
	var ids model.IDs
	for _, id := range s.rows.chosen() {
		if slices.Contains(states, s.desk.book.Row(id).State) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		if f.Kind() == "hung" {
			s.desk.say("Not marked dry yet: %s first, then %s", s.desk.key("d", "1"), s.desk.key("r", "3"))
		} else {
			s.desk.say("Already dry: %s when it hangs, %s if it is damp after all", s.desk.key("r", "3"), s.desk.key("w", "2"))
		}
		return
	}
	early := s.early(f, ids)
	if !s.desk.enter(f, ids...) {
		return
	}
	s.desk.said += early
	several := s.rows.several()
	s.rows.unmark()
	at, head := s.rows.cursor, s.headHere()
	s.build()
	if several {
		return
	}
	if f.Kind() == "damp" && s.headHere() == head {
		s.rows.move(1)
	} else {
		s.rows.put(at) // the next plant has moved up
	}
	if s.headHere() != head { // that was the last of the group: the one before it is next, if one is left
		was := s.rows.cursor
		if s.rows.put(at - 1); s.headHere() != head {
			s.rows.put(was)
		}
	}
}

// headHere is the heading of the cursor's group, "" where nothing is listed.
func (s *dryScreen) headHere() string {
	if len(s.rows.rows) == 0 {
		return ""
	}
	return s.rows.heads[s.rows.rows[s.rows.cursor].group]
}

// early is a word about plants that are called dry long before they are likely to be.
func (s *dryScreen) early(f model.Fact, ids model.IDs) string {
	if f.Kind() != "dry" {
		return ""
	}
	for _, id := range ids {
		if d := s.out(id); d != nil && s.desk.now.Before(d.Low) {
			return ": early, likely not before " + show.Clock(d.Low, s.desk.now, s.desk.book.Zone()) + " (u takes it back)"
		}
	}
	return ""
}

func (s *dryScreen) lead() string { return s.rows.lead() }

// dryPlace marks dry what is ready to check where the cursor's plant lies: it is felt in
// one go. Of what is not ready it takes the load that the plant came out with. What was
// felt damp since it came out stays; it is marked alone.
func (s *dryScreen) dryPlace() {
	here := s.out(s.rows.current())
	if here == nil || s.desk.book.Row(here.ID).State != model.Drying {
		s.desk.say("Already dry: %s when it hangs", s.desk.key("r", "3"))
		return
	}
	s.rows.unmark()
	damp, ready := 0, s.desk.toCheck(here)
	for i := range s.desk.outlook.Drying {
		d := &s.desk.outlook.Drying[i]
		r := s.desk.book.Row(d.ID)
		switch {
		case r.State != model.Drying || s.lies(d.ID) != s.lies(here.ID) || !ready && d.Load != here.Load:
		case r.DampAt.After(r.Out) && d.ID != here.ID:
			damp++
		case s.desk.toCheck(d) == ready:
			s.rows.marks[d.ID] = true
		}
	}
	s.mark(&model.FoundDry{}, model.Drying)
	if damp > 0 {
		s.desk.said += fmt.Sprintf("; %s felt damp: still drying", show.Count(damp, "plant"))
	}
}
