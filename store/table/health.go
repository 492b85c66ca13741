package table

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tubside/model"
)

// health is what a row says of rot, troubles and offsets.
type health struct {
	rot, fading answer
	troubles    []model.Ailment // nil: not said; empty: none
	offsets     *model.Offsets  // nil: not said
}

// answer is what a cell of yes or no says.
type answer uint8

const (
	unanswered answer = iota
	no
	yes
)

// answers are the words understood as yes and no.
var answers = map[string]answer{
	"yes": yes, "y": yes, "true": yes, "t": yes, "1": yes, "x": yes, "✓": yes, "✔": yes, "on": yes,
	"no": no, "n": no, "false": no, "f": no, "0": no, "off": no, "none": no, "not": no, "over": no,
}

func readAnswer(cell, do string) (answer, error) {
	a, ok := answers[strings.ToLower(cell)]
	if !ok {
		return unanswered, &model.Problem{What: quote(cell) + " is neither yes nor no", Do: do}
	}
	return a, nil
}

func answerTo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// readTroubles reads what a plant has, "scale; mites", in any order; none is a
// plant that has nothing.
func readTroubles(cell string) ([]model.Ailment, error) {
	has := []model.Ailment{}
	if answers[strings.ToLower(cell)] == no {
		return has, nil
	}
	for _, word := range strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(";,/+", r) }) {
		word = strings.TrimSpace(word)
		if word == "" {
			continue
		}
		what, err := model.ParseAilment(word)
		if err != nil {
			return nil, &model.Problem{
				What: quote(word) + " is not one of the troubles",
				Do:   "use " + ailmentWords(model.Ailments, ", ") + " or none; rot has a column of its own",
			}
		}
		has = append(has, what)
	}
	return has, nil
}

// troublesCell lists what a plant has, in the order of [model.Ailments].
func troublesCell(r *model.Row) string {
	var has []model.Ailment
	for _, what := range model.Ailments {
		if suffers(r, what) {
			has = append(has, what)
		}
	}
	return ailmentWords(has, "; ")
}

func ailmentWords(all []model.Ailment, between string) string {
	words := make([]string, len(all))
	for i, what := range all {
		words[i] = string(what)
	}
	return strings.Join(words, between)
}

func suffers(r *model.Row, what model.Ailment) bool {
	return slices.ContainsFunc(r.Troubles, func(t model.Ill) bool { return t.What == what })
}

var offsetsForm = regexp.MustCompile(`^([0-9]{1,3})\s*(?:\(\s*([0-9]{1,3})\s*%\s*\))?$`)

// The bounds that the book sets an [model.Offsets] fact.
const (
	mostOffsets = 100
	mostPercent = 150 // of the parent's size
)

// readOffsets reads a count and the biggest's share of its parent's size:
// "3 (40 %)", "3".
func readOffsets(cell string) (*model.Offsets, error) {
	if answers[strings.ToLower(cell)] == no {
		return &model.Offsets{}, nil
	}
	if m := offsetsForm.FindStringSubmatch(cell); m != nil {
		count, percent := decimal(m[1]), 0.0
		if m[2] != "" {
			percent = decimal(m[2])
		}
		if count <= mostOffsets && percent <= mostPercent {
			return &model.Offsets{Count: int(count), Share: percent / 100}, nil
		}
	}
	return nil, &model.Problem{
		What: quote(cell) + " does not count offsets",
		Do: fmt.Sprintf("write how many, up to %d, and how big the biggest is beside its parent: 3 (40 %%)",
			mostOffsets),
	}
}

// offsetsCell rounds the share to a whole percent.
func offsetsCell(r *model.Row) string {
	switch percent := percentOf(r.OffsetShare); {
	case r.Offsets == 0:
		return ""
	case percent == 0:
		return strconv.Itoa(r.Offsets)
	default:
		return fmt.Sprintf("%d (%d %%)", r.Offsets, percent)
	}
}

func percentOf(share float64) int { return int(math.Round(share * 100)) }

// health notes what the file says of a plant's health that is news to the book,
// and reports whether anything is.
func (p *planner) health(id model.ID, was *model.Row, h health) bool {
	rot := turn(h.rot, !was.Rot.IsZero(), id, &p.fact.RotOn, &p.fact.RotOff)
	fading := turn(h.fading, !was.Fading.IsZero(), id, &p.fact.FadingOn, &p.fact.FadingOff)
	troubles := h.troubles != nil && p.troubles(id, was, h.troubles)
	offsets := h.offsets != nil && p.offsets(id, was, *h.offsets)
	p.sum.RotOn, p.sum.RotOff = len(p.fact.RotOn), len(p.fact.RotOff)
	p.sum.FadingOn, p.sum.FadingOff = len(p.fact.FadingOn), len(p.fact.FadingOff)
	return rot || fading || troubles || offsets
}

// turn lists a plant under on or off if the answer is news.
func turn(a answer, was bool, id model.ID, on, off *model.IDs) bool {
	switch {
	case a == yes && !was:
		*on = append(*on, id)
	case a == no && was:
		*off = append(*off, id)
	default:
		return false
	}
	return true
}

func (p *planner) troubles(id model.ID, was *model.Row, has []model.Ailment) (news bool) {
	for _, what := range model.Ailments {
		switch is := slices.Contains(has, what); {
		case is == suffers(was, what):
			continue
		case is:
			list(&p.fact.TroubleOn, what, id)
		default:
			list(&p.fact.TroubleOff, what, id)
		}
		news = true
	}
	if news {
		p.sum.Troubles++
	}
	return news
}

func list(under *map[model.Ailment]model.IDs, what model.Ailment, id model.ID) {
	if *under == nil {
		*under = map[model.Ailment]model.IDs{}
	}
	(*under)[what] = append((*under)[what], id)
}

// offsets compares as the file rounds. A count alone says less than one with a
// share, and does not take the share back.
func (p *planner) offsets(id model.ID, was *model.Row, seen model.Offsets) bool {
	if seen.Count == was.Offsets && (seen.Count == 0 || seen.Share == 0 ||
		percentOf(seen.Share) == percentOf(was.OffsetShare)) {
		return false
	}
	p.fact.Offsets = append(p.fact.Offsets, model.OffsetsOf{Plant: id, Seen: seen})
	p.sum.Offsets++
	return true
}
