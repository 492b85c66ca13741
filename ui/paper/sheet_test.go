package paper_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"tubside/ui/paper"

	"pgregory.net/rapid"

	"tubside/ui/show"
)

// everything is a sheet with every shape of block.
func everything() *paper.Sheet {
	s := &paper.Sheet{Title: "Sitter's sheet", Under: []string{"1 to 12 May"}, Foot: "tubside"}
	t := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "id", Right: true}, {Head: "plant", Least: 8}}}
	t.Add("7", "Fuego")
	t.Add("112", "<b>bulbosa</b>\x1b[31m")
	s.Add("One job", paper.Words("Dip the tray."), paper.Ticks{"Wednesday 6 May"}, t)
	s.Add("Do not", paper.Points{"soak anything else"})
	s.Add("Where things are", paper.Blanks{{What: "The fan", Text: "in the hall"}, {What: "The phone"}})
	s.Add("", paper.Cautions{{Text: "Empty the bucket at once.", Source: "a source, 2007"}})
	s.Add("Drawn", paper.Drawing{SVG: `<svg viewBox="0 0 1 1"><title>a dot</title></svg>`, Text: []string{"|#"}})
	return s
}

const everythingText = `Sitter's sheet
==============
1 to 12 May

One job
-------
Dip the tray.

[ ] Wednesday 6 May

     id  plant
[ ]   7  Fuego
[ ] 112  <b>bulbosa</b>[31m

Do not
------
- soak anything else

Where things are
----------------
The fan: in the hall
The phone: ________________________________________

! Empty the bucket at once. (a source, 2007)

Drawn
-----
|#

tubside
`

func TestText(t *testing.T) {
	if got := everything().Text(); got != everythingText {
		t.Errorf("got\n%s\nwant\n%s", got, everythingText)
	}
}

// What a grower calls a plant cannot become markup, and the file needs nothing
// beside itself.
func TestHTML(t *testing.T) {
	html, err := everything().HTML()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"<h1>Sitter&#39;s sheet</h1>", "&lt;b&gt;bulbosa&lt;/b&gt;", `<dd class="rule"></dd>`, "<small>(a source, 2007)</small>",
		`<svg viewBox="0 0 1 1"><title>a dot</title></svg>`, `<td class="right">7</td>`,
		"<footer><p>tubside</p></footer>", "@media print",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the file lacks %s", want)
		}
	}
	for _, not := range []string{"\x1b", "http:", "https:", "src=", "href=", "<script"} {
		if strings.Contains(html, not) {
			t.Errorf("the file has %q", not)
		}
	}
	if err := balanced(html); err != nil {
		t.Errorf("the file is not well-formed: %v", err)
	}
}

// balanced reads the file as XML, which the pages are as well.
func balanced(html string) error {
	d := xml.NewDecoder(strings.NewReader(html))
	d.Entity = xml.HTMLEntity
	for {
		switch _, err := d.Token(); {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
	}
}

func TestEmptySheet(t *testing.T) {
	s := &paper.Sheet{Title: "Nothing"}
	if got := s.Text(); got != "Nothing\n=======\n" {
		t.Errorf("got %q", got)
	}
	if html, err := s.HTML(); err != nil || balanced(html) != nil {
		t.Errorf("%v, %v", err, balanced(html))
	}
}

// Whatever is written on a sheet, no line of words is wider than the paper.
func TestTextFitsThePaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`[a-zäß ]{0,9}[a-zäß]{1,100}[a-zäß ]{90,300}`).Draw(t, "words")
		s := &paper.Sheet{Title: "x", Under: []string{words}}
		s.Add("y", paper.Words(words), paper.Points{words}, paper.Ticks{words}, paper.Blanks{{What: words}},
			paper.Cautions{{Text: words, Source: words}})
		for line := range strings.Lines(s.Text()) {
			if w := show.Width(strings.TrimRight(line, "\n")); w > 80 {
				t.Fatalf("a line of %d cells: %q", w, line)
			}
		}
	})
}

// A table gives way where it may; on a narrow terminal elsewhere too, but no number
// is ever cut.
func TestTableGivesWay(t *testing.T) {
	table := &paper.Table{Columns: []paper.Column{{Head: "id"}, {Head: "why", Least: 6}}}
	table.Add("1234", "twelve days since the soak")
	if got, want := table.Text(14), "id    why\n1234  twelve …\n"; got != want {
		t.Errorf("cut: got %q, want %q", got, want)
	}
	table.Wrap = true
	if got, want := table.Text(14), "id    why\n1234  twelve\n      days\n      since\n      the soak\n"; got != want {
		t.Errorf("wrapped: got %q, want %q", got, want)
	}
	narrow := &paper.Table{Columns: []paper.Column{{Head: "id", Right: true}, {Head: "soak"}, {Head: "why", Least: 9}}}
	narrow.Add("123456", "Long, 2 h, up to 4 h", "twelve days since the soak")
	if got, want := narrow.Text(24), "    id  soak      why\n123456  Long, 2…  twelv…\n"; got != want {
		t.Errorf("on a narrow terminal: got %q, want %q", got, want)
	}
}

// Long lists are printed small: in columns that run on from one section into the next, and
// as text side by side, where each row stands once and in order.
func TestLongListsStandSideBySide(t *testing.T) {
	s := &paper.Sheet{Title: "Soak day"}
	for n := range 3 {
		table := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "home"}, {Head: "plant", Least: 8}}}
		for i := range 60 {
			table.Add(fmt.Sprintf("Rail %d", 100*n+i), "a name too long for half of a sheet of paper")
		}
		s.Sections = append(s.Sections, paper.Section{Title: fmt.Sprint("Round ", n), Blocks: []paper.Block{table}, Small: n > 0})
	}
	html, err := s.HTML()
	if err != nil {
		t.Fatal(err)
	}
	begins, ends := strings.Index(html, `<div class="small">`), strings.LastIndex(html, "</div>")
	if n := strings.Count(html, `<div class="small">`); n != 1 || begins < strings.Index(html, "Round 0") ||
		begins > strings.Index(html, "Round 1") || ends < strings.Index(html, "Round 2") {
		t.Errorf("%d parts are printed small, from %d to %d", n, begins, ends)
	}
	_, text, _ := strings.Cut(s.Text(), "Round 1")
	lines := strings.Split(text, "\n")
	for _, line := range lines {
		if show.Width(line) > 80 {
			t.Errorf("%d wide: %s", len(line), line)
		}
	}
	for i := range 60 {
		if n := strings.Count(text, fmt.Sprintf("Rail %d ", 100+i)); n != 1 {
			t.Errorf("row %d stands there %d times", i, n)
		}
	}
	if len(lines) > 2*40 {
		t.Errorf("120 rows are %d lines", len(lines))
	}
}
