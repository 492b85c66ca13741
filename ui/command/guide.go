package command

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/ui/paper"
)

// guideAnswer is a page of the guide.
type guideAnswer struct {
	Page  int    `json:"page"`
	Title string `json:"title"`
	Text  string `json:"text"`
}

// guide is the soak day in ten short pages.
func (r *run) guide() *cobra.Command {
	var file string
	var force bool
	c := &cobra.Command{
		Use:     "guide [PAGE]",
		Short:   "the soak day in ten short pages, with the keys, the cautions, and where the numbers come from",
		Example: "  tubside guide\n  tubside guide 7",
		Args:    wants(0, 1, "give the number of one page, or none for all"),
		RunE: func(_ *cobra.Command, args []string) error {
			pages, first := paper.Guide(), 1
			if len(args) > 0 {
				n, err := strconv.Atoi(args[0])
				if err != nil || n < 1 || n > len(pages) {
					return misread(&model.Problem{
						What: fmt.Sprintf("there is no page %q", args[0]),
						Do:   fmt.Sprintf("the pages are 1 to %d", len(pages)),
					})
				}
				pages, first = pages[n-1:n], n
			}
			if file != "" {
				return r.writeSheet(file, paper.GuideSheet(pages), force)
			}
			return r.sayGuide(pages, first)
		},
	}
	c.Flags().StringVar(&file, "sheet", "", "write it as a sheet to print, `FILE`.txt or FILE.html")
	c.Flags().BoolVar(&force, "force", false, "replace the file if there is one")
	return c
}

func (r *run) sayGuide(pages []paper.GuidePage, first int) error {
	if !r.json {
		return r.print(paper.GuideSheet(pages).Within(r.width()))
	}
	answers := []guideAnswer{}
	for i, p := range pages {
		answers = append(answers, guideAnswer{first + i, p.Title, paper.GuideSheet(pages[i : i+1]).Text()})
	}
	return r.inJSON(answers)
}
