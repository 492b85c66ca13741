package paper_test

import (
	"fmt"
	"image"
	"image/color"
	"regexp"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/ui/paper"
)

var (
	codePath = regexp.MustCompile(`viewBox="0 0 (\d+) \d+".*<path d="([^"]*)"`)
	codeRun  = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)
)

// scanned is the code on a page as a scanner sees it, its box so many dots wide:
// the path is drawn and read by a reader that shares nothing with the writer.
func scanned(t fataler, page string, dots int) string {
	t.Helper()
	found := codePath.FindStringSubmatch(page)
	if found == nil {
		t.Fatalf("no code on the page")
	}
	var box int
	fmt.Sscan(found[1], &box)
	modules := make([][]bool, box)
	for i := range modules {
		modules[i] = make([]bool, box)
	}
	for _, run := range codeRun.FindAllStringSubmatch(found[2], -1) {
		var x, y, n, back int
		fmt.Sscan(run[1], &x)
		fmt.Sscan(run[2], &y)
		fmt.Sscan(run[3], &n)
		fmt.Sscan(run[4], &back)
		if n != back {
			t.Fatalf("a run that does not close: %s", run[0])
		}
		for i := range n {
			modules[y][x+i] = true
		}
	}
	img := image.NewGray(image.Rect(0, 0, dots, dots))
	for y := range dots {
		for x := range dots {
			ink := uint8(255)
			if modules[y*box/dots][x*box/dots] {
				ink = 0
			}
			img.SetGray(x, y, color.Gray{Y: ink})
		}
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		t.Fatalf("%v", err)
	}
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, nil)
	if err != nil {
		t.Fatalf("a code of %d dots is not read: %v", dots, err)
	}
	return result.GetText()
}

// The code on a label is read back, 12 mm wide and without its white edge, at
// 150 dots to the inch: 29 modules where 21 are 12 mm make 16.6 mm, 98 dots.
func TestTheCodeOnALabelIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := model.ID(rapid.IntRange(1, int(model.MaxID)).Draw(t, "id"))
		p := printed(t, []paper.Label{{ID: id}}, paper.UsualLabel, paper.A4)
		if got := scanned(t, p.HTML, 98); got != id.Code() {
			t.Fatalf("read %q, want %q", got, id.Code())
		}
	})
	if p := printed(t, []paper.Label{{ID: 1}}, paper.Size{Width: 20, Height: 10}, paper.A4); p.Codes || codePath.MatchString(p.HTML) {
		t.Error("a label of 20x10 mm has no room for a code")
	}
}
