package show

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// Step says a step of a plan: "take out tub: 46 plants, the tap end first".
func Step(b *model.Book, p *day.Plan, s *day.Step) string {
	var l *day.Load
	if s.Load >= 0 {
		l = &p.Loads[s.Load]
	}
	switch s.Do {
	case soak.Fill:
		return fillStep(b, p, s, l)
	case soak.Empty:
		return emptyStep(b, s, l)
	case soak.Pull:
		return "pull " + whom(s, l) + " for " + s.Vessel + fromShelves(b, s)
	case soak.PutIn:
		return "put " + whom(s, l) + " into " + s.Vessel + lying(b, s, l, ", from the tap end on") + byItself(p, l)
	case soak.GetOut:
		return takeOut(b, s, l)
	case soak.Hang:
		if slices.ContainsFunc(s.Plants, func(id model.ID) bool { return b.Row(id).State == model.Drying }) {
			return "look into the hearts of " + whom(s, nil) + ", and hang them back" + fromShelves(b, s)
		}
		return "hang back " + whom(s, nil) + fromShelves(b, s)
	}
	return ""
}

func takeOut(b *model.Book, s *day.Step, l *day.Load) string {
	text := "take out " + s.Vessel + ": " + whom(s, l) + lying(b, s, l, ", the tap end first")
	if l.Company != soak.Healthy {
		if len(l.Plants) == 1 {
			return text + ", to a tray of its own, apart from the others"
		}
		return text + ", to a tray of their own, apart from the others"
	}
	if len(b.Benches()) < 2 {
		return text
	}
	bench := make(map[model.ID]string, len(l.Plants))
	for _, t := range l.Plants {
		bench[t.ID] = t.Bench
	}
	if benches := fewNames(s.Plants, func(id model.ID) string { return bench[id] }); benches != "" {
		text += ", to " + benches
	}
	return text
}

// lying says where a load lies in its vessel, or from which end of a tub to begin.
func lying(b *model.Book, s *day.Step, l *day.Load, end string) string {
	switch heap := Heap(b, l); {
	case heap != "":
		return ", " + heap
	case len(s.Plants) > 1 && isTub(b, l.Vessel):
		return end
	}
	return ""
}

// Heap says which of two heaps in its vessel a load is; "" for a load alone.
func Heap(b *model.Book, l *day.Load) string {
	if l.Heap < 1 || l.Heap > 2 {
		return ""
	}
	v, _ := b.Vessel(l.Vessel)
	return HeapOf(v, l.Heap-1)
}

// HeapOf says where one of two heaps in a vessel lies, 0 for the one by the tap or at
// the left.
func HeapOf(v model.Vessel, heap int) string {
	if IsTub(v) {
		return [2]string{"the heap by the tap", "the heap at the far end"}[heap]
	}
	return [2]string{"the left-hand heap", "the right-hand heap"}[heap]
}

// whom counts the plants of a step: "46 plants", "3 newcomers".
func whom(s *day.Step, l *day.Load) string {
	noun := "plant"
	switch {
	case l == nil:
	case l.Company == soak.Newcomer:
		noun = "newcomer"
	case l.Company == soak.Suspect:
		return Count(len(s.Plants), "plant") + " just over a trouble"
	case l.Company == soak.Sick:
		noun = "sick plant"
	}
	return Count(len(s.Plants), noun)
}

// byItself says why a plant that its company keeps apart is not in one load with others of
// that; "" for any other load.
func byItself(p *day.Plan, l *day.Load) string {
	if l.Company == soak.Healthy || len(l.Plants) > 1 {
		return ""
	}
	soaks, longer, shorter := l.Out.Sub(l.Start), false, false
	for i := range p.Loads {
		if o := &p.Loads[i]; o != l && o.Company == l.Company && o.ToCome() {
			longer, shorter = longer || o.Out.Sub(o.Start) > soaks, shorter || o.Out.Sub(o.Start) <= soaks
		}
	}
	switch {
	case longer && shorter:
		return ", by itself: no other soaks as long as it"
	case longer:
		return ", by itself: the others soak longer"
	case shorter:
		return ", by itself: the others soak less"
	}
	return ""
}

// fromShelves names the shelves of a step's plants, as they come.
func fromShelves(b *model.Book, s *day.Step) string {
	shelves := fewNames(s.Plants, func(id model.ID) string { return b.Row(id).Home.Shelf })
	if shelves == "" {
		return ""
	}
	return ": " + shelves
}

