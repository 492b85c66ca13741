package board

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

// soakScreen is the tub and the buckets: what is in the water and until when,
// and what waits beside it.
type soakScreen struct {
	desk   *desk
	rows   *list
	shown  []soakGroup
	vessel int // the chosen vessel: what o takes out of and s fills
	into   int // the one chosen while the cursor was on no load
	was    model.ID
	adjust float64 // minutes added by hand to the next load
	asked  asked
	built  int
	waters map[string]advice.VesselWater // what stands in each vessel
	ready  loading                       // what s would start
	since  readyWhen
	side   beside
	named  naming
}

// soakGroup is a group of the list: a load in the water, or plants of one band
// that wait.
type soakGroup struct {
	load   *model.Load // nil for waiting plants
	band   soak.Band
	ids    model.IDs
	litres float64 // that they take
}

// asked is how many doubts about a load were said, each at a press of the key, in a
// version of the book.
type asked struct{ version, doubts int }

// readyWhen is all that what s would start depends on while no plants are marked: with
// thousands waiting it is not put together anew at every key.
type readyWhen struct {
	version, vessel, group int
	adjust                 float64
	at                     time.Time
}

func newSoak(d *desk) *soakScreen {
	rows := newList()
	rows.bar = func(line string) string { return d.barredIn(line, d.listWidth()) }
	return &soakScreen{desk: d, rows: rows, built: -1, side: beside{desk: d, rows: rows}}
}

func (s *soakScreen) name() string   { return "Soak" }
func (s *soakScreen) letter() string { return "s" }

func (s *soakScreen) badge() string {
	if n := s.desk.tally.Soaking + s.desk.tally.Waiting; n > 0 {
		return fmt.Sprint(n)
	}
	return ""
}

func (s *soakScreen) list() *list { return s.rows }

// worthWhile is how large an empty vessel is, as a part of the chosen one that is in
// use, to be proposed in its place. A choice: a bucket is none for a tub.
const worthWhile = 0.25

// open goes to the largest vessel with nothing in it, where the chosen one is taken.
func (s *soakScreen) open() {
	vessels := s.desk.book.Vessels()
	if s.into < len(vessels) && len(s.desk.book.InVessel(vessels[s.into].Name)) > 0 {
		best := worthWhile * vessels[s.into].Litres
		for i, v := range vessels {
			if len(s.desk.book.InVessel(v.Name)) == 0 && !v.Fed && v.Litres > best {
				s.into, best = i, v.Litres
			}
		}
	}
	s.was = 0
	s.build()
}

func (s *soakScreen) sync() {
	s.vessel = min(s.vessel, max(0, len(s.desk.book.Vessels())-1))
	if s.built != s.desk.version {
		s.build()
	}
	s.followCursor()
	s.makeReady()
	s.rows.resize(s.desk.body() - s.vesselLines() - len(s.actLines()))
	s.side.ask()
}

// makeReady puts together what s would start.
func (s *soakScreen) makeReady() {
	when := readyWhen{s.desk.version, s.vessel, -1, s.adjust, s.desk.outlook.At}
	if s.rows.cursor < len(s.rows.rows) {
		when.group = s.rows.rows[s.rows.cursor].group
	}
	if marked := s.rows.several(); when != s.since || marked || s.ready.marked {
		s.ready, s.since = s.next(), when
		s.ready.marked = marked
	}
}

// followCursor makes the vessel chosen that the plant under the cursor lies in; off
// the loads again it is the one that s fills.
func (s *soakScreen) followCursor() {
	id := s.rows.current()
	if id == s.was || s.rows.several() {
		return
	}
	s.was = id
	if g, ok := s.groupHere(); ok && g.load != nil {
		s.vessel = s.vesselOf(g.load.Vessel)
	} else {
		s.vessel = min(s.into, max(0, len(s.desk.book.Vessels())-1))
	}
}

func (s *soakScreen) vesselOf(name string) int {
	return slices.IndexFunc(s.desk.book.Vessels(), func(v model.Vessel) bool { return strings.EqualFold(v.Name, name) })
}

// build lists the waiting plants by band, the longest soak first, then the
// loads. A load that is due comes before everything.
func (s *soakScreen) build() {
	s.built = s.desk.version
	s.waters = map[string]advice.VesselWater{}
	for _, w := range advice.Waters(s.desk.keeper.Book(), s.desk.now) {
		s.waters[w.Vessel.Name] = w
	}
	var due, others []soakGroup
	for _, l := range s.desk.loads {
		g := soakGroup{load: l, ids: s.desk.book.StillIn(l)}
		if !s.desk.isDue(l) {
			others = append(others, g)
		} else {
			due = append(due, g)
		}
	}
	s.shown = slices.Concat(due, s.waitingGroups(), others)
	sections := make([]section, len(s.shown))
	var all model.IDs
	for i, g := range s.shown {
		all = append(all, g.ids...)
		sections[i] = section{"load", g.ids}
		s.shown[i].litres = s.bulk(g.ids)
	}
	s.named = s.desk.namingOf(all)
	s.rows.fill(sections)
}

