package command

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/demo"
	"tubside/model"
	"tubside/store"
)

var noon = time.Date(2026, 1, 31, 12, 0, 0, 0, time.UTC)

// shell runs one command line on a book, a year of it standing still, and gives
// what it answered.
func shell(t testing.TB, book, stdin string, args ...string) (out, complaint string, code int) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = Main(Env{
		Args: append([]string{"--book", book, "--now", noon.Format(time.RFC3339)}, args...),
		In:   strings.NewReader(stdin), Out: &stdout, Err: &stderr,
		Clock: func() time.Time { return noon }, Getenv: func(string) string { return "" },
	})
	return stdout.String(), stderr.String(), code
}

// must is [shell] where nothing may go wrong.
func must(t testing.TB, book, stdin string, args ...string) string {
	t.Helper()
	out, complaint, code := shell(t, book, stdin, args...)
	if code != 0 {
		t.Fatalf("%v: exit %d: %s", args, code, complaint)
	}
	return out
}

// newBook begins an empty book.
func newBook(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.db")
	must(t, path, "", "book", "new")
	return path
}

// demoBook keeps an invented collection at the beginning of a scene.
func demoBook(t testing.TB, scene string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.db")
	s, err := store.Open(path, store.Options{Begin: true, Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := demo.Build(s, demo.Options{Scene: scene, Seed: 1, Now: noon}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// The log of one book makes another that is the same, whichever way it is
// printed.
func TestTheLogOfABookMakesAnother(t *testing.T) {
	scenes := demo.Scenes
	if testing.Short() {
		scenes = scenes[:1]
	}
	for _, scene := range scenes {
		t.Run(scene.Name, func(t *testing.T) {
			book := demoBook(t, scene.Name)
			must(t, book, "", "enter", "strike")
			if scene.Name == "homecoming" {
				must(t, book, "", "enter", "plan", "--shelf", "Arch")
			}
			must(t, book, "", "enter", "note", "--text", "said twice", "--once", "key:2026-01-31")
			must(t, book, "", "enter", "note", "--text", "said twice", "--once", "key:2026-01-31")
			must(t, book, "", "enter", "note", "--text", "it's a \"quoted\"\nnote\u202e, # and all")
			questions := [][]string{{"log"}, {"log", "--json"}, {"export", "--all"}, {"triage", "--json"}, {"ledger", "--json"}}
			var answers []string
			for _, question := range questions {
				answers = append(answers, must(t, book, "", question...))
			}
			for i, form := range questions[:2] {
				again := newBook(t)
				must(t, again, answers[i], "enter", "--from", "-")
				for j, question := range questions {
					if diff := cmp.Diff(answers[j], must(t, again, "", question...)); diff != "" {
						t.Fatalf("%v, read back with %v:\n%.2000s", form, question, diff)
					}
				}
			}
			for line := range strings.Lines(answers[0]) {
				if strings.ContainsAny(line, "\u202e\x1b") {
					t.Errorf("%q could steer a terminal", line)
				}
				for _, kind := range []string{"signs", "soak", "out", "dry", "damp", "hung", "mist", "reading", "fill",
					"rot"} {
					if strings.HasPrefix(line, "{") && strings.Contains(line, `"kind":"`+kind+`"`) {
						t.Errorf("not as a person types it: %s", line)
					}
				}
			}
		})
	}
}

// typing is a book with some plants, and a hand that types into it.
func typing(t interface {
	Helper()
	Fatal(...any)
}) *typed {
	t.Helper()
	hand := newTyped(model.NewBook(time.UTC), noon)
	for range 9 {
		hand.take(0, `add --name "T. ionantha" --count 12 --shelf A`)
	}
	hand.take(0, "soak --vessel tub --minutes 20 8 9")
	if len(hand.faults) > 0 {
		t.Fatal(hand.faults[0].err)
	}
	return hand
}

// Whatever an entry says, its line gives the same entry, and only what cannot be
// typed is written in JSON.
func TestALineGivesTheEntryBack(t *testing.T) {
	hand := typing(t)
	rapid.Check(t, func(t *rapid.T) {
		e := anyEntry(t)
		text, err := line(e)
		if err != nil {
			t.Fatal(err)
		}
		back, err := hand.entry(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		want, _ := json.Marshal(e)
		got, _ := json.Marshal(back)
		if string(want) != string(got) {
			t.Fatalf("%s\ngives %s\nwant  %s", text, got, want)
		}
	})
}

// inJSON are the kinds that say more than a line can: whole rows, whole plans, homes.
var inJSON = []model.Kind{"add", "bench", "copies", "edit", "import", "plan", "readings", "split", "swap", "unread", "vessel"}

// Every kind of entry has a word in the log, but for those that cannot be typed; a
// new one is met here.
func TestEveryKindHasAWordInTheLog(t *testing.T) {
	typed := map[model.Kind]bool{}
	entries := rapid.Custom(anyEntry)
	for seed := range 3000 {
		e := entries.Example(seed)
		if text, err := line(e); err == nil && !strings.HasPrefix(text, "{") {
			typed[e.Fact.Kind()] = true
		}
	}
	for _, kind := range model.Kinds() {
		if typed[kind] == slices.Contains(inJSON, kind) {
			t.Errorf("%s: typed in the log is %v; give it a word in log_words.go and a draw in anyEntry", kind, typed[kind])
		}
	}
}

// anyEntry draws an entry of any kind that a grower makes by hand.
func anyEntry(t *rapid.T) model.Entry {
	text := rapid.StringN(0, 12, -1)
	yes, amount := rapid.Bool(), rapid.Float64Range(0.001, 40)
	source := rapid.SampledFrom([]model.Source{"", "tap", "rain"})
	mix := rapid.Custom(func(t *rapid.T) *model.Mix {
		if !yes.Draw(t, "fed") {
			return nil
		}
		return &model.Mix{Powder: text.Draw(t, "powder"), PPM: amount.Draw(t, "ppm"), Over: yes.Draw(t, "over")}
	})
	at := noon.Add(-time.Duration(rapid.IntRange(0, 1e7).Draw(t, "ago")) * time.Second)
	due := at.Add(time.Duration(rapid.IntRange(1, 40000).Draw(t, "length")) * time.Second)
	fact := rapid.SampledFrom([]model.Fact{
		&model.Pull{}, &model.PutBack{}, &model.Damp{}, &model.FoundDry{}, &model.Hung{}, &model.LookedOver{},
		&model.Look{Signs: model.Signs{Curl: 2, Tips: model.NotSeen, Shift: 0}},
		&model.Bloom{Stage: model.Spent}, &model.Bloom{Over: true}, &model.Rot{Over: yes.Draw(t, "over")}, &model.Fading{},
		&model.Offsets{Count: rapid.IntRange(0, 9).Draw(t, "count"), Share: amount.Draw(t, "share") / 40},
		&model.Quarantine{Over: true, Early: true}, &model.Trouble{What: "scale", Treatment: text.Draw(t, "treatment")},
		&model.Weigh{Grams: amount.Draw(t, "grams"), Wet: yes.Draw(t, "wet")}, &model.Weighing{},
		&model.Note{Text: "x" + text.Draw(t, "note")}, &model.Move{To: model.Home{Shelf: text.Draw(t, "shelf"), Spot: text.Draw(t, "spot")}},
		&model.Leave{How: model.Lost, Cause: "x" + text.Draw(t, "cause")}, &model.Leave{How: model.Sold, Note: text.Draw(t, "to")},
		&model.Soak{Load: 7, Vessel: "tub", Due: due, Fed: mix.Draw(t, "mix")},
		&model.Out{Shaken: yes.Draw(t, "shaken"), Inverted: yes.Draw(t, "inverted")},
		&model.Laid{Bench: text.Draw(t, "place")},
		&model.Mist{Of: source.Draw(t, "source")},
		&model.Feed{How: model.ByDip, Mix: model.Mix{PPM: amount.Draw(t, "ppm")}, Litres: amount.Draw(t, "litres")},
		&model.Swap{To: []model.Home{{Shelf: "A"}, {Shelf: "A"}}},
		&model.Split{New: model.Plant{ID: 40, Count: 1, Label: text.Draw(t, "label")}},
	}).Draw(t, "fact")
	ids := rapid.SliceOfNDistinct(rapid.Map(rapid.IntRange(1, 9), func(n int) model.ID { return model.ID(n) }), 1, 9,
		rapid.ID)
	if yes.Draw(t, "about plants") || fact.Kind() == "split" {
		named := ids.Draw(t, "plants")
		if fact.Kind() == "swap" {
			named = model.IDs{1, 2}
		}
		if fact.Kind() == "weight" {
			named = named[:1]
		}
		return model.NewEntry(at, fact, named...)
	}
	fact = rapid.SampledFrom([]model.Fact{
		&model.Note{Text: "x" + text.Draw(t, "note")}, &model.Drain{Vessel: "tub"},
		&model.Fill{Vessel: "tub", Of: []model.Source{"tap", "ro"}, EC: amount.Draw(t, "ec"), Fed: mix.Draw(t, "mix")},
		&model.Sample{Of: "tap", Hardness: amount.Draw(t, "hardness"), TempC: amount.Draw(t, "temp")},
		&model.Bottle{Fed: mix.Draw(t, "mix"), Of: source.Draw(t, "source")}, &model.Bottle{Empty: true},
		&model.Reading{TempC: -amount.Draw(t, "temp"), RH: amount.Draw(t, "rh"), Fan: model.FanNear},
		&model.FanSet{Fan: model.FanOff}, &model.WindowSet{Window: model.WindowOpen},
		&model.Outside{TempC: -amount.Draw(t, "cold"), RH: 80},
		&model.ShelfSet{Name: text.Draw(t, "shelf"), Factor: amount.Draw(t, "factor")},
		&model.ShelfDays{Days: map[string]model.Weekday{"A": "sat"}},
		&model.ShelfDays{Days: map[string]model.Weekday{"A": "sat", "B": ""}},
		&model.RuleSet{Name: model.LimitTable[model.TempUnit].Name, Value: 1}, &model.RuleSet{Name: "cap-bulbous", Value: 90},
		&model.Trip{From: at, Until: due, Note: text.Draw(t, "note")}, &model.Back{}, &model.Strike{Seq: 3},
		&model.Add{Plants: []model.Plant{{ID: 30, Count: 2, Name: text.Draw(t, "name")}}},
		&model.VesselSet{Vessel: model.Vessel{Name: "pail", Litres: 9}},
		&model.BenchSet{Bench: model.Bench{Name: "rack", Room: 2}},
	}).Draw(t, "fact of the house")
	return model.NewEntry(at, fact)
}

// A batch is all or nothing, says every fault by its line, and with --each keeps
// what can be kept.
func TestABatchIsAllOrNothing(t *testing.T) {
	book := newBook(t)
	lines := `# a morning
add --label Fuego --name "T. ionantha"
at 2025-03-14T10:12:00Z signs 1 2 1 0

signs 7 2 1 0
signs 1 2 1
note 1 --text "half a quotation
at yesterday rot 1
wave 1
signs 1 --fine --loud
rot 1
`
	_, complaint, code := shell(t, book, lines, "enter", "--from", "-")
	if code != badInput {
		t.Errorf("exit %d, want %d", code, badInput)
	}
	for _, want := range []string{
		"standard input has 6 faults, and nothing was written", "line 5: there is no plant 7", "line 6: enter signs: name plants",
		"line 7: a quotation mark", "line 8: \"yesterday\" is not a date", "line 9: there is nothing to enter called \"wave\"",
		"line 10: enter signs: unknown flag: --loud",
	} {
		if !strings.Contains(complaint, want) {
			t.Errorf("the complaint lacks %q:\n%s", want, complaint)
		}
	}
	if out := must(t, book, "", "log"); out != "" {
		t.Errorf("something was written:\n%s", out)
	}
	out, complaint, code := shell(t, book, lines, "enter", "--from", "-", "--each", "--json")
	var a batchAnswer
	if err := json.Unmarshal([]byte(out), &a); err != nil || a.Entries != 3 || a.Last != 3 || len(a.Faults) != 6 ||
		code != badInput {
		t.Errorf("%v, exit %d\n%s\n%s", err, code, out, complaint)
	}
	logger := "reading --temp 20 --rh 40 --once 20260131T12\n"
	if out := must(t, book, logger+logger, "enter", "--from", "-"); !strings.HasPrefix(out, "wrote 1 entry ") {
		t.Errorf("the same key twice: %s", out)
	}
	want := "at 2025-03-14T10:12:00Z signs 1 2 1 0\n"
	if log := must(t, book, "", "log", "--kind", "signs"); log != want {
		t.Errorf("got %q, want %q", log, want)
	}
}

// A followed log goes on as another command writes, and ends when nobody waits.
func TestAFollowedLogGoesOn(t *testing.T) {
	book := newBook(t)
	must(t, book, "", "enter", "note", "--text", "one")
	read, write := io.Pipe()
	ticks, ended := make(chan time.Time), make(chan int, 1)
	go func() {
		ended <- Main(Env{
			Args: []string{"--book", book, "log", "--follow"}, Out: write, Err: io.Discard,
			Clock: func() time.Time { return noon }, Getenv: func(string) string { return "" },
			Tick: func(time.Duration) <-chan time.Time { return ticks },
		})
		write.Close()
	}()
	lines := bufio.NewScanner(read)
	for _, text := range []string{"one", "two", "three"} {
		if text != "one" {
			must(t, book, "", "enter", "note", "--text", text)
			ticks <- noon
		}
		if want := "note --text " + text; !lines.Scan() || !strings.HasSuffix(lines.Text(), want) {
			t.Fatalf("got %q, want %q at its end", lines.Text(), want)
		}
	}
	ticks <- noon // nothing new
	close(ticks)
	if lines.Scan() {
		t.Errorf("said twice: %q", lines.Text())
	}
	if code := <-ended; code != 0 {
		t.Errorf("exit %d", code)
	}
}

// A year of notes comes in in one breath.
func BenchmarkBatchOf10000Lines(b *testing.B) {
	book := demoBook(b, demo.Scenes[0].Name)
	var rows []struct{ ID model.ID }
	if err := json.Unmarshal([]byte(must(b, book, "", "triage", "--json")), &rows); err != nil {
		b.Fatal(err)
	}
	var lines strings.Builder
	for i := range 10_000 {
		at := noon.Add(time.Duration(i-10_000) * time.Minute)
		fmt.Fprintf(&lines, "at %s signs %d %d %d -\n", at.Format(time.RFC3339), rows[i%len(rows)].ID, i%4, i%3)
	}
	for b.Loop() {
		must(b, book, lines.String(), "enter", "--from", "-")
	}
}

// A person who reads the log on a terminal has an agreed plan in one line of words; a file has
// it whole.
func TestAPlanIsOneShortLineOfALogOnATerminal(t *testing.T) {
	book := demoBook(t, "homecoming")
	must(t, book, "", "enter", "plan", "--shelf", "Arch")
	s, err := store.Open(book, store.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	last := s.Book().Entries()[len(s.Book().Entries())-1]
	for width, want := range map[int]int{0: 2, 80: 1} {
		var text strings.Builder
		if err := (&run{}).logLine(&text, last, s.Book(), width); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSpace(text.String()), "\n")
		if len(lines) != want || !strings.Contains(lines[0], ": plan agreed for Sat 31 Jan: ") || len(lines[0]) > 160 {
			t.Errorf("%d wide: %d lines, the first %q", width, len(lines), lines[0])
		}
	}
}
