package board

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// pull takes the chosen plants off the shelf to wait beside the water. Plants
// that must not be soaked stay behind. If all chosen are waiting already they
// are put back.
func (t *triage) pull() {
	if id := t.inHand(); id != 0 && !(t.keyingIn.on && t.keyingIn.older) {
		ids, left := t.pullable(model.IDs{id})
		if t.asksOfMisted(ids) {
			return
		}
		if len(ids) == 0 {
			t.desk.say("Nothing pulled%s", left)
		} else if t.desk.enter(&model.Pull{}, id) {
			t.desk.say("Pulled %s, which you have just looked at", show.Title(t.desk.book.Row(id).Plant))
		}
		t.walked = walkedOn{}
		return
	}
	chosen := t.rows.chosen()
	step := !t.rows.several() && !t.keyingIn.on // on a sheet the signs come after it
	if t.all(func(r *model.Row) bool { return t.desk.book.Waiting().Has(r.ID) }) {
		if t.enterChosen(&model.PutBack{}); step && !t.desk.trouble {
			t.step()
		}
		return
	}
	ids, left := t.pullable(chosen)
	if len(ids) == 0 {
		t.desk.say("Nothing pulled%s", left)
		return
	}
	thirsty, others := t.needWater(ids)
	if !t.rows.several() && t.asksOfMisted(others) {
		return
	}
	if t.rows.several() && len(others) > 0 && !slices.Equal(others, t.staying) {
		t.pullSome(thirsty, others, left)
		return
	}
	if t.desk.enter(&model.Pull{}, ids...) {
		t.staying = nil
		t.rows.unmark()
		switch {
		case left != "":
			t.desk.say("Pulled %s%s", show.Count(len(ids), "plant"), left)
		case len(others) > 0 && step:
			t.desk.say("%s, which needs no soak", t.desk.said)
		}
		if step {
			t.step()
		}
	}
}

// asksOfMisted asks of one plant that the grower never soaks whether it is to be pulled:
// the same key again pulls it.
func (t *triage) asksOfMisted(ids model.IDs) bool {
	if len(ids) != 1 || !t.desk.book.Row(ids[0]).MistOnly || slices.Equal(ids, t.staying) {
		return false
	}
	t.staying = ids
	t.desk.refuse("%s is mist only, you said: %s again pulls it", show.Title(t.desk.book.Row(ids[0]).Plant), t.desk.key("p", "*"))
	return true
}

// pullSome pulls those of the marked plants that need a soak. The others stay, and
// stay marked: p again takes them too.
func (t *triage) pullSome(thirsty, others model.IDs, left string) {
	if len(thirsty) > 0 && !t.desk.enter(&model.Pull{}, thirsty...) {
		return
	}
	t.rows.unmark()
	t.rows.mark(others)
	t.staying = others
	again := t.desk.key("p", "*")
	ask := "1 needs no soak: " + again + " again takes it too"
	if n := len(others); n > 1 {
		ask = fmt.Sprintf("%d need no soak: %s again takes them too", n, again)
	}
	misted := 0
	for _, id := range others {
		if t.desk.book.Row(id).MistOnly {
			misted++
		}
	}
	if misted > 0 {
		ask += fmt.Sprintf("; %d mist only, you said", misted)
	}
	if n := len(thirsty); n > 0 {
		ask += fmt.Sprintf("; pulled %d", n)
	}
	t.desk.refuse("%s", ask+left)
}

// needWater parts plants that need a soak from those that do not.
func (t *triage) needWater(ids model.IDs) (thirsty, none model.IDs) {
	return t.partBy(ids, t.soaks)
}

// soaks reports whether a plant needs a soak.
func (t *triage) soaks(n *advice.Need) bool { return n.Band >= soak.Dip || n.Casualty() }

// inDanger reports whether a plant at home may be lost.
func (t *triage) inDanger(n *advice.Need) bool {
	return !t.desk.book.Row(n.ID).State.Away() && n.Reasons[0].Danger()
}

// partBy parts plants by what they need.
func (t *triage) partBy(ids model.IDs, is func(*advice.Need) bool) (yes, no model.IDs) {
	for _, id := range ids {
		if is(t.desk.need(id)) {
			yes = append(yes, id)
		} else {
			no = append(no, id)
		}
	}
	return yes, no
}

// pullable are those of some plants that can be pulled, in walking order, and what
// is said of the others.
func (t *triage) pullable(some model.IDs) (ids model.IDs, left string) {
	var bloom, rot, away int
	for _, id := range some {
		switch r := t.desk.book.Row(id); {
		case !r.Rot.IsZero():
			rot++
		case !r.Bloom.IsZero():
			bloom++
		case r.State != model.AtHome:
			away++
		case !t.desk.book.Waiting().Has(id):
			ids = append(ids, id)
		}
	}
	return t.desk.book.Walk(ids), leftBehind(bloom, rot, away)
}

// pullItself pulls those of the plants just looked at that are pulled without a key of
// their own.
func (t *triage) pullItself(seen model.IDs) {
	var want model.IDs
	for _, id := range seen {
		if t.pulledAtOnce(id) {
			want = append(want, id)
		}
	}
	ids, _ := t.pullable(want)
	if said := t.desk.said; len(ids) > 0 && t.desk.enter(&model.Pull{}, ids...) {
		t.desk.say("%s; pulled", said)
	}
}

// pulledAtOnce reports whether a plant is pulled as it is looked at, by what was said for
// today or by the house rule.
func (t *triage) pulledAtOnce(id model.ID) bool {
	rule, _ := t.desk.book.PullsItself(t.desk.now)
	return t.pulledBy(rule, id)
}

