package board

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// With one vessel or five, at any size, the clock names each that is in the water
// and nothing is cut off.
func TestTheBigClockShowsEveryVessel(t *testing.T) {
	for vessels := 1; vessels <= 5; vessels++ {
		g := newGrower(t).shelves()
		for i := range vessels {
			g.enters(soakDay, &model.VesselSet{Vessel: model.Vessel{Name: fmt.Sprint("bucket ", i+1), Litres: 10}})
			g.enters(soakDay, &model.Soak{Load: model.LoadID(i + 1), Vessel: fmt.Sprint("bucket ", i+1),
				Due: soakDay.Add(time.Duration(i+1) * time.Hour)}, model.ID(i+1))
		}
		g.keys("c")
		for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
			g.size(size[0], size[1])
			below := strings.Join(strings.Split(g.screen(), "\n")[3:], "\n") // the strip names them too
			large := strings.Count(below, "out at")
			small := strings.Count(below, "bucket ")
			if large+small != vessels || large == 0 {
				t.Errorf("%d vessels at %v: %d large and %d small:\n%s", vessels, size, large, small, g.screen())
			}
		}
	}
}

// What is due first is as large as the window lets it be.
func TestTheBigClockFillsTheWindow(t *testing.T) {
	one := []reading{{name: "tub", digits: "22:00"}}
	for _, c := range []struct{ width, height, scale int }{{56, 16, 2}, {76, 20, 3}, {156, 46, 6}} {
		scale, _ := fitBig(one, c.width, c.height, false)
		if scale < c.scale {
			t.Errorf("%dx%d: %d, want at least %d", c.width, c.height, scale, c.scale)
		}
	}
}

func TestLargeLettersHaveTheirSize(t *testing.T) {
	for scale := 1; scale < 7; scale++ {
		lines := big("Tub 1", scale, false)
		if len(lines) != bigHeight(scale, false) {
			t.Errorf("scale %d: %d lines, want %d", scale, len(lines), bigHeight(scale, false))
		}
		for _, line := range lines {
			if n := len([]rune(line)); n != (5+1+5+1+5+1+2+1+5)*scale {
				t.Errorf("scale %d: a line of %d", scale, n)
			}
		}
	}
}

// Without half blocks the smallest letters are as high as they have rows, and hold
// nothing but plain signs.
func TestPlainLettersAreWhole(t *testing.T) {
	lines := big("1:05", 1, true)
	if len(lines) != bigHeight(1, true) || strings.Trim(strings.Join(lines, ""), "# ") != "" {
		t.Errorf("%d lines: %q", len(lines), lines)
	}
}