// mostNames is how many shelves or benches a sentence names before it leaves
// them to the list. A guess.
const mostNames = 4

// fewNames lists the names of plants, each once; "" when there are many.
func fewNames(ids model.IDs, name func(model.ID) string) string {
	var names []string
	for _, id := range ids {
		if n := name(id); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	if len(names) > mostNames {
		return ""
	}
	return strings.Join(names, ", ")
}

// PlanNotes says what the grower should know before the first step.
func PlanNotes(b *model.Book, p *day.Plan) []string {
	var notes []string
	for i := range p.Steps {
		if s := &p.Steps[i]; s.Do == soak.GetOut && !s.Done && p.BeforeHours(s) {
			notes = append(notes, fmt.Sprintf("before your hours begin: take out %s at %s, %s", s.Vessel,
				Clock(s.At, p.Ask.From, p.Ask.From.Location()), Count(len(s.Plants), "plant")))
		}
	}
	if words := emptyStanding(p.Standing); words != "" {
		notes = append(notes, words)
	}
	if wet := Wet(b, p, mostNumbers); wet != "" {
		notes = append(notes, wet)
	}
	if rule := WaterRule(b, p); rule != "" {
		notes = append(notes, rule)
	}
	if p.Unfed > 0 && len(p.Ask.Plants) == 0 {
		notes = append(notes, fmt.Sprintf("%d are not to be fed now, and soak in plain water; name one to see why",
			p.Unfed))
	}
	if p.Assumed {
		notes = append(notes, "no reading of the room: drying times go by what a room is usually like; tubside enter reading makes them yours")
	}
	return notes
}

// PlanAgreed says when the grower agreed to a plan, and whom it has dropped since: the paper
// printed before does not hold then.
func PlanAgreed(b *model.Book, p *day.Plan) string {
	clock := func(t time.Time) string { return Clock(t, p.Ask.From, p.Ask.From.Location()) }
	if !p.Stopped.IsZero() {
		left := 0
		for _, l := range p.Left {
			if l.Skipped {
				left++
			}
		}
		return fmt.Sprintf("stopped at %s; %d left for tomorrow", clock(p.Stopped), left)
	}
	words := "agreed at " + clock(p.Agreed)
	if left, since := p.Dropped(); len(left) > 0 {
		why := unplaced(b, p, left[0].WithoutTimes())
		if is := left[0].Unplaced; is != nil && is.Why == soak.NoSpare {
			why = "the day has no time left for them"
		}
		words += fmt.Sprintf(", changed at %s: %s dropped, because %s; print a new sheet", clock(since), Count(len(left), "plant"), why)
	}
	return words
}

// PutBack says whom to carry back home; "" for nobody.
func PutBack(b *model.Book, p *day.Plan) string {
	back := p.Back(b)
	if len(back) == 0 {
		return ""
	}
	them := "them"
	if len(back) == 1 {
		them = "it"
	}
	return fmt.Sprintf("put back %s: pulled, and with no place any more. Carry %s home", fewPlants(back), them)
}

// LoadsGone says which loads of an agreed plan are left for another day, since their numbers
// are nobody else's; "" for none.
func LoadsGone(p *day.Plan) string {
	var numbers []string
	for _, n := range p.Gone() {
		numbers = append(numbers, strconv.Itoa(n))
	}
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return "load " + numbers[0] + ": left for another day"
	}
	return "loads " + anded(numbers) + ": left for another day"
}

// PlanNews says in one line how an agreed plan has changed; "" when nobody would
// notice.
func PlanNews(n day.News) string {
	var words []string
	if len(n.Lost) > 0 {
		words = append(words, "no time any more for "+fewPlants(n.Lost))
	}
	if n.Vessel != "" {
		text := n.Vessel + " out at " + n.Is.Format("15:04") + " instead of " + n.Was.Format("15:04")
		if n.More > 0 {
			text += ", and " + Count(n.More, "load") + " after it at another time too"
		}
		words = append(words, text)
	}
	return strings.Join(words, "; ")
}