// pulledBy reports whether a rule has a plant pulled by what it needs, or by how
// it curls. One that needs no soak stays where it hangs.
func (t *triage) pulledBy(rule string, id model.ID) bool {
	n, r := t.desk.need(id), t.desk.book.Row(id)
	if !t.soaks(n) {
		return false
	}
	switch rule {
	case "curl-1", "curl-2", "curl-3":
		curl, _ := model.ParseGrade(strings.TrimPrefix(rule, "curl-"))
		return r.Signs.Curl >= curl
	case "off":
		return false
	default:
		from := slices.IndexFunc(soak.Bands, func(b soak.Band) bool { return strings.EqualFold(b.String(), rule) })
		return n.Band >= soak.Bands[from]
	}
}

// pullKeys choose from where on plants are pulled today: a letter each and, on a number pad, a digit.
var pullKeys = []struct{ rule, key, pad, hint string }{
	{"dip", "d", "4", "Dip"}, {"short", "s", "5", "Short"}, {"long", "l", "6", "Long"}, {"deep", "e", "7", "Deep"},
	{"curl-1", "1", "1", "curl"}, {"curl-2", "2", "2", "curl"}, {"curl-3", "3", "3", "curl"}, {"off", "o", "0", "off"},
}

// choosePull are the keys that say from where on plants are pulled today, each with how
// many of the plants looked at it would pull now.
func (t *triage) choosePull() group {
	g := group{title: "Today pull what was looked at, and the next as it is looked at, from"}
	for i, k := range pullKeys {
		hint, help := k.hint, "from "+k.hint+" on"
		switch {
		case k.rule == "off":
			help = "with p only"
		case k.hint == "curl":
			help = "from " + strings.Replace(k.rule, "-", " ", 1) + " on"
		default:
			hint += fmt.Sprintf(" %d", t.choosing[i])
		}
		g.keys = append(g.keys, act(k.key, help, func() {
			t.choosing = nil
			t.pullFrom(k.rule)
		}).pad(k.pad).foot(hint))
	}
	g.keys = append(g.keys, anyOther("nothing", func(tea.KeyMsg) tea.Cmd {
		t.choosing = nil
		t.desk.say("")
		return nil
	}))
	return g
}

// askPull asks from where on plants are pulled.
func (t *triage) askPull() {
	t.choosing = make([]int, len(pullKeys))
	for i, k := range pullKeys {
		t.choosing[i] = len(t.lookedAndNeed(k.rule))
	}
	t.desk.say("Pull from which soak on today? Each key says how many of those looked at go now")
}

// pullFrom says from where on plants are pulled today, and pulls what was looked at before.
func (t *triage) pullFrom(rule string) {
	info := model.LimitTable[model.PullItself]
	at := slices.Index(info.Choices, rule)
	before := t.byRule
	if t.byRuleAt != t.desk.version {
		before = nil // something else was entered since: what it pulled stays pulled
	}
	if is, today := t.desk.book.PullsItself(t.desk.now); (is != rule || !today) &&
		!t.desk.enter(&model.RuleSet{Name: info.Name, Value: float64(at), Today: true}) {
		return
	}
	pulled := t.pullLooked(before)
	t.byRuleAt = t.desk.version
	t.recount()
	switch words := pullWords(rule); {
	case rule == "off":
		t.desk.say("Today plants are pulled with p only")
	case pulled > 0:
		t.desk.say("Pulled %s; today %s, as you look (every day: Rules)", show.Count(pulled, "plant"), words)
	default:
		t.desk.say("None looked at so far; today %s, as you look (every day: Rules)", words)
	}
}

// lookedAndNeed are the plants looked at in this walk that a rule would pull now.
func (t *triage) lookedAndNeed(rule string) model.IDs {
	var want model.IDs
	for _, id := range t.desk.book.IDs() {
		if t.looked(id) && t.desk.need(id) != nil && t.pulledBy(rule, id) {
			want = append(want, id)
		}
	}
	ids, _ := t.pullable(want)
	return ids
}

// pullLooked pulls the plants that were looked at before it was said from where on, and
// gives their number. What the setting before had pulled,
// and this one would not, goes back.
func (t *triage) pullLooked(before model.IDs) int {
	var want, back model.IDs
	for _, id := range t.desk.book.IDs() {
		waits := t.desk.book.Waiting().Has(id)
		switch wanted := t.looked(id) && t.desk.need(id) != nil && t.pulledAtOnce(id); {
		case wanted && (!waits || before.Has(id)):
			want = append(want, id)
		case !wanted && waits && before.Has(id):
			back = append(back, id)
		}
	}
	if len(back) > 0 && !t.desk.enter(&model.PutBack{}, back...) {
		return 0
	}
	ids, _ := t.pullable(want)
	if len(ids) > 0 && !t.desk.enter(&model.Pull{}, ids...) {
		return 0
	}
	t.byRule = ids
	for _, id := range want {
		if before.Has(id) && t.desk.book.Waiting().Has(id) {
			t.byRule = append(t.byRule, id)
		}
	}
	return len(t.byRule)
}

// pullWords say from where on: "the next from Dip on".
func pullWords(rule string) string {
	return "the next from " + show.Line(strings.ReplaceAll(rule, "-", " ")) + " on"
}

func leftBehind(bloom, rot, away int) string {
	text := ""
	if bloom > 0 {
		text += fmt.Sprintf("; %d in bloom, to be misted", bloom)
	}
	if rot > 0 {
		text += fmt.Sprintf("; %d with suspected rot, not soaked", rot)
	}
	if away > 0 {
		text += fmt.Sprintf("; %d not at home", away)
	}
	return text
}
