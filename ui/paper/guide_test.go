package paper_test

import (
	"strings"
	"testing"

	"tubside/ui/paper"
)

// The guide is ten pages, each short enough for a screen, and its cautions say
// who says so.
func TestTheGuideIsTenShortPages(t *testing.T) {
	pages := paper.Guide()
	if len(pages) != 10 {
		t.Errorf("%d pages", len(pages))
	}
	for _, p := range pages {
		text := paper.GuideSheet([]paper.GuidePage{p}).Text()
		if n := strings.Count(text, "\n"); n > 24 || p.Title == "" || p.Screen == "" {
			t.Errorf("%q for %q takes %d lines", p.Title, p.Screen, n)
		}
		if strings.ContainsAny(text, "`[") {
			t.Errorf("marks are left in:\n%s", text)
		}
		for _, block := range p.Blocks {
			cautions, _ := block.(paper.Cautions)
			for _, c := range cautions {
				if c.Source == "" {
					t.Errorf("who says %q?", c.Text)
				}
			}
		}
	}
}
