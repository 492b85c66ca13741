package show_test

import (
	"math"
	"slices"
	"testing"

	"tubside/ui/show"
)

func TestColumns(t *testing.T) {
	values := []float64{0, 0.5, 1, math.NaN(), 2, 3, -1, 9}
	want := []string{"     █ █", "    ██ █", "▁▄█ ██▁█"}
	if got := show.Columns(values, 0, 3, 3); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := show.ASCII(want[2]), "_-# ##_#"; got != want {
		t.Errorf("in plain signs %q, want %q", got, want)
	}
	if got := show.Columns(nil, 0, 1, 2); !slices.Equal(got, []string{"", ""}) {
		t.Errorf("of nothing: %q", got)
	}
}
