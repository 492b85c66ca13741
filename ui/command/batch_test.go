package command

import (
	"strings"
	"testing"
)

// Hours alone in a file are of one day, that of the file: today, or the day before where all
// of them are still to come, or the day that is given, and the answer says so.
func TestHoursOfAFileAreOfOneDay(t *testing.T) {
	const two = "09:26 note 1 --text a\n17:40 note 1 --text b"
	for _, is := range []struct{ name, now, lines, given, day string }{
		{"in the evening", "2026-01-31T20:00:00Z", "09:26 note 1 --text a\nat 9.40 note 1 --text b", "", "31 Jan 2026"},
		{"by a watch that is ahead", "2026-01-31T09:39:00Z", "09:26 note 1 --text a\n9.40 note 1 --text b", "", "31 Jan 2026"},
		{"after midnight", "2026-02-01T00:30:00Z", two, "", "31 Jan 2026"},
		{"in the morning after", "2026-02-01T10:00:00Z", two, "2026-01-31", "31 Jan 2026"},
		{"with a day", "2026-02-01T10:00:00Z", "at 2026-01-31T09:26 note 1 --text a", "", ""},
	} {
		t.Run(is.name, func(t *testing.T) {
			book := newBook(t)
			must(t, book, "", "enter", "add", "--name", "ionantha", "--now", "2026-01-30T08:00:00Z")
			out := must(t, book, is.lines+"\n", "enter", "--from", "-", "--day", is.given, "--now", is.now)
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

// An hour that is still to come is a slip where others of the file are not, or where it stands
// alone: nothing is written, and the line, the hour and the way to say yesterday are named.
func TestAnHourToComeIsASlip(t *testing.T) {
	book := newBook(t)
	must(t, book, "", "enter", "add", "--name", "ionantha", "--now", "2026-01-30T08:00:00Z")
	for lines, line := range map[string]string{
		"09:26 note 1 --text a\n23:50 note 1 --text b\n10:30 note 1 --text c": "line 2",
		"09:26 note 1 --text a\n10:30 note 1 --text b\n17:40 note 1 --text c": "line 3",
		"at 23:50 note 1 --text a": "line 1",
	} {
		_, fault, code := shell(t, book, lines+"\n", "enter", "--from", "-", "--now", "2026-01-31T10:40:00Z")
		for _, want := range []string{line + ": the hour ", "is still to come", "--day 2026-01-30", "nothing was written"} {
			if code == 0 || !strings.Contains(fault, want) {
				t.Errorf("%q: %d, %s", lines, code, fault)
			}
		}
	}
	for _, on := range []string{"2026-02-03", "yesterday"} {
		if _, fault, code := shell(t, book, "", "enter", "--from", "-", "--day", on, "--now", "2026-01-31T10:40:00Z"); code == 0 || !strings.Contains(fault, "--day") {
			t.Errorf("%s: %d, %s", on, code, fault)
		}
	}
}
