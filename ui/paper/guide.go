package paper

import (
	_ "embed" // the guide
	"strings"
)

//go:embed guide.md
var guideText string

// GuidePage is one page of the guide.
type GuidePage struct {
	Title  string
	Screen string // where its keys work; "everywhere" for those of every screen
	Blocks []Block
	Keys   []string // the keys it names, as help writes them
}

// Guide is the soak day in ten short pages.
func Guide() []GuidePage {
	var pages []GuidePage
	for _, text := range strings.Split("\n"+strings.TrimSpace(guideText), "\n# ")[1:] {
		head, body, _ := strings.Cut(text, "\n")
		title, screen, _ := strings.Cut(strings.TrimSuffix(head, "]"), " [")
		p := GuidePage{Title: title, Screen: screen}
		for _, block := range strings.Split(strings.TrimSpace(body), "\n\n") {
			p.Blocks = append(p.Blocks, guideBlock(block))
		}
		for i, part := range strings.Split(body, "`") {
			if i%2 == 1 {
				p.Keys = append(p.Keys, part)
			}
		}
		pages = append(pages, p)
	}
	return pages
}

// guideBlock is a paragraph, a list, or cautions with their sources.
func guideBlock(text string) Block {
	lines := strings.Split(strings.ReplaceAll(text, "`", ""), "\n")
	switch text[:2] {
	case "- ":
		var p Points
		for _, line := range lines {
			p = append(p, strings.TrimPrefix(line, "- "))
		}
		return p
	case "! ":
		var c Cautions
		for _, line := range lines {
			line = strings.TrimPrefix(line, "! ")
			i := strings.LastIndex(line, " (")
			c = append(c, Caution{Text: line[:i], Source: strings.TrimSuffix(line[i+2:], ")")})
		}
		return c
	}
	return Words(strings.Join(lines, " "))
}

// GuideSheet is pages of the guide as one sheet, to read or to print.
func GuideSheet(pages []GuidePage) *Sheet {
	s := &Sheet{Title: "The soak day"}
	for _, p := range pages {
		s.Add(p.Title, p.Blocks...)
	}
	return s
}
