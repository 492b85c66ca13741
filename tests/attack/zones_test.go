package attack_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/store"
)

// zones are forty zones from one side of the date line to the other, with those
// of odd minutes, those that change at midnight, and one that skipped a day.
var zones = []string{
	"Pacific/Pago_Pago", "Pacific/Honolulu", "Pacific/Marquesas", "America/Anchorage", "America/Los_Angeles",
	"America/Denver", "America/Phoenix", "America/Chicago", "America/Mexico_City", "America/New_York",
	"America/Havana", "America/Caracas", "America/Halifax", "America/St_Johns", "America/Sao_Paulo",
	"America/Noronha", "Atlantic/Azores", "Atlantic/Reykjavik", "Europe/London", "Europe/Lisbon",
	"Europe/Tallinn", "Europe/Berlin", "Africa/Cairo", "Africa/Johannesburg", "Asia/Beirut",
	"Asia/Tehran", "Asia/Dubai", "Asia/Kabul", "Asia/Karachi", "Asia/Kolkata",
	"Asia/Kathmandu", "Asia/Yangon", "Asia/Bangkok", "Australia/Eucla", "Asia/Tokyo",
	"Australia/Adelaide", "Australia/Lord_Howe", "Pacific/Auckland", "Pacific/Apia", "Pacific/Kiritimati",
}

// A machine in another zone opens every demo book and reads the same in it: the
// book knows its own. And were it read in any zone at all, it would be whole.
func TestEveryDemoBookIsTheSameInEveryZone(t *testing.T) {
	tries, survived := 0, 0
	for n, path := range demoBooks(t) {
		s, err := store.Open(path, store.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		want, entries := seen(s.Book()), s.Book().Entries()
		for i, name := range zones {
			if testing.Short() && i%4 > 0 {
				continue
			}
			zone, err := time.LoadLocation(name)
			if err != nil {
				t.Fatal(err)
			}
			tries++
			if _, err := model.Replay(entries, zone); err != nil {
				t.Errorf("%s replayed in %s: %v", path, name, err)
				continue
			}
			if i%10 == n { // whatever the machine says, the file's own zone is asked
				s, err := store.Open(path, store.Options{ReadOnly: true, Zone: zone})
				if err != nil || seen(s.Book()) != want {
					t.Errorf("%s in %s: the book says something else (%v)", path, name, err)
					continue
				}
			}
			survived++
		}
	}
	figures(t, "zones", tries, survived, tries-survived)
}

// Under any house rules a book stays whole: they are asked when an entry is made,
// not when it is read again.
func TestEveryDemoBookReplaysUnderAnyRules(t *testing.T) {
	var books [][]model.Entry
	for _, path := range demoBooks(t) {
		s, err := store.Open(path, store.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		books = append(books, s.Book().Entries())
	}
	tries := 0
	rapid.Check(t, func(rt *rapid.T) {
		tries++
		entries := rapid.SampledFrom(books).Draw(rt, "book")
		var house []model.Entry
		for _, info := range model.LimitTable {
			v := rapid.Float64Range(info.Min, info.Max).Draw(rt, info.Name)
			if info.Choices != nil {
				v = float64(int(v))
			}
			house = append(house, model.NewEntry(sunday, &model.RuleSet{Name: info.Name, Value: v}))
		}
		moved := model.Seq(len(house))
		for i, e := range entries {
			e.Seq = moved + model.Seq(i) + 1
			if f, ok := e.Fact.(*model.Strike); ok {
				e.Fact = &model.Strike{Seq: f.Seq + moved}
			}
			house = append(house, e)
		}
		for i := range moved {
			house[i].Seq = i + 1
		}
		if _, err := model.Replay(house, time.UTC); err != nil {
			rt.Fatal(err)
		}
	})
	figures(t, "house rules", tries, tries, 0)
}
