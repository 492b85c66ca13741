package command

import (
	"strings"
	"testing"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
)

// events reads a calendar with another library than the one that wrote it, and
// holds it to what RFC 5545 asks of every file: CRLF, lines of at most 75 octets
// that cut no character in two (3.1), one UID and DTSTAMP an event (3.6.1), and a
// description in an alarm that is shown (3.6.6).
func events(t *testing.T, text string) map[string]*ics.VEvent {
	t.Helper()
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || line == "" || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
			t.Errorf("not a line of RFC 5545: %q", line)
		}
	}
	if !strings.HasPrefix(text, "BEGIN:VCALENDAR\r\n") || !strings.HasSuffix(text, "END:VCALENDAR\r\n") ||
		strings.Count(text, "\r\nVERSION:2.0\r\n") != 1 || strings.Count(text, "\r\nPRODID:") != 1 {
		t.Errorf("not one calendar with one version and one product:\n%s", text)
	}
	cal, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	all := map[string]*ics.VEvent{}
	for _, e := range cal.Events() {
		if all[e.Id()] != nil || !strings.HasSuffix(e.Id(), "@tubside") {
			t.Errorf("the UID %q stands twice, or is none", e.Id())
		}
		all[e.Id()] = e
		start, err := e.GetStartAt()
		end, err2 := e.GetEndAt()
		if err != nil || err2 != nil || !end.After(start) {
			t.Errorf("%s: from %s to %s, %v, %v", e.Id(), start, end, err, err2)
		}
		for _, wanted := range []ics.ComponentProperty{ics.ComponentPropertyDtstamp, ics.ComponentPropertySummary} {
			if p := e.GetProperty(wanted); p == nil || p.Value == "" {
				t.Errorf("%s has no %s", e.Id(), wanted)
			}
		}
		for _, alarm := range e.Alarms() {
			for _, wanted := range []ics.ComponentProperty{ics.ComponentPropertyAction,
				ics.ComponentPropertyDescription, ics.ComponentPropertyTrigger} {
				if alarm.GetProperty(wanted) == nil {
					t.Errorf("%s: an alarm without %s", e.Id(), wanted)
				}
			}
		}
	}
	return all
}

// rings counts the events with an alarm.
func rings(all map[string]*ics.VEvent) (n int) {
	for _, e := range all {
		n += len(e.Alarms())
	}
	return n
}

// Every calendar is one that a phone takes, rings, and when it is made again has
// the same events.
func TestCalendars(t *testing.T) {
	soakday, bench := demoBook(t, "soakday"), demoBook(t, "bench")
	must(t, bench, "", "enter", "trip", "--from", "2026-02-20", "--until", "2026-03-02", "--note",
		"an island; with a ferry, Größe "+strings.Repeat("ß", 80))
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

// A tap rings when it is to be opened, and when it is to be turned off: one that is forgotten
// runs onto the floor.
func TestATapRingsAtBothEnds(t *testing.T) {
	all := events(t, must(t, demoBook(t, "soakday"), "", "plan", "--ics", "-"))
	fills := 0
	for id, e := range all {
		if what := e.GetProperty(ics.ComponentPropertySummary).Value; !strings.HasPrefix(strings.ToLower(what), "fill ") {
			continue
		}
		fills++
		off := all[strings.TrimSuffix(id, "@tubside")+"-off@tubside"]
		if off == nil || len(off.Alarms()) != 1 || len(e.Alarms()) != 1 {
			t.Errorf("%s: no alarm, or none to turn off the tap", id)
			continue
		}
		full, err := e.GetEndAt()
		at, err2 := off.GetStartAt()
		if err != nil || err2 != nil || !at.Equal(full) {
			t.Errorf("%s: full at %s, and the tap is to be turned off at %s", id, full, at)
		}
		if what := off.GetProperty(ics.ComponentPropertySummary).Value; !strings.HasPrefix(what, "Turn off the tap") {
			t.Errorf("%s says %q", id, what)
		}
	}
	if fills == 0 {
		t.Error("the day fills no vessel: it does not show it")
	}
}
