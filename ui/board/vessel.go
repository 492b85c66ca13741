package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

// A vessel is drawn as it stands there: a tub with its tap at the left, a bucket
// with slanted walls, anything else a crate; as long as it holds much.
const (
	nameColumn = 11
	tapWords   = "tap"
	tallScreen = 30 // from so many lines on each heap has a line of its own
)

// pictureWidth is how many cells the longest vessel takes, its walls among them.
func (s *soakScreen) pictureWidth() int {
	switch {
	case s.desk.width < narrow:
		return 18
	case s.desk.width < wideScreen:
		return 30
	}
	return min(s.desk.width*2/5, 60)
}

// drawVessels draws every vessel with what lies in it, and where there is room a
// line for each heap.
func (s *soakScreen) drawVessels(p *page) {
	vessels := s.desk.book.Vessels()
	first := max(0, s.vessel-s.vesselLines()+1)
	spare := s.vesselLines() - len(vessels)
	for i := first; i < len(vessels) && i < first+s.vesselLines(); i++ {
		v := vessels[i]
		loads := s.desk.book.InVessel(v.Name)
		p.line(s.vesselLine(v, loads, i == s.vessel))
		for heap, l := range asTheyLie(loads) {
			if spare > 0 {
				p.line(s.heapLine(v, l, heap, len(loads)))
				spare--
			}
		}
	}
}

// vesselLines is how many lines the vessels take: all of them where there is
// room, and always most of the screen for the plants.
func (s *soakScreen) vesselLines() int {
	lines := len(s.desk.book.Vessels())
	if s.desk.height >= tallScreen {
		lines += len(s.desk.loads)
	}
	return max(1, min(lines, (s.desk.body()-3)/2))
}

// vesselLine draws one vessel: its name, the heaps in it in the order they went in,
// and their clocks, the first due first.
func (s *soakScreen) vesselLine(v model.Vessel, loads []*model.Load, here bool) string {
	sign, name := "  ", show.Pad(show.Safe(v.Name), nameColumn)
	if here {
		sign, name = s.desk.theme.marked.of("●")+" ", s.desk.theme.cursor.of(name)
	}
	left := sign + name + " " + s.picture(v, loads) + "  "
	room := s.desk.width - 2 - nameColumn - 1 - s.pictureWidth() - 2
	if len(loads) == 0 {
		water := s.waters[v.Name]
		words, paint := s.waterWords(water)
		if show.Width(words) > room && water.Age > time.Hour { // then the minutes matter least
			water.Age = water.Age.Truncate(time.Hour)
			words, paint = s.waterWords(water)
		}
		text := show.Volume(v.Litres, s.desk.book.Rules()) + ", " + words
		if show.Width(text) > room { // how long the water stood matters more than how much it is
			text = words
		}
		return left + paint.of(show.Clause(text, room))
	}
	line := left + s.desk.remaining(loads[0])
	room -= show.Width(s.desk.remainingWords(loads[0]))
	for _, l := range loads[1:] {
		if then := ", then " + s.desk.remainingWords(l); show.Width(then) <= room {
			line, room = line+then, room-show.Width(then)
		}
	}
	if full := "   " + strings.TrimSpace(show.VolumeOf(s.taken(v), v.Litres, s.desk.book.Rules())); show.Width(full) <= room {
		line += s.desk.theme.quiet.of(full)
	}
	return line
}

