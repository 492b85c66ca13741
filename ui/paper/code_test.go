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

// scanned is the code on a page as a reader sees it that shares nothing with the
// writer, its box so many dots wide.
func scanned(t fataler, page string, dots int) (string, error) {
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
	// A dot is as dark as the part of it that the ink covers, as a lens sees it.
	const parts = 4
	img := image.NewGray(image.Rect(0, 0, dots, dots))
	for y := range dots {
		for x := range dots {
			white := 0
			for part := range parts * parts {
				if !modules[(y*parts+part/parts)*box/(dots*parts)][(x*parts+part%parts)*box/(dots*parts)] {
					white++
				}
			}
			img.SetGray(x, y, color.Gray{Y: uint8(white * 255 / (parts * parts))})
		}
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		t.Fatalf("%v", err)
	}
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, nil)
	if err != nil {
		return "", err
	}
	return result.GetText(), nil
}

// The code on a label is read back when it is 12 mm wide, 16.6 mm with its white
// edge. At 300 dots to the inch that is 196 dots. A hand that holds a scanner
// moves: the code counts as read when one of three distances around it gives it,
// and no distance may give another.
func TestTheCodeOnALabelIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := model.ID(rapid.IntRange(1, int(model.MaxID)).Draw(t, "id"))
		p := printed(t, []paper.Label{{ID: id}}, paper.UsualLabel, paper.A4)
		read := 0
		for _, dots := range []int{196, 180, 212} {
			got, err := scanned(t, p.HTML, dots)
			if err == nil {
				read++
			}
			if err == nil && got != id.Code() {
				t.Fatalf("read %q at %d dots, want %q", got, dots, id.Code())
			}
		}
		if read == 0 {
			t.Fatalf("%s is not read", id.Code())
		}
	})
	if p := printed(t, []paper.Label{{ID: 1}}, paper.Size{Width: 20, Height: 10}, paper.A4); p.Codes ||
		codePath.MatchString(p.HTML) {
		t.Error("a label of 20x10 mm has no room for a code")
	}
}
