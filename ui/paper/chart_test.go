package paper_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"tubside/ui/paper"

	"pgregory.net/rapid"

	"tubside/ui/show"
)

// parsed is an SVG read as XML: how many elements of each kind it has, and its
// texts.
func parsed(t interface {
	Helper()
	Fatalf(string, ...any)
}, svg string) (elements map[string]int, texts string) {
	t.Helper()
	elements = map[string]int{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		switch x := token.(type) {
		case xml.StartElement:
			elements[x.Name.Local]++
		case xml.CharData:
			texts += string(x) + "\n"
		}
		if errors.Is(err, io.EOF) {
			return elements, texts
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, svg)
		}
	}
}

var losses = paper.BarChart{
	About: paper.About{Name: "causes", Title: "Plants lost", What: "One bar a cause."},
	Lines: []paper.Bar{{"rot", 12, "12"}, {"<drought> & \x1bheat", 6, "6"}, {"cold", 0.01, "a few"}, {"sun", 0, "0"}},
}

func TestBars(t *testing.T) {
	d := losses.Drawing()
	elements, texts := parsed(t, d.SVG)
	if elements["rect"] != 3 || elements["title"] != 1 || elements["desc"] != 1 ||
		!strings.Contains(texts, "<drought> & heat") {
		t.Errorf("%v %s", elements, texts)
	}
	half := strings.Repeat("━", 26)
	for i, want := range []string{half + "━" + half, half + "╸", "╸", ""} {
		_, drawn, _ := strings.Cut(d.Text[i], losses.Lines[i].Says)
		if strings.TrimSpace(drawn) != want || strings.Contains(d.Text[i], "\x1b") {
			t.Errorf("line %d: %q, want a bar %q", i, d.Text[i], want)
		}
	}
}

func TestColumnChart(t *testing.T) {
	d := paper.ColumnChart{
		About: paper.About{Name: "months"}, First: "came", Second: "went",
		Pairs: []paper.Pair{{"2026-01", 4, 0}, {"2026-02", 2, 1}},
	}.Drawing()
	elements, texts := parsed(t, d.SVG)
	if elements["rect"] != 3+2 || !strings.Contains(texts, "2026-02") { // two stand in the legend
		t.Errorf("%v %s", elements, texts)
	}
	bars := [][2]int{{0, 0}, {30, 0}, {15, 8}} // 30 cells a side; half a cell rounds up
	for i, line := range d.Text {
		if left, right, ok := strings.Cut(line, "2026-0"); ok &&
			(cells(left) != bars[i][0] || cells(right) != bars[i][1]) {
			t.Errorf("%q: %d and %d cells, want %v", line, cells(left), cells(right), bars[i])
		}
	}
}

func cells(s string) int { return strings.Count(s, "━") + strings.Count(s, "╸") }

// More than half were lost on day 50 of 100.
var halved = paper.CurveChart{
	About: paper.About{Name: "survival", Title: "Alive"}, End: 100, Below: "watched",
	Steps: []paper.Step{{X: 50, Y: 0.45, Low: 0.3, High: 0.7}},
	Marks: []paper.Mark{{0, "0 d", "12"}, {50, "50 d", "6"}, {100, "100 d", "5"}},
}

func TestCurve(t *testing.T) {
	d := halved.Drawing()
	elements, texts := parsed(t, d.SVG)
	if elements["path"] != 2 || !strings.Contains(texts, "50 d") || !strings.Contains(texts, "30 %") {
		t.Errorf("%v %s", elements, texts)
	}
	text := strings.Join(d.Text, "\n")
	if n := strings.Count(text, "━"); n != 71 { // one in every column
		t.Errorf("the curve takes %d cells:\n%s", n, text)
	}
	top, foot := d.Text[0], d.Text[10]
	if !strings.HasPrefix(top, "100 % │"+strings.Repeat("━", 35)) || strings.Count(top, "━") != 35 ||
		strings.Contains(foot, "━") || !strings.Contains(foot, "░") {
		t.Errorf("top %q\nfoot %q", top, foot)
	}
	if !strings.Contains(d.Text[8], "━") { // 45 % between 100 % and 30 % in rows of 7 %
		t.Errorf("the row of 44 %%: %q", d.Text[8])
	}
	if !strings.Contains(d.Text[12], "0 d") || !strings.Contains(d.Text[12], "100 d") ||
		!strings.Contains(d.Text[13], "12") {
		t.Errorf("%q", d.Text[12:])
	}
}

// Whatever is drawn is well-formed, names what it shows, and fits the sheet.
func TestEveryChartHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringN(0, 30, -1).Draw(t, "name")
		about := paper.About{Name: "x", Title: name, What: name}
		n := rapid.IntRange(0, 40).Draw(t, "n")
		bars, columns := paper.BarChart{About: about}, paper.ColumnChart{About: about, First: "came", Second: "went"}
		curve := paper.CurveChart{About: about, End: rapid.Float64Range(1, 4000).Draw(t, "end"), Below: "watched"}
		for i := range n {
			amount := rapid.IntRange(0, 9999).Draw(t, "amount")
			bars.Lines = append(bars.Lines, paper.Bar{name, float64(amount), "1 of 2"})
			columns.Pairs = append(columns.Pairs, paper.Pair{"2026-01", amount, 9999 - amount})
			share := 1 - float64(i)/float64(n)
			curve.Steps = append(curve.Steps, paper.Step{curve.End * float64(i) / 30, share, share * 0.8, share})
			curve.Marks = append(curve.Marks, paper.Mark{curve.End * float64(i) / 30, "30 d", "512"})
		}
		if n := strings.Count(strings.Join(curve.Drawing().Text, ""), "━"); n != 71 {
			t.Fatalf("the curve takes %d cells", n) // one in every column
		}
		for _, d := range []paper.Drawing{bars.Drawing(), columns.Drawing(), curve.Drawing()} {
			if elements, _ := parsed(t, d.SVG); elements["title"] != 1 || strings.Contains(d.SVG, "NaN") ||
				strings.Contains(d.SVG, "Inf") {
				t.Fatalf("%s", d.SVG)
			}
			for width := range 12 { // a window as good as closed
				_ = paper.Section{Blocks: []paper.Block{d}}.Lines(width)
			}
			for _, line := range d.Text {
				if show.Width(line) > 80 || strings.Contains(line, "\n") {
					t.Fatalf("%d cells: %q", show.Width(line), line)
				}
			}
		}
	})
}
