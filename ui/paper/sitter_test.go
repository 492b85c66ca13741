package paper_test

import (
	"strings"
	"testing"
	"time"

	"tubside/ui/paper"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/trip"
	"tubside/ui/show"
)

func may(d, hour int) time.Time { return time.Date(2026, 5, d, hour, 0, 0, 0, time.UTC) }

// shelves is a book of n greens, the last of them bulbous, on shelves of 25.
func shelves(t *testing.T, n int) *model.Book {
	t.Helper()
	b := model.NewBook(time.UTC)
	var plants []model.Plant
	for id := model.ID(1); id <= model.ID(n); id++ {
		plants = append(plants, model.Plant{
			ID: id, Count: 1, Label: "tag " + id.String(), Form: model.Rosette, Leaf: model.Mesic, Size: 12,
			Home: model.Home{Shelf: string(rune('A' + (id-1)/25)), Spot: id.String()},
		})
	}
	plants[n-1].Form = model.Bulbous
	e := model.NewEntry(may(1, 8), &model.Add{Plants: plants})
	e.Seq = 1
	if err := b.Check(e); err != nil {
		t.Fatal(err)
	}
	if err := b.Apply(e); err != nil {
		t.Fatal(err)
	}
	return b
}

func sitterPage(t *testing.T, b *model.Book, days int, where paper.Places) string {
	t.Helper()
	k := estimate.New(b)
	away := trip.NewForecast(k, may(5, 9), may(7, 8), may(7, 8).AddDate(0, 0, days), estimate.AirGiven(22, 35))
	s := paper.SitterSheet(b, away, trip.SitterJob(k, away), where)
	html, err := s.HTML()
	if err != nil || !strings.Contains(html, "<h1>While I am away</h1>") {
		t.Errorf("%v\n%s", err, html)
	}
	text := s.Text()
	for line := range strings.Lines(text) {
		if show.Width(strings.TrimRight(line, "\n")) > 80 {
			t.Errorf("a line too wide: %q", line)
		}
	}
	return text
}

func has(t *testing.T, text string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q:\n%s", want, text)
		}
	}
}

// A short trip asks a sitter for nothing but a look.
func TestAShortTripNeedsNobody(t *testing.T) {
	text := sitterPage(t, shelves(t, 4), 6, paper.Places{Fan: "in the hall"})
	has(t, text, "Thursday 7 May 2026 to Wednesday 13 May 2026", "look, and touch nothing", "[ ] Sunday 10 May 2026",
		"Fan and its switch: in the hall",
		"My phone: ____", "! Never leave a filled bucket", "US Consumer Product", "1.5 m (5 ft)")
	if strings.Contains(text, "soak") {
		t.Errorf("a look that speaks of soaking:\n%s", text)
	}
}

// A long one asks for one soak of the plants that would come to harm, on days
// with dates, and never of a bulb.
func TestALongTripAsksForOneSoak(t *testing.T) {
	text := sitterPage(t, shelves(t, 4), 60, paper.Places{})
	has(t, text, "Your one job: one soak", "for 30 min, by the clock", "for at least 4 h", "[ ]   1  tag 1  A 1",
		"[ ]   3  tag 3", "Empty the bucket at once")
	if strings.Contains(text, "tag 4") || strings.Count(text, "day ") < 2 {
		t.Errorf("a bulb in a sitter's hands, or no days:\n%s", text)
	}
}

// However many plants would come to harm, the page stays a page and the job an
// hour.
func TestThePageStaysAPage(t *testing.T) {
	text := sitterPage(t, shelves(t, 120), 60, paper.Places{})
	if boxes := strings.Count(text, "[ ]  "); boxes != 24 {
		t.Errorf("%d plants to soak", boxes)
	}
	if lines := strings.Count(text, "\n"); lines > 100 {
		t.Errorf("%d lines", lines)
	}
}
