package command

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/store/table"
	"tubside/ui/show"
)

// mostListed is how many warnings or names are listed before the rest is
// counted; JSON has all of them. Our own.
const mostListed = 20

// summary says to a person what an import did, or would do.
func (in *takeIn) summary(seq *model.Seq, sum table.Summary) error {
	var b strings.Builder
	b.WriteString(in.headline(seq, sum) + "\n")
	if sum.AssumedForm+sum.AssumedLeaf+sum.AssumedSize > 0 {
		fmt.Fprintf(&b, "  assumed from the species list: form of %d, leaf of %d, size of %d\n", sum.AssumedForm, sum.AssumedLeaf, sum.AssumedSize)
	}
	if n := sum.BloomOn + sum.BloomOff; n > 0 {
		fmt.Fprintf(&b, "  in bloom: %d; no longer: %d\n", sum.BloomOn, sum.BloomOff)
	}
	b.WriteString(healthWords(sum))
	if sum.Gone > 0 {
		fmt.Fprintf(&b, "  left out, gone: %d\n", sum.Gone)
	}
	if len(sum.Unknown) > 0 {
		fmt.Fprintf(&b, "  not on the species list: %s\n", someOf(sum.Unknown))
	}
	if len(sum.Ignored) > 0 {
		fmt.Fprintf(&b, "  columns left out: %s\n", someOf(sum.Ignored))
	}
	for i, w := range sum.Warnings {
		if i == mostListed {
			fmt.Fprintf(&b, "  and %d more: see --json\n", len(sum.Warnings)-i)
			break
		}
		fmt.Fprintf(&b, "  %s\n", show.Safe(w))
	}
	return in.print(b.String())
}

// healthWords says of how many plants the file tells rot, troubles or offsets.
func healthWords(sum table.Summary) string {
	var b strings.Builder
	if sum.RotOn+sum.RotOff > 0 {
		fmt.Fprintf(&b, "  suspected rot: %d; no longer: %d\n", sum.RotOn, sum.RotOff)
	}
	if sum.Troubles > 0 {
		fmt.Fprintf(&b, "  other troubles told: %d\n", sum.Troubles)
	}
	if sum.Offsets > 0 {
		fmt.Fprintf(&b, "  offsets told: %d\n", sum.Offsets)
	}
	if sum.FadingOn+sum.FadingOff > 0 {
		fmt.Fprintf(&b, "  fading: %d; no longer: %d\n", sum.FadingOn, sum.FadingOff)
	}
	return b.String()
}

// headline is the first line of a summary.
func (in *takeIn) headline(seq *model.Seq, sum table.Summary) string {
	file := show.Safe(in.name())
	switch {
	case !sum.Changes():
		return fmt.Sprintf("%s: %s, nothing to change", file, show.Count(sum.Rows, "row"))
	case seq == nil:
		return fmt.Sprintf("%s: %s; would add %d, change %d, leave %d as they are", file, show.Count(sum.Rows, "row"), sum.Added, sum.Changed, sum.Unchanged)
	}
	return fmt.Sprintf("wrote %d: %s: %s; %d added, %d changed, %d as they were", *seq, file, show.Count(sum.Rows, "row"), sum.Added, sum.Changed, sum.Unchanged)
}

func someOf(names []string) string {
	text := show.Safe(strings.Join(names[:min(len(names), mostListed)], ", "))
	if more := len(names) - mostListed; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}
