package board

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/ui/show"
)

// What a new book is told, read from the words a person types.

func unitsAsText(d *desk) string {
	rules := d.book.Rules()
	return rules.Word(model.TempUnit) + ", " + rules.Word(model.VolumeUnit)
}

// takeUnits reads "f, gal", in any order; what is left out stays.
func takeUnits(d *desk, text string) ([]model.Fact, error) {
	var facts []model.Fact
	for word := range strings.FieldsSeq(strings.ReplaceAll(text, ",", " ")) {
		limit := model.TempUnit
		if _, err := model.ParseLimit(model.VolumeUnit, word); err == nil {
			limit = model.VolumeUnit
		}
		some, err := ruleFacts(d, limit, word)
		if err != nil {
			return nil, &model.Problem{What: fmt.Sprintf("%q is not a unit", word), Do: "write c or f, and L or gal"}
		}
		facts = append(facts, some...)
	}
	return facts, nil
}

// ruleFacts set a rule, unless it has the value already.
func ruleFacts(d *desk, l model.Limit, text string) ([]model.Fact, error) {
	v, err := model.ParseLimit(l, text)
	if err != nil || v == d.book.Rules()[l] {
		return nil, err
	}
	return []model.Fact{&model.RuleSet{Name: model.LimitTable[l].Name, Value: v}}, nil
}

func vesselsAsText(d *desk) string {
	var words []string
	for _, v := range d.book.Vessels() {
		words = append(words, v.Name+" "+show.Volume(v.Litres, d.book.Rules()))
	}
	return strings.Join(words, ", ")
}

// vesselText is how many there are of a vessel, its name and what it holds.
var vesselText = regexp.MustCompile(`(?i)^(?:([1-9])\s*(?:x|×)?\s+)?(\D.*?)\s+([0-9]+(?:[.][0-9]+)?\s*([a-z]*))$`)

// takeVessels reads "tub 100, bucket 10"; what is named twice, or "2 buckets 10", is
// numbered. A grower who counts in gallons is taken to go on doing so.
func takeVessels(d *desk, text string) ([]model.Fact, error) {
	var named []model.Vessel
	gallons, litres := 0, 0
	for _, part := range strings.Split(text, ",") {
		m := vesselText.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			return nil, &model.Problem{
				What: fmt.Sprintf("%q is not a name and an amount of water", strings.TrimSpace(part)),
				Do:   "write tub 100, bucket 10",
			}
		}
		holds, err := show.ParseVolume(m[3], d.book.Rules().Gallons())
		if err != nil {
			return nil, err
		}
		switch unit := strings.ToLower(m[4]); {
		case strings.HasPrefix(unit, "g"):
			gallons++
		case unit != "":
			litres++
		}
		name, n := m[2], 1
		if m[1] != "" && m[1] != "1" {
			n, _ = strconv.Atoi(m[1])
			name = strings.TrimSuffix(name, "s")
		}
		for range n {
			named = append(named, model.Vessel{Name: name, Litres: holds})
		}
	}
	numberAlike(named)
	var facts []model.Fact
	if gallons > 0 && litres == 0 && !d.book.Rules().Gallons() {
		inGallons, err := ruleFacts(d, model.VolumeUnit, "gal")
		if err != nil {
			return nil, err
		}
		facts = inGallons
	}
	return append(facts, settleVessels(d, named)...), nil
}

// numberAlike tells vessels of one name apart: "bucket 1", "bucket 2".
func numberAlike(named []model.Vessel) {
	times := map[string]int{}
	for _, v := range named {
		times[strings.ToLower(v.Name)]++
	}
	next := map[string]int{}
	for i, v := range named {
		key := strings.ToLower(v.Name)
		if times[key] == 1 {
			continue
		}
		for next[key]++; times[fmt.Sprintf("%s %d", key, next[key])] > 0; {
			next[key]++ // another has that number already
		}
		named[i].Name = fmt.Sprintf("%s %d", v.Name, next[key])
	}
}

// settleVessels makes the named vessels those of the house.
func settleVessels(d *desk, named []model.Vessel) []model.Fact {
	var facts []model.Fact
	here := map[string]bool{}
	for _, v := range named {
		here[strings.ToLower(v.Name)] = true
		set, known := d.book.Vessel(v.Name) // what else is known of it stays
		rules := d.book.Rules()
		if known && show.Volume(set.Litres, rules) == show.Volume(v.Litres, rules) { // what is shown is rounded
			continue
		}
		set.Name, set.Litres = v.Name, v.Litres
		facts = append(facts, &model.VesselSet{Vessel: set})
	}
	for _, v := range d.book.Vessels() {
		if !here[strings.ToLower(v.Name)] {
			facts = append(facts, &model.VesselSet{Vessel: model.Vessel{Name: v.Name}, Away: true})
		}
	}
	return facts
}

// soakDays are the hours for soaking by day of the week.
var soakDays = []struct {
	name  string
	limit model.Limit
}{
	{"Mon", model.SoakMon}, {"Tue", model.SoakTue}, {"Wed", model.SoakWed}, {"Thu", model.SoakThu},
	{"Fri", model.SoakFri}, {"Sat", model.SoakSat}, {"Sun", model.SoakSun},
}

