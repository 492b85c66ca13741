package attack_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
	"tubside/store"
)

// hostile are texts that steer a terminal, a browser or a reader, or that break
// out of where they stand.
var hostile = []string{
	"\x1b[2J\x1b[31mred", "\x1b]0;title\a", "\u009b31mred", "del\x7fete", "back\b\bspace", "car\rriage", "right\u202eto left", "\u2066isolate",
	"zero\u200bwidth", "\ufeffmark", "<script>alert(1)</script>", `"><img src=x onerror=alert(1)>`, "'; --", "=1+1", "line\nbreak", "nul\x00nul",
	"\u0301on nothing", "e" + strings.Repeat("\u0301", 50), "\U000e0041tag", "a\u2028b", strings.Repeat("wide日", 40), "\xff\xfe",
}

// bare finds what no answer may hold.
func bare(text string) (rune, bool) {
	for _, c := range text {
		if c != '\n' && c != '\u200d' && c != '\u200c' && (unicode.IsControl(c) || unicode.Is(unicode.Cf, c)) {
			return c, true
		}
	}
	return 0, false
}

// oldBook is a book that an early tubside wrote, which cleaned nothing: every
// text there is is hostile.
func oldBook(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.db")
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	var facts []model.Entry
	for i, text := range hostile {
		id := model.ID(i + 1)
		p := model.Plant{ID: id, Label: text, Name: text, Now: text, Form: model.Rosette, Count: 1, Note: text,
			Home: model.Home{Shelf: text, Spot: text}}
		facts = append(facts,
			model.NewEntry(sunday, &model.Add{Plants: []model.Plant{p}}, id),
			model.NewEntry(sunday, &model.Note{Text: text}, id),
			model.NewEntry(sunday, &model.Trouble{What: model.Scale, Treatment: text}, id))
	}
	facts = append(facts, model.NewEntry(sunday, &model.Leave{How: model.Lost, Cause: hostile[0], Note: hostile[2]}, 3))
	err = db.Update(func(tx *bolt.Tx) error {
		meta, err := tx.CreateBucket([]byte("meta"))
		journal, err2 := tx.CreateBucket([]byte("journal"))
		if err := errors.Join(err, err2); err != nil {
			return err
		}
		errs := []error{meta.Put([]byte("what"), []byte("tubside book")), meta.Put([]byte("schema"), []byte("1"))}
		for _, e := range facts {
			line, err := json.Marshal(e)
			seq, err2 := journal.NextSequence()
			errs = append(errs, err, err2, journal.Put([]byte{0, 0, 0, 0, 0, 0, byte(seq >> 8), byte(seq)}, line))
		}
		return errors.Join(errs...)
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

// Hostile text in an old book comes out of no command as it went in: not on the
// screen, not as JSON, not in a sheet, a page, a calendar or a spreadsheet.
func TestHostileTextGetsOutNowhere(t *testing.T) {
	s := &shell{t: t, book: oldBook(t), clock: sunday}
	dir := t.TempDir()
	file := func(name string) string { return filepath.Join(dir, name) }
	looks := [][]string{
		{"triage"}, {"drying"}, {"rounds"}, {"week"}, {"ledger"}, {"book"}, {"book", "--entries", "100"}, {"log"}, {"rules"}, {"water"},
		{"plan"}, {"room"}, {"export"}, {"export", file("out.csv")}, {"labels", file("labels.html"), "all"}, {"ledger", "--html", file("year.html")},
		{"plan", "--sheet", file("sheet.txt")}, {"plan", "--sheet", file("sheet.html")},
	}
	tries, bad := 0, 0
	look := func(words []string) {
		out, errs, code := s.run(words...)
		tries++
		if c, ok := bare(out + errs); ok || code != 0 {
			bad++
			t.Errorf("%v: code %d, %U in the answer; %s", words, code, c, errs)
		}
	}
	for _, words := range looks {
		look(words)
		if !strings.HasPrefix(words[len(words)-1], dir) && words[0] != "labels" {
			look(append(words, "--json"))
		}
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) < 5 {
		t.Errorf("%d files were written: %v", len(names), err)
	}
	for _, n := range names {
		text, err := os.ReadFile(file(n.Name()))
		if err != nil {
			t.Fatal(err)
		}
		tries++
		body := strings.ReplaceAll(strings.TrimPrefix(string(text), "\ufeff"), "\r\n", "\n")
		if c, ok := bare(body); ok {
			bad++
			t.Errorf("%s: %U in it", n.Name(), c)
		}
		if strings.HasSuffix(n.Name(), ".html") &&
			(strings.Contains(body, "<script>alert") || strings.Contains(body, "<img src=x")) {
			bad++
			t.Errorf("%s: a name became part of the page", n.Name())
		}
	}
	figures(t, "hostile text, ways out", tries, tries-bad, bad)
}

// Whatever is typed or imported, what is kept is clean.
func TestHostileTextGetsInNowhere(t *testing.T) {
	s := newShell(t)
	tries := 0
	for i, text := range hostile {
		if strings.ContainsRune(text, 0) {
			continue // no shell can say it
		}
		for _, words := range [][]string{
			{"note", "1", "--text", text}, {"add", "--label", "x" + text}, {"move", "1", "--shelf", "x" + text},
			{"trouble", "1", "--what", "scale", "--treatment", text},
		} {
			tries++
			if _, errs, code := s.run(append([]string{"enter"}, words...)...); code != 0 && code != 1 {
				t.Errorf("%q: code %d: %s", words, code, errs)
			}
		}
		s.in = fmt.Sprintf("label,species,note\n%q,ionantha,%q\n", fmt.Sprint("l", i, text), text)
		s.run("import", "-")
		tries++
	}
	b, err := store.Open(s.book, store.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	bad := 0
	for _, e := range b.Book().Entries() {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		var texts any
		if err := json.Unmarshal(line, &texts); err != nil {
			t.Fatal(err)
		}
		plain := strings.NewReplacer("\t", " ", "\r", " ").Replace(fmt.Sprint(texts))
		if c, ok := bare(plain); ok {
			bad++
			t.Errorf("entry %d keeps %U: %s", e.Seq, c, line)
		}
	}
	figures(t, "hostile text, ways in", tries, tries-bad, bad)
}

// A big file of nothing but faults is refused with the first of them, and takes
// no more memory than reading it does.
func TestAFileOfFaults(t *testing.T) {
	rows := 300_000
	if testing.Short() {
		rows = 50_000
	}
	s := newShell(t)
	s.in = "label,species,count,size\n" + strings.Repeat("x,ionantha,minus five,enormous\n", rows)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, errs, code := s.run("import", "-")
	runtime.ReadMemStats(&after)
	if code != 4 || !strings.Contains(errs, fmt.Sprintf("%d faults", 2*rows)) ||
		!strings.Contains(errs, "more in count") {
		t.Errorf("code %d: %.300s", code, errs)
	}
	if n := strings.Count(errs, "\n"); n > 120 {
		t.Errorf("%d lines of faults", n)
	}
	perRow := float64(after.TotalAlloc-before.TotalAlloc) / float64(rows)
	t.Logf("%.0f bytes allocated a row of %d", perRow, len("x,ionantha,minus five,enormous\n"))
}
