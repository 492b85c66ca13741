package paper

import (
	"fmt"
	"strings"

	"rsc.io/qr"

	"tubside/model"
)

// Sizes of a code to scan. Every plant's number fits version 1 of ISO/IEC 18004,
// 21 modules a side, with a white edge of 4 around it (its clause on the quiet
// zone). A side of 12 mm makes a module 0.57 mm; a third of a millimetre is what
// printers and cheap scanners still manage, from memory.
const (
	codeModules = 21
	codeQuiet   = 4
	codeSide    = 12.0                                                 // mm
	codeBox     = codeSide * (codeModules + 2*codeQuiet) / codeModules // mm, with its white edge
)

// hasCode reports whether a label has room for a code beside its writing.
func hasCode(size Size) bool { return size.Height >= codeBox && size.Width >= codeBox+20 }

// codeSVG draws a plant's code: one path of the dark modules, a row's run at a
// time.
func codeSVG(id model.ID) (string, error) {
	// Of the four levels M mends 15 % of the code: a drop or a scratch.
	code, err := qr.Encode(id.Code(), qr.M)
	if err != nil {
		return "", err
	}
	if code.Size != codeModules {
		return "", fmt.Errorf("%d modules a side, not %d", code.Size, codeModules)
	}
	var path strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			run := 0
			for x+run < code.Size && code.Black(x+run, y) {
				run++
			}
			if run > 0 {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", x+codeQuiet, y+codeQuiet, run, run)
				x += run
			}
		}
	}
	box := codeModules + 2*codeQuiet
	return fmt.Sprintf(`<svg viewBox="0 0 %d %d" role="img" aria-label="code %s" shape-rendering="crispEdges"><path d="%s"/></svg>`,
		box, box, id.Code(), path.String()), nil
}
