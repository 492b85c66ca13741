package sheet

import (
	_ "embed" // the page
	"fmt"
	"html/template"
	"strings"
)

//go:embed page.html
var pageSource string

// page holds a template for the page, and one for each shape of block.
var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"trusted": func(svg string) template.HTML { return template.HTML(svg) },
}).Parse(pageSource))

// HTML is the sheet as one file that links to nothing: it can be printed, sent
// or read on a phone.
func (s *Sheet) HTML() (string, error) {
	type section struct {
		Title  string
		Blocks []template.HTML
	}
	filled := struct {
		*Sheet
		Sections []section
	}{Sheet: s}
	for _, from := range s.Sections {
		to := section{Title: from.Title}
		for _, block := range from.Blocks {
			text, err := fill(block.shape(), block)
			if err != nil {
				return "", err
			}
			to.Blocks = append(to.Blocks, template.HTML(text)) // escaped by its own template
		}
		filled.Sections = append(filled.Sections, to)
	}
	return fill("page", filled)
}

func fill(shape string, data any) (string, error) {
	var b strings.Builder
	if err := page.ExecuteTemplate(&b, shape, data); err != nil {
		return "", fmt.Errorf("write the sheet's %s: %w", shape, err)
	}
	return b.String(), nil
}