// Offer says what another plan of the day would give.
func Offer(p *day.Plan, o day.Offer) string {
	free := "free at " + o.Plan.DayFree.Format("15:04") + ", not " + p.DayFree.Format("15:04")
	came, others := p.Trades(o.Plan)
	more := Count(came, "more plant")
	if others > 0 {
		more += ", " + Count(others, "other") + " not"
	}
	switch o.What {
	case day.WithBreak:
		away := o.Plan.Ask.Pauses[len(o.Plan.Ask.Pauses)-1]
		plants := "as many plants"
		if n := o.Plan.Count(); n != p.Count() {
			plants = fmt.Sprintf("%d plants, not %d", n, p.Count())
		}
		return "with a break " + away.From.Format("15:04") + "–" + away.Until.Format("15:04") + ": " + free + ", " + plants
	case day.LongerHours:
		return "until " + o.Plan.Ask.Until.Format("15:04") + ": " + more
	case day.MadeAgain:
		return "with the loads made up again, from now: " + more
	case day.WithoutSlow:
		return "without " + fewPlants(o.Plants) + ", the slowest: " + free
	case day.RoomAired:
		return "with a window open until all are dry: " + more
	case day.WithoutShelf:
		return "shelf " + o.Shelf + " another day: " + free
	case day.MoreLoads:
		return "with two loads more than the house rule: " + more
	case day.SmallLoads:
		return "with a small load for the few left over: " + more
	}
	return "with a second pair of hands for the first hour: " + more
}

// Gives says what another plan of a day would give in place of one: "12 more plants, free at
// 15:10, not 17:23".
func Gives(p, other *day.Plan) string {
	plants := "as many plants"
	switch n := other.Count() - p.Count(); {
	case n > 0:
		plants = Count(n, "more plant")
	case n < 0:
		plants = Count(-n, "plant") + " fewer"
	}
	return plants + ", free at " + other.DayFree.Format("15:04") + ", not " + p.DayFree.Format("15:04")
}

// Stretches says each piece of a day that is not over by a time, as it is typed: "12:00-12:30".
func Stretches(all []day.Stretch, now time.Time) (words []string) {
	for _, s := range all {
		if s.Until.After(now) {
			words = append(words, s.From.Format("15:04")+"-"+s.Until.Format("15:04"))
		}
	}
	return words
}

// mostNumbers is how many plants a sentence names by number. A guess.
const mostNumbers = 6

// fewPlants counts plants, and names them when they are few.
func fewPlants(ids model.IDs) string {
	switch {
	case len(ids) == 1:
		return "plant " + ids.String()
	case len(ids) <= mostNumbers:
		return fmt.Sprintf("%d plants (%s)", len(ids), ids)
	}
	return fmt.Sprintf("%d plants", len(ids))
}

// Reminder says what to do before a session; the first sentence is the one to
// show alone.
func Reminder(r day.Reminder) []string {
	verb := "want"
	if r.Plants == 1 {
		verb = "wants"
	}
	words := []string{fmt.Sprintf("fill %s tonight: %s %s a soak %s",
		strings.Join(r.Vessels, ", "), Count(r.Plants,
			"plant"), verb, r.Start.In(r.Now.Location()).Format("Mon 15:04"))}
	if r.Now.After(r.By) {
		words = append(words, fmt.Sprintf("it will have stood %s of %g h", longAgo(r.Start.Sub(r.Now).Minutes()),
			r.Rest))
	}
	return append(words, "water that stands overnight: door shut, no child or pet near it, nothing electric at the edge")
}

// agreedSentence says that a plan was agreed, or given up. It counts as the plan does: who
// goes in, and apart from them who is in the water already.
func agreedSentence(f *model.Agreed, b *model.Book) string {
	if f.From.IsZero() {
		return "the plan is given up"
	}
	if !f.Stop.IsZero() {
		return "stopped for today"
	}
	goIn, loads, in := 0, 0, 0
	for i, l := range f.Loads {
		does := func(do soak.Do) bool {
			return slices.ContainsFunc(f.Order, func(w model.AgreedWork) bool { return w.Do == do.String() && w.Load == i+1 })
		}
		switch {
		case does(soak.PutIn):
			goIn, loads = goIn+len(l.Plants), loads+1
		case does(soak.GetOut):
			in += len(l.Plants)
		}
	}
	text := fmt.Sprintf("plan agreed for %s: %s in %s", f.From.In(b.Zone()).Format("Mon 2 Jan"), Count(goIn, "plant"),
		Count(loads, "load"))
	if in > 0 {
		text += fmt.Sprintf(", and %d in the water already", in)
	}
	left := 0
	for _, l := range f.Left {
		if l.Why != "skipped" { // the grower knows of those
			left++
		}
	}
	if left > 0 {
		text += fmt.Sprintf("; %d with no place in it", left)
	}
	return text
}
