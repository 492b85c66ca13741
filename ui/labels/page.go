package labels

import (
	_ "embed" // the page
	"fmt"
	"html/template"
	"slices"
	"strings"

	"tubside/model"
)

//go:embed page.html
var source string

var page = template.Must(template.New("labels").Parse(source))

// Pages is labels laid out.
type Pages struct {
	HTML   string
	Papers int // sheets of paper
	Cut    int // labels with a line that does not fit
}

// Print lays labels out on paper, in the order given. It refuses a label larger
// than the paper, with a [model.Problem].
func Print(labels []Label, size, paper Size) (Pages, error) {
	columns, rows := grid(size, paper)
	if columns < 1 || rows < 1 {
		return Pages{}, &model.Problem{
			What: fmt.Sprintf("a label of %s mm does not fit on paper of %s mm", size, paper), Do: "give a smaller --size",
		}
	}
	var p Pages
	var sheets [][][]line
	for some := range slices.Chunk(labels, columns*rows) {
		var sheet [][]line
		for _, l := range some {
			lines := l.lines(size)
			if slices.ContainsFunc(lines, func(n line) bool { return n.cut }) {
				p.Cut++
			}
			sheet = append(sheet, lines)
		}
		sheets = append(sheets, sheet)
	}
	p.Papers = len(sheets)
	var b strings.Builder
	err := page.Execute(&b, map[string]any{
		"Width": mm(size.Width), "Height": mm(size.Height), "PaperWidth": mm(paper.Width), "PaperHeight": mm(paper.Height),
		"Columns": columns, "Margin": margin, "Inside": mm(inside), "Spacing": mm(spacing), "Sheets": sheets, "Count": len(labels),
	})
	if err != nil {
		return Pages{}, fmt.Errorf("write the labels: %w", err)
	}
	p.HTML = b.String()
	return p, nil
}
