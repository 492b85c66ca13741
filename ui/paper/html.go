package paper

import (
	"embed"
	"fmt"
	"html/template"
	"strings"
)

//go:embed *.html
var pageFiles embed.FS

// pages holds a template for each kind of page, and one for each shape of block.
var pages = template.Must(template.New("").Funcs(template.FuncMap{
	"trusted": func(svg string) template.HTML { return template.HTML(svg) },
}).ParseFS(pageFiles, "*.html"))

// HTML is the sheet as one file that links to nothing: it can be printed, sent
// or read on a phone.
func (s *Sheet) HTML() (string, error) {
	type section struct {
		Title        string
		NewPage      bool
		Blocks       []template.HTML
		Opens, Shuts bool // the first, and the last, of those that are printed small
	}
	filled := struct {
		*Sheet
		Sections []section
	}{Sheet: s}
	for i, from := range s.Sections {
		to := section{Title: from.Title, NewPage: from.NewPage}
		to.Opens = from.Small && (i == 0 || !s.Sections[i-1].Small)
		to.Shuts = from.Small && (i == len(s.Sections)-1 || !s.Sections[i+1].Small)
		for _, block := range from.Blocks {
			text, err := fill(block.shape(), block)
			if err != nil {
				return "", err
			}
			to.Blocks = append(to.Blocks, template.HTML(text)) // escaped by its own template
		}
		filled.Sections = append(filled.Sections, to)
	}
	return fill("sheet", filled)
}

// fill executes the template of a page or a block.
func fill(name string, data any) (string, error) {
	var b strings.Builder
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		return "", fmt.Errorf("write the %s for the page: %w", name, err)
	}
	return b.String(), nil
}