func daysAsText(d *desk) string {
	var words []string
	for _, day := range soakDays {
		if hours := d.book.Rules()[day.limit]; hours > 0 {
			words = append(words, fmt.Sprintf("%s %g", day.name, hours))
		}
	}
	return strings.Join(words, ", ")
}

var (
	dayText = regexp.MustCompile(`(?i)^(mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?(?:\s*([0-9]+(?:[.][0-9]+)?)\s*(?:h|hrs?|hours?)?)?(?:$|[\s,;+&]+(?:and\s+)?)`)
)

// takeDays reads "Sat 5, Sun 5"; a day alone has the hours that stand there, or those
// of a Saturday.
func takeDays(d *desk, text string) ([]model.Fact, error) {
	hours := map[string]string{}
	for rest := text; rest != "" || len(hours) == 0; {
		m := dayText.FindStringSubmatch(rest)
		if m == nil {
			return nil, &model.Problem{What: fmt.Sprintf("%q is not a day and its hours", rest), Do: "write Sat 5, Sun 5"}
		}
		hours[strings.ToLower(m[1])] = m[2]
		rest = strings.TrimSpace(rest[len(m[0]):])
	}
	var facts []model.Fact
	for _, day := range soakDays {
		said, named := hours[strings.ToLower(day.name)]
		switch usual := d.book.Rules()[day.limit]; {
		case !named:
			said = "0"
		case said == "" && usual > 0:
			said = fmt.Sprintf("%g", usual)
		case said == "":
			said = fmt.Sprintf("%g", model.LimitTable[model.SoakSat].Default)
		}
		some, err := ruleFacts(d, day.limit, said)
		if err != nil {
			return nil, err
		}
		facts = append(facts, some...)
	}
	return facts, nil
}

// ceiling is how high a room is taken to be whose floor alone is said, m: a guess.
const ceiling = 2.5

// foot is a foot in metres.
const foot = 0.3048

var (
	// roomText is a room by its floor or its air, and sidesText one by its sides; then what
	// is open.
	roomText  = regexp.MustCompile(`(?i)^([0-9]+(?:[.][0-9]+)?)\s*(?:(?:sq\.?|square)?\s*(m|ft)\s*(2|3)?)?\s*,?\s*([a-z]*)$`)
	sidesText = regexp.MustCompile(`(?i)^([0-9]+(?:[.][0-9]+)?)\s*(?:m|ft)?\s*(?:x|by)\s*([0-9]+(?:[.][0-9]+)?)\s*(m|ft)?` +
		`(?:\s*(?:x|by)\s*([0-9]+(?:[.][0-9]+)?)\s*(m|ft)?)?\s*,?\s*([a-z]*)$`)
)

// size is how big a room is; its floor is 0 where its air was said.
type size struct{ floor, air float64 } // m², m³

// roomOf reads "16 m², shut", "4x5 m" and the like, and the word for what is open.
func roomOf(text string) (of size, open string, err error) {
	text = strings.NewReplacer("²", "2", "³", "3", "×", "x").Replace(text)
	number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	side := func(unit string) float64 {
		if strings.EqualFold(unit, "ft") {
			return foot
		}
		return 1
	}
	if m := sidesText.FindStringSubmatch(text); m != nil {
		unit := side(cmp.Or(m[5], m[3]))
		of.floor, open = number(m[1])*number(m[2])*unit*unit, m[6]
		if m[4] != "" {
			return size{air: of.floor * number(m[4]) * unit}, open, nil
		}
		of.air = of.floor * ceiling
		return of, open, nil
	}
	m := roomText.FindStringSubmatch(text)
	switch {
	case m == nil, m[2] != "" && m[3] == "":
		return size{}, "", &model.Problem{What: fmt.Sprintf("%q is not a room", text), Do: "write 16 m², shut, or 4x5 m"}
	case m[3] == "2":
		of.floor = number(m[1]) * side(m[2]) * side(m[2])
		of.air = of.floor * ceiling
	default:
		of.air = number(m[1]) * side(m[2]) * side(m[2]) * side(m[2])
	}
	return of, m[4], nil
}

func roomAsText(d *desk) string {
	return fmt.Sprintf("%g m³, %s", d.book.Rules()[model.RoomVolume], d.book.Window(d.now).Window)
}

// roomSays is the room as it was taken.
func roomSays(d *desk, text string) string {
	if of, _, err := roomOf(text); err == nil && of.floor > 0 {
		return fmt.Sprintf("The room: %.4g m², taken as %s, with a ceiling at %g m", of.floor, roomAsText(d), ceiling)
	}
	return "The room: " + roomAsText(d)
}

// takeRoom reads "16 m², shut".
func takeRoom(d *desk, text string) ([]model.Fact, error) {
	of, open, err := roomOf(text)
	if err != nil {
		return nil, err
	}
	facts, err := ruleFacts(d, model.RoomVolume, fmt.Sprintf("%.4g", of.air))
	if err != nil || open == "" {
		return facts, err
	}
	window, err := model.ParseWindow(open)
	if err == nil && window != d.book.Window(d.now).Window {
		facts = append(facts, &model.WindowSet{Window: window})
	}
	return facts, err
}