// waitingGroups are the pulled plants by band, in walking order.
func (s *soakScreen) waitingGroups() []soakGroup {
	var groups []soakGroup
	waiting := s.desk.book.Walk(s.desk.book.Waiting())
	for i := len(soak.Bands) - 1; i >= 0; i-- {
		g := soakGroup{band: soak.Bands[i]}
		for _, id := range waiting {
			if s.desk.need(id).Band == g.band {
				g.ids = append(g.ids, id)
			}
		}
		if len(g.ids) > 0 {
			groups = append(groups, g)
		}
	}
	return groups
}

// chosen is the vessel that keys act on.
func (s *soakScreen) chosen() model.Vessel {
	if vs := s.desk.book.Vessels(); s.vessel < len(vs) {
		return vs[s.vessel]
	}
	return model.Vessel{}
}

// taken is how many litres of a vessel are full of plants.
func (s *soakScreen) taken(v model.Vessel) float64 {
	litres := 0.0
	for _, g := range s.shown {
		if g.load != nil && strings.EqualFold(g.load.Vessel, v.Name) {
			litres += g.litres
		}
	}
	return litres
}

// of is the group of a load.
func (s *soakScreen) of(l *model.Load) soakGroup {
	return s.shown[slices.IndexFunc(s.shown, func(g soakGroup) bool { return g.load == l })]
}

func (s *soakScreen) bulk(ids model.IDs) float64 {
	litres := 0.0
	for _, id := range ids {
		litres += estimate.Bulk(s.desk.book.Row(id).Plant)
	}
	return litres
}

// start puts the next load into the chosen vessel.
func (s *soakScreen) start() {
	l := s.next()
	due := s.desk.now.Add(time.Duration(l.minutes * float64(time.Minute)))
	if len(l.ids) == 0 {
		s.desk.say("%s", show.Line(s.nothingFits(l)))
		return
	}
	if s.asked.version != s.desk.version {
		s.asked = asked{version: s.desk.version}
	}
	if doubts := s.doubts(l, due); s.asked.doubts < len(doubts) {
		s.desk.refuse("%s", show.Line(doubts[s.asked.doubts]))
		s.asked.doubts++
		return
	}
	with, told := s.desk.book.InVessel(s.chosen().Name), s.desk.book.Water(s.chosen().Name) != nil
	fact := &model.Soak{Load: s.desk.book.NextLoad(), Vessel: s.chosen().Name, Due: due.UTC().Truncate(time.Second)}
	if !s.desk.enter(fact, l.ids...) {
		return
	}
	s.adjust = 0
	s.rows.unmark()
	s.build()
	s.rows.move(-len(s.rows.rows)) // what waits next is on top
	text := fmt.Sprintf("Load %d in %s: %s, out at %s", fact.Load, fact.Vessel, show.Count(len(l.ids), "plant"),
		show.Clock(due, s.desk.now, s.desk.book.Zone()))
	if !told && !s.desk.onPad() {
		text += "; water not entered yet: W"
	}
	if n := len(with); n > 0 {
		last := with[n-1]
		text += fmt.Sprintf("; beside load %d, which is out at %s", last.ID, s.desk.outClock(last))
	}
	s.desk.say("%s", text+l.leftBehind())
}

// doubts are what is asked about before a load goes in, one after the other: the same key
// again goes on.
func (s *soakScreen) doubts(l loading, due time.Time) []string {
	var doubts []string
	again := s.desk.key("s", "*") + " again puts "
	if at, is := advice.Emptied(s.desk.book, s.chosen().Name, s.desk.now); is {
		doubts = append(doubts, fmt.Sprintf("%s was emptied at %s: is it filled again? W says so, %sthem in", show.Safe(s.chosen().Name),
			at.In(s.desk.book.Zone()).Format("15:04"), again))
	}
	if bad := s.badCompany(l); bad != "" {
		doubts = append(doubts, bad)
	}
	if l.differ {
		doubts = append(doubts, fmt.Sprintf("Their times differ: all come out after %s, the shortest cap; %sthem in",
			show.Minutes(l.minutes), again))
	}
	if day.WrongHour(s.desk.book, l.minutes, s.desk.now) {
		rules := s.desk.book.Rules()
		return append(doubts, fmt.Sprintf("A soak over night goes in at %s and is out at %s: %sit in now, out %s",
			clockHour(rules[model.NightIn]), clockHour(rules[model.NightOut]), again,
			show.Clock(due, s.desk.now, s.desk.book.Zone())))
	}
	if wet := day.NotDry(s.desk.keeper, l.ids, s.desk.bench(l.ids), due, s.desk.now); len(wet.Plants) > 0 {
		them := "them in"
		if len(l.ids) == 1 {
			them = "it in"
		}
		doubts = append(doubts, show.StillWet(s.desk.book, wet, len(l.ids), s.desk.now)+": "+again+them)
	}
	return doubts
}