// picture draws a vessel and what lies in it: the heaps, in the order they went in,
// each with its count, in the ink of its length.
func (s *soakScreen) picture(v model.Vessel, loads []*model.Load) string {
	before, left, right := "", "[", "]"
	switch {
	case show.IsTub(v):
		before, left, right = tapWords, "(", ")"
	case v.Litres < crateLitres:
		left, right = `\`, "/"
	}
	largest := 0.0
	for _, other := range s.desk.book.Vessels() {
		largest = max(largest, other.Litres)
	}
	inside := s.pictureWidth() - len(tapWords) - 2
	size := min(max(int(v.Litres/largest*float64(inside)), leastPicture), inside)
	drawn, rest := "", size
	for i, l := range asTheyLie(loads) {
		if i > 0 && rest > 1 {
			drawn, rest = drawn+"│", rest-1
		}
		heap := s.of(l)
		count := fmt.Sprint(len(heap.ids))
		long := min(max(int(heap.litres/v.Litres*float64(size)+0.5), len(count)), rest)
		if i == len(loads)-1 && s.taken(v) >= v.Litres {
			long = rest
		}
		ink, number := s.heapPaint(l), s.desk.theme.title // a number in the ink of its bar is hard to read
		if ink == s.desk.theme.alarm {
			number = ink
		}
		count = show.Fit(count, long)
		bar := strings.Repeat("▒", max(0, long-len(count)))
		drawn, rest = drawn+number.of(count)+ink.of(bar), rest-long
	}
	drawn += s.desk.theme.quiet.of(strings.Repeat("·", rest))
	return show.PadLeft(before, len(tapWords)) + left + drawn + right + strings.Repeat(" ", inside-size)
}

// asTheyLie are the loads of a vessel from the tap on, those of no place of their own last,
// in the order they went in.
func asTheyLie(loads []*model.Load) []*model.Load {
	from := func(l *model.Load) int { return (l.Heap + 2) % 3 }
	return slices.SortedFunc(slices.Values(loads), func(a, b *model.Load) int {
		return cmp.Or(cmp.Compare(from(a), from(b)), cmp.Compare(a.ID, b.ID))
	})
}

// leastPicture is the least that a vessel is drawn with inside, crateLitres from how
// much on it is no bucket. Choices.
const (
	leastPicture = 6
	crateLitres  = 25
)

// heapPaint is the ink of a heap: that of the band of its length, and red once it
// should be out.
func (s *soakScreen) heapPaint(l *model.Load) paint {
	if s.desk.isDue(l) && !s.desk.outAt(l).ByNow(s.desk.now) {
		return s.desk.theme.alarm
	}
	return s.desk.theme.bands[advice.BandOf(l.Minutes(), s.desk.book.Rules())]
}

// heapLine says where a heap lies, who is in it from first to last, and its hours.
func (s *soakScreen) heapLine(v model.Vessel, l *model.Load, heap, heaps int) string {
	zone := s.desk.book.Zone()
	words := fmt.Sprintf("%sin %s, out %s   ", show.Pad(heapWords(v, l, heap, heaps), 22), show.Clock(l.In, s.desk.now, zone),
		s.desk.outClock(l))
	left := strings.Repeat(" ", 2+nameColumn+1+len(tapWords)+1)
	ids := s.of(l).ids
	for _, who := range []string{s.firstToLast(ids), s.desk.placed(ids[0]) + " first", s.desk.placed(ids[0]), ""} {
		if line := words + who; show.Width(line) < s.desk.width-len(left) {
			return left + s.desk.theme.quiet.of(line)
		}
	}
	return left + s.desk.theme.quiet.of(show.Fit(words, s.desk.width-len(left)-1))
}

// heapWords says where one of the heaps in a vessel lies, first in first.
func heapWords(v model.Vessel, l *model.Load, heap, heaps int) string {
	switch {
	case l.Heap > 0:
		return show.HeapOf(v, l.Heap-1)
	case heaps == 1 && show.IsTub(v):
		return "the tap end first"
	case heaps == 1:
		return "first in, first out"
	}
	return fmt.Sprintf("heap %d of %d", heap+1, heaps)
}

// firstToLast names the plants of a heap, in the order they went in: the first
// three and the last.
func (s *soakScreen) firstToLast(ids model.IDs) string {
	var names []string
	for i, id := range ids {
		switch {
		case len(ids) <= 4 || i < 3:
			names = append(names, s.desk.placed(id))
		case i == len(ids)-1:
			names = append(names, "and so on to "+s.desk.placed(id))
		}
	}
	return strings.Join(names, ", ")
}

// placed is a plant's name and where it hangs.
func (d *desk) placed(id model.ID) string {
	r := d.book.Row(id)
	if home := show.Safe(r.Home.String()); home != "" {
		return show.Title(r.Plant) + " (" + home + ")"
	}
	return show.Title(r.Plant)
}

// outLine says what o takes out: how many of which vessel, how early or late, where
// they are laid, and who they are.
func (s *soakScreen) outLine() string {
	if len(s.desk.loads) == 0 {
		return ""
	}
	o := s.leaving()
	v := show.Safe(s.chosen().Name)
	if len(o) == 0 && s.rows.several() {
		return s.desk.theme.quiet.of(show.Fit(" None of the marked plants is in the water", s.desk.width))
	}
	if len(o) == 0 {
		return s.desk.theme.quiet.of(show.Fit(fmt.Sprintf(" Nothing lies in %s: . goes on to another vessel", v), s.desk.width))
	}
	r := s.desk.book.Row(o[0])
	load := s.desk.book.Load(r.Load)
	text := " " + s.desk.key("o", "1") + " takes " + show.Count(len(o), "plant") + " out of " + show.Safe(load.Vessel) + ", "
	when, paint := "now", s.desk.theme.alarm
	switch left := s.desk.left(load); {
	case left <= -time.Minute:
		when = show.Duration(-left.Truncate(time.Minute)) + " late"
	case left > 0:
		when, paint = show.Duration(max(left, time.Minute).Truncate(time.Minute))+" early", s.desk.theme.input
	}
	rest := ""
	if bench := s.desk.bench(o); bench != "" {
		rest = ", onto the " + show.Safe(bench)
	}
	text = show.Fit(text, s.desk.width)
	when = show.Fit(when, s.desk.width-show.Width(text))
	room := s.desk.width - show.Width(text) - show.Width(when) - 1
	first := s.desk.placed(o[0])
	for _, who := range []string{": " + s.firstToLast(o), ": " + first + " first", ": " + first} {
		if show.Width(rest+who) <= room {
			rest += who
			break
		}
	}
	if show.Width(rest) > room {
		rest = ""
	}
	return s.desk.theme.plain.of(text) + paint.of(when) + s.desk.theme.plain.of(rest)
}

// bench is the drying place that plants coming out are laid on: the first with room
// left, as the plan has it; with none left, the last; or the one chosen instead.
func (d *desk) bench(ids model.IDs) string {
	if len(ids) > 0 && advice.CompanyOf(d.book, d.book.Row(ids[0]), d.now) != soak.Healthy {
		return model.OwnTray
	}
	benches := d.book.Benches()
	taken := map[string]float64{}
	for i := range d.outlook.Drying {
		r := d.book.Row(d.outlook.Drying[i].ID)
		taken[r.Bench] += estimate.BenchRoom(r.Plant)
	}
	need := 0.0
	for _, id := range ids {
		need += estimate.BenchRoom(d.book.Row(id).Plant)
	}
	for i, b := range benches {
		if i == len(benches)-1 || taken[b.Name]+need <= b.Room {
			return benches[(i+d.layOn)%len(benches)].Name
		}
	}
	return ""
}
