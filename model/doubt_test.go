package model_test

import (
	"testing"
	"time"

	"tubside/model"
)

func TestAClockThatCannotBeRight(t *testing.T) {
	newest := time.Date(2026, time.March, 1, 9, 0, 0, 0, time.UTC)
	b, err := model.Replay([]model.Entry{
		{Seq: 1, At: newest.AddDate(4, 0, 0), Fact: &model.Note{Text: "on a wrong clock"}},
		{Seq: 2, At: newest, Fact: &model.Note{Text: "the last written"}},
	}, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		now            time.Time
		doubted, ahead bool
	}{
		"the same minute":   {newest, false, false},
		"another machine":   {newest.Add(-5 * time.Minute), false, false},
		"an hour back":      {newest.Add(-time.Hour), true, false},
		"the year 1970":     {time.Unix(0, 0), true, false},
		"after a long trip": {newest.AddDate(0, 5, 0), false, false},
		"four years on":     {newest.AddDate(4, 0, 0), true, true},
		"the year 9999":     {time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC), true, true},
	} {
		doubt, ok := b.DoubtClock(c.now)
		if ok != c.doubted || doubt.Ahead != c.ahead {
			t.Errorf("%s: doubted %t, ahead %t", name, ok, doubt.Ahead)
		}
	}
	if _, ok := model.NewBook(time.UTC).DoubtClock(time.Unix(0, 0)); !ok {
		t.Error("1970 is taken for the first day of a book")
	}
}
