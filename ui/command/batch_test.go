package command

import (
	"strings"
	"testing"
)

// Hours alone in a file are of one day, that of the file: today, or the day before where one
// of them is still to come, and the answer says so.
func TestHoursOfAFileAreOfOneDay(t *testing.T) {
	const two = "09:26 note 1 --text a\n17:40 note 1 --text b"
	for _, is := range []struct{ name, now, lines, day string }{
		{"in the evening", "2026-01-31T20:00:00Z", "09:26 note 1 --text a\nat 9.40 note 1 --text b", "31 Jan 2026"},
		{"after midnight", "2026-02-01T00:30:00Z", two, "31 Jan 2026"},
		{"in the morning after", "2026-02-01T10:00:00Z", two, "31 Jan 2026"},
		{"with a day", "2026-02-01T10:00:00Z", "at 2026-01-31T09:26 note 1 --text a", ""},
	} {
		t.Run(is.name, func(t *testing.T) {
			book := newBook(t)
			must(t, book, "", "enter", "add", "--name", "ionantha", "--now", "2026-01-30T08:00:00Z")
			out := must(t, book, is.lines+"\n", "enter", "--from", "-", "--now", is.now)
			if strings.Contains(out, "its hours of ") != (is.day != "") || !strings.Contains(out, is.day) {
				t.Errorf("it says %q", out)
			}
			if log := must(t, book, "", "log", "--now", is.now); !strings.Contains(log, "at 2026-01-31T09:26:00Z note") {
				t.Error(log)
			}
		})
	}
	book := newBook(t)
	must(t, book, "", "enter", "add", "--name", "ionantha", "--now", "2026-01-30T08:00:00Z")
	for line, want := range map[string]string{
		"25:70 note 1 --text a": `"25:70" is not an hour`, "09:26": "say when, and then what",
	} {
		_, fault, code := shell(t, book, line+"\n", "enter", "--from", "-", "--now", "2026-01-31T20:00:00Z")
		if code == 0 || !strings.Contains(fault, want) {
			t.Errorf("%s: %d, %s", line, code, fault)
		}
	}
}
