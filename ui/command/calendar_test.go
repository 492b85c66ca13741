package command

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/emersion/go-ical"
)

// events reads a calendar with another library than the one that wrote it, and
// holds it to what RFC 5545 asks of every file: CRLF, lines of at most 75 octets
// that cut no character in two (3.1), one UID and DTSTAMP an event (3.6.1), and a
// description in an alarm that is shown (3.6.6).
func events(t *testing.T, text string) map[string]ical.Event {
	t.Helper()
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
			t.Errorf("not a line of RFC 5545: %q", line)
		}
	}
	dec := ical.NewDecoder(strings.NewReader(text))
	cal, err := dec.Decode()
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if _, err := dec.Decode(); !errors.Is(err, io.EOF) {
		t.Errorf("more than one calendar: %v", err)
	}
	if v, err := cal.Props.Text(ical.PropVersion); err != nil || v != "2.0" || cal.Props.Get(ical.PropProductID) == nil {
		t.Errorf("version %q, %v, or no product", v, err)
	}
	all := map[string]ical.Event{}
	for _, e := range cal.Events() {
		uid, err := e.Props.Text(ical.PropUID)
		if err != nil || all[uid].Component != nil {
			t.Errorf("the UID %q stands twice, or %v", uid, err)
		}
		all[uid] = e
		start, err := e.DateTimeStart(time.UTC)
		end, err2 := e.DateTimeEnd(time.UTC)
		if err != nil || err2 != nil || !end.After(start) || e.Props.Get(ical.PropDateTimeStamp) == nil {
			t.Errorf("%s: from %s to %s, %v, %v, or without a stamp", uid, start, end, err, err2)
		}
		if s, err := e.Props.Text(ical.PropSummary); err != nil || s == "" {
			t.Errorf("%s says nothing: %v", uid, err)
		}
		for _, alarm := range e.Children {
			if alarm.Name != ical.CompAlarm || alarm.Props.Get(ical.PropAction).Value != "DISPLAY" ||
				alarm.Props.Get(ical.PropDescription) == nil || alarm.Props.Get(ical.PropTrigger) == nil {
				t.Errorf("%s: an alarm that is none: %+v", uid, alarm)
			}
		}
	}
	return all
}

// rings counts the events with an alarm.
func rings(all map[string]ical.Event) (n int) {
	for _, e := range all {
		n += len(e.Children)
	}
	return n
}

// Every calendar is one that a phone takes, rings, and when it is made again has
// the same events.
func TestCalendars(t *testing.T) {
	soakday, bench := demoBook(t, "soakday"), demoBook(t, "bench")
	must(t, bench, "", "enter", "trip", "--from", "2026-02-20", "--until", "2026-03-02", "--note", "an island; with a ferry, Größe "+strings.Repeat("ß", 80))
	for _, c := range []struct {
		name, book string
		args       []string
		want       string // the beginning of a UID
	}{
		{"plan", soakday, []string{"plan", "--ics", "-"}, "plan-2026"},
		{"drying", bench, []string{"drying", "--ics", "-"}, "dry-load-"},
		{"week", bench, []string{"week", "--ics", "-"}, "week-sat"},
		{"trip", bench, []string{"week", "--ics", "-"}, "trip-20260220"},
		{"round", bench, []string{"week", "--ics", "-"}, "round-look-2026"},
	} {
		t.Run(c.name, func(t *testing.T) {
			all := events(t, must(t, c.book, "", c.args...))
			again := events(t, must(t, c.book, "", c.args...))
			found := false
			for uid := range all {
				found = found || strings.HasPrefix(uid, c.want)
				if _, ok := again[uid]; !ok {
					t.Errorf("%s is not there when it is made again", uid)
				}
			}
			if !found || rings(all) == 0 {
				t.Errorf("%d events, %d rings, none like %s: %v", len(all), rings(all), c.want, all)
			}
		})
	}
}
