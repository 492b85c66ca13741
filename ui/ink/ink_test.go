package ink

import "testing"

func TestADepthIsReadFromTheEnvironment(t *testing.T) {
	for _, c := range []struct {
		environ []string
		want    Depth
	}{
		{[]string{"TERM=xterm-256color", "COLORTERM=truecolor"}, Truecolor},
		{[]string{"TERM=xterm-256color"}, Many},
		{[]string{"TERM=tmux-256color", "COLORTERM=truecolor"}, Many},
		{[]string{"TERM=linux"}, Sixteen},
		{[]string{"TERM=xterm-256color", "NO_COLOR=1"}, Mono},
		{[]string{"TERM=xterm-256color", "NO_COLOR=yes"}, Mono},
		{[]string{"TERM=xterm-256color", "NO_COLOR="}, Many},
		{[]string{"TERM=dumb"}, Plain},
		{[]string{"TERM=dumb", "NO_COLOR=1"}, Plain},
	} {
		if got := DepthFrom(c.environ); got != c.want {
			t.Errorf("%q: %d, want %d", c.environ, got, c.want)
		}
	}
}

func TestThePaperIsReadFromWhatTerminalsSay(t *testing.T) {
	for said, want := range map[string]Paper{"15;0": Dark, "0;15": Light, "0;default;15": Light, "7;8": Dark,
		"0;7": Light} {
		if got, ok := PaperFrom([]string{"COLORFGBG=" + said}); !ok || got != want {
			t.Errorf("COLORFGBG=%s: %v, %v", said, got, ok)
		}
	}
	for _, said := range []string{"", ";", "15;default", "1;99"} {
		if _, ok := PaperFrom([]string{"COLORFGBG=" + said}); ok {
			t.Errorf("COLORFGBG=%s says something", said)
		}
	}
	for said, want := range map[string]Paper{"light": Light, "dark": Dark} { // a person knows better than COLORFGBG
		if got, ok := PaperFrom([]string{"COLORFGBG=15;0", "TUBSIDE_PAPER=" + said, "COLORFGBG=0;15"}); !ok || got != want {
			t.Errorf("TUBSIDE_PAPER=%s: %v, %v", said, got, ok)
		}
	}
	for answer, want := range map[string]Paper{"rgb:0000/0000/0000": Dark, "rgb:ff/ff/ff": Light,
		"rgba:1414/1616/1a1a/ffff": Dark, "rgb:f/f/d": Light} {
		if got, ok := PaperOf(answer); !ok || got != want {
			t.Errorf("%s: %v, %v", answer, got, ok)
		}
	}
	for _, answer := range []string{"", "rgb:", "rgb:0/0", "#ffffff", "rgb:x/y/z", "rgb:fffff/0/0"} {
		if _, ok := PaperOf(answer); ok {
			t.Errorf("%q is taken for an answer", answer)
		}
	}
}

func TestAnInkIsWrittenAsItsDepthWants(t *testing.T) {
	ink := Ink{Hex: "#0102ff", Many: 17, Few: 12}
	for depth, want := range []string{"", "", "\x1b[94m", "\x1b[38;5;17m", "\x1b[38;2;1;2;255m"} {
		if got := ink.Over(Depth(depth)); got != want {
			t.Errorf("depth %d: %q, want %q", depth, got, want)
		}
	}
	if got := ink.Under(Sixteen); got != "\x1b[104m" {
		t.Errorf("behind text: %q", got)
	}
}