// nothingFits says why s would start nothing.
func (s *soakScreen) nothingFits(l loading) string {
	v := show.Safe(s.chosen().Name)
	switch {
	case l.over > 0:
		rules := s.desk.book.Rules()
		return fmt.Sprintf("%s left in %s, the smallest that waits takes %s: . goes on to another vessel",
			show.Volume(max(l.room, 0), rules), v, show.Volume(l.smallest, rules))
	case l.dry > 0:
		return "what waits here is not to be soaked: " + s.desk.key("p", "8") + " puts it back"
	}
	return "nothing waits that could go into " + v
}

// clockHour says an hour of the house rules, "20:00".
func clockHour(hour float64) string { return model.AtHour(time.Time{}, hour).Format("15:04") }

// takeOut takes out the marked plants that are in the water, else of the chosen vessel
// the load under the cursor, or the one due first.
func (s *soakScreen) takeOut(shaken bool) {
	ids := s.leaving()
	if len(ids) == 0 {
		s.desk.say("Nothing is in the water here")
		return
	}
	if !s.desk.mayTakeOut(ids, shaken) {
		return
	}
	s.desk.takeOutAll(ids, shaken, 0)
	s.rows.unmark()
	s.sync() // the next key may come before the next frame
}

func (s *soakScreen) leaving() model.IDs {
	if s.rows.several() {
		var ids model.IDs
		for _, id := range s.rows.chosen() {
			if s.desk.book.Row(id).State == model.Soaking {
				ids = append(ids, id)
			}
		}
		return ids
	}
	if g, ok := s.groupHere(); ok && g.load != nil && strings.EqualFold(g.load.Vessel, s.chosen().Name) {
		return g.ids
	}
	if loads := s.desk.book.InVessel(s.chosen().Name); len(loads) > 0 {
		return s.of(loads[0]).ids
	}
	return nil
}

// mayTakeOut asks once before plants come out well before their load is due: the key is
// easily pressed once too often. The same key again takes them out.
func (d *desk) mayTakeOut(ids model.IDs, shaken bool) bool {
	key := d.key("o", "1")
	if !shaken {
		key = d.key("O", "2")
	}
	load, asked := d.book.Load(d.book.Row(ids[0]).Load), askedOut{key, ids[0]}
	early := d.left(load)
	if early <= soonDue || d.asksOut == asked {
		d.asksOut = askedOut{}
		return true
	}
	d.asksOut = asked
	d.refuse("%s so far, %s early: %s again takes %s out", show.Duration(max(d.now.Sub(load.In), 0).Truncate(time.Minute)),
		show.Duration(early.Truncate(time.Minute)), key, show.Count(len(ids), "plant"))
	return false
}

// askedOut is the take-out that was asked about, until another key is pressed: the key, and
// the first of the plants.
type askedOut struct {
	key   string
	first model.ID
}

// takeOutAll writes plants out in the order they went in, by hands that took so long until
// now; 0 for not known. All are laid upside down: it is never wrong, and a bulb needs it.
func (d *desk) takeOutAll(ids model.IDs, shaken bool, took time.Duration) {
	out := model.TakenOut(shaken)
	out.Bench, out.Took = d.bench(ids), int(took.Seconds())
	var vessels []string
	for _, id := range ids {
		if l := d.book.Load(d.book.Row(id).Load); l != nil && !slices.Contains(vessels, l.Vessel) {
			vessels = append(vessels, l.Vessel)
		}
	}
	if d.enter(out, ids...) {
		d.layOn = 0
		text := show.Line(show.Plants(ids, d.book)) + " out of " + show.Safe(strings.Join(vessels, ", "))
		if !shaken {
			text += ", not shaken: tip them out"
		} else {
			text += ", shaken, upside down"
		}
		if out.Bench != "" {
			text += " on the " + show.Safe(out.Bench)
		}
		d.say("%s", text)
	}
}
