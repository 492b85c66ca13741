package model_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

// The book on disk is read for as long as there are plants: these lines may
// never read otherwise, and the same thing told again is written the same.
func TestLinesAsTheyStandOnDisk(t *testing.T) {
	for _, c := range []struct {
		entry model.Entry
		want  string
	}{
		{model.NewEntry(soakDay, &model.Mist{}, 1, 2, 3, 9), `{"v":1,"at":"2026-05-02T09:00:00Z","kind":"mist","plants":"1-3 9"}`},
		{
			model.NewEntry(soakDay, &model.Soak{Load: 4, Vessel: "tub", Due: soakDay.Add(time.Hour)}, 3, 2),
			`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"soak","plants":"3 2","fact":{"load":4,"vessel":"tub","due":"2026-05-02T10:00:00Z"}}`,
		},
		{
			model.NewEntry(soakDay, &model.Look{Signs: model.LooksFine}, 1),
			`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"signs","plants":"1","fact":{"curl":0,"tips":0,"shift":null}}`,
		},
		{
			model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{{ID: 1, Name: "ionantha", Count: 1,
				Home: model.Home{Shelf: "A"}}}}),
			`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"add","fact":{"plants":[{"id":1,"name":"ionantha","count":1,"home":{"shelf":"A"}}]}}`,
		},
		{model.NewEntry(soakDay, &model.Strike{Seq: 12}), `{"v":1,"at":"2026-05-02T09:00:00Z","kind":"strike","fact":{"entry":12}}`},
	} {
		text, err := json.Marshal(c.entry)
		if err != nil || string(text) != c.want {
			t.Errorf("written as\n%s, %v; want\n%s", text, err, c.want)
		}
		var got model.Entry
		if err := json.Unmarshal([]byte(c.want), &got); err != nil || !cmp.Equal(got, c.entry) {
			t.Errorf("%s read as %+v, %v", c.want, got, err)
		}
	}
}

// The number is the key in the book, not part of the line.
func TestTheNumberOfALineIsItsKey(t *testing.T) {
	e := model.NewEntry(soakDay, &model.Mist{}, 1)
	e.Seq = 41
	text, err := json.Marshal(e)
	if err != nil || strings.Contains(string(text), "41") {
		t.Errorf("written as %s, %v", text, err)
	}
	got := model.Entry{Seq: 41}
	if err := json.Unmarshal(text, &got); err != nil || !cmp.Equal(got, e) {
		t.Errorf("read as %+v, %v", got, err)
	}
}

// Entries keep the wall clock to the second, whatever zone it was told in.
func TestTimesAreKeptToTheSecond(t *testing.T) {
	told := time.Date(2026, 5, 2, 12, 0, 7, 999_000_000, zone(t, "Europe/Tallinn"))
	if got := model.NewEntry(told, &model.Mist{}, 1).At; got != time.Date(2026, 5, 2, 9, 0, 7, 0, time.UTC) {
		t.Errorf("kept as %v", got)
	}
}

// A line by a later tubside is not guessed at.
func TestLinesOfALaterTubside(t *testing.T) {
	for _, text := range []string{
		`{"v":2,"at":"2026-05-02T09:00:00Z","kind":"mist","plants":"1"}`,
		`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"repot","plants":"1"}`,
		`{"v":1,"at":"2026-05-02T09:00:00Z"}`,
		`{"v":2,"at":"2026-05-02T09:00:00Z","kind":"mist","fact":[1]}`, // of whatever shape
	} {
		var e model.Entry
		if err := json.Unmarshal([]byte(text), &e); !errors.Is(err, model.ErrNewerEntry) || e.Fact != nil {
			t.Errorf("%s read as %+v, %v; want ErrNewerEntry", text, e.Fact, err)
		}
	}
}

func TestDamagedLines(t *testing.T) {
	for text, step := range map[string]string{
		`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"soak","fact":{"load":"four"}}`: "read soak entry",
		`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"signs","fact":{"curl":7}}`:     "read signs entry",
		`{"v":1,"at":"2026-05-02T09:00:00Z","kind":"mist","plants":"9-1"}`:         "read entry",
		`{"v":1,"at":"yesterday","kind":"mist","plants":"1"}`:                      "read entry",
		`{"v":"one"}`: "read entry",
	} {
		var e model.Entry
		err := json.Unmarshal([]byte(text), &e)
		if err == nil || !strings.HasPrefix(err.Error(), step) || errors.Is(err, model.ErrNewerEntry) {
			t.Errorf("%s: %v, want it to begin with %q", text, err, step)
		}
	}
}

// A plant's past is every line that names it, struck ones left out.
func TestHistory(t *testing.T) {
	d := shelved(t)
	d.write(&model.Mist{}, 1, 2)
	moved := d.write(&model.Move{To: model.Home{Shelf: "C"}}, 2, 1)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 2, Count: 1}}})
	d.write(&model.Import{Added: []model.Plant{{ID: 7, Count: 1}}, Changed: []model.Plant{{ID: 1, Count: 1}},
		BloomOn: model.IDs{3}, BloomOff: model.IDs{4}})
	d.write(&model.Split{New: model.Plant{ID: 8, Count: 4}}, 5)
	d.write(&model.Note{Text: "window open all day"})
	d.write(&model.Strike{Seq: moved})
	for id, want := range map[model.ID][]model.Kind{
		1: {"add", "mist", "import"}, 2: {"add", "mist", "edit"}, 3: {"add", "import"}, 4: {"add", "import"},
		5: {"add", "split"}, 6: {"add"}, 7: {"import"}, 8: {"split"}, 9: nil,
	} {
		var got []model.Kind
		for _, e := range d.History(id) {
			got = append(got, e.Fact.Kind())
		}
		if !cmp.Equal(got, want) {
			t.Errorf("the past of plant %d is %v, want %v", id, got, want)
		}
	}
}
