package table

import "tubside/store/csvfile"

// headReach is how many rows at the top are looked at for the header:
// sheets often start with a title and an empty line.
const headReach = 10

// sniff finds the separator and the header row: the one of the first rows that
// we know most columns of. It returns the splitter standing after that row.
func sniff(text string) (*csvfile.Splitter, *header, error) {
	commas := []byte{',', ';', '\t'}
	if c := csvfile.Declared(text); c == ',' || c == ';' || c == '\t' {
		commas = []byte{c}
	}
	var best guess
	for _, comma := range commas {
		if g := guessHeader(text, comma); g.betterThan(best) {
			best = g
		}
	}
	if best.header == nil {
		return nil, nil, csvfile.WholeFile("there is no header line that names the columns",
			"write a first line with names such as label, name, shelf and spot")
	}
	s := csvfile.Split(text, best.comma)
	for range best.row + 1 {
		s.Next()
	}
	return s, best.header, best.header.faults.OrNil()
}

// guess is a row that may be the header, split by one separator.
type guess struct {
	comma  byte
	row    int
	known  int // columns that we know
	header *header
}

func (g guess) betterThan(o guess) bool {
	return g.header != nil && (o.header == nil || g.known > o.known)
}

func guessHeader(text string, comma byte) guess {
	s := csvfile.Split(text, comma)
	var best guess
	for row := range headReach {
		r, ok := s.Next()
		if !ok {
			break
		}
		if h, known := matchHeader(r.Cells, r.Line); known > 0 && known > best.known {
			best = guess{comma, row, known, h}
		}
	}
	return best
}
