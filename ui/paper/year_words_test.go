package paper

import (
	"testing"

	"tubside/model/accounts"
)

// A list of plants that were there before is said apart from what came and went, and a
// month by its name.
func TestTheLedgersWords(t *testing.T) {
	for _, c := range []struct {
		flow accounts.Flow
		want string
	}{
		{accounts.Flow{Opening: 10, Came: 3, Closing: 13}, ", 3 more than at the start"},
		{accounts.Flow{Opening: 10, Lost: 1, Closing: 9}, ", 1 fewer than at the start"},
		{accounts.Flow{Opening: 10, Closing: 10}, ", as many as at the start"},
		{accounts.Flow{Listed: 872, Came: 56, Lost: 30, Closing: 898},
			". 872 plants you already had were entered in this time; apart from them 26 more came than went"},
		{accounts.Flow{Listed: 1, Opening: 20, Lost: 13, Closing: 8},
			". 1 plant you already had was entered in this time; apart from it 13 more went than came"},
	} {
		if got := changeWords(c.flow); got != c.want {
			t.Errorf("%+v: %q, want %q", c.flow, got, c.want)
		}
	}
	lines := byMonth(accounts.Ledger{ByMonth: []accounts.Line{{Key: "2026-01"}}})
	if lines[0].Key != "Jan 2026" {
		t.Errorf("a month is called %q", lines[0].Key)
	}
}
