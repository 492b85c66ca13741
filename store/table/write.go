package table

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// WriteOptions say what to write.
type WriteOptions struct {
	// All also lists the plants that are gone, in a last column that says how
	// they went. Read leaves such rows out.
	All bool
}

// Write writes the plants of a book as comma-separated UTF-8 with a header
// line, by number. Read in again, it changes nothing; read into an empty book
// and written once more, it is the same to the byte. Control characters and
// blanks at the ends of a text are left out, sizes are rounded to a tenth of a
// millimetre, and texts that a spreadsheet would run as a formula are written so
// that it does not.
func Write(w io.Writer, b *model.Book, opt WriteOptions) error {
	out := csv.NewWriter(w)
	width := fieldGone
	if opt.All {
		width++
	}
	cells := columns
	out.Write(cells[:width]) // an error stays until Flush
	for _, id := range b.IDs() {
		r := b.Row(id)
		if r.State == model.Gone && !opt.All {
			continue
		}
		cells = cellsOf(b, r)
		out.Write(cells[:width])
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("write the list: %w", err)
	}
	return nil
}

// cellsOf is one plant as a row of the file.
func cellsOf(b *model.Book, r *model.Row) (cells [fieldCount_]string) {
	for _, f := range []field{fieldLabel, fieldName, fieldNow, fieldShelf, fieldSpot, fieldNote} {
		cells[f] = disarm(plainText(*textOf(&r.Plant, f), f == fieldNote))
	}
	cells[fieldID] = r.ID.String()
	cells[fieldForm] = string(r.Form)
	cells[fieldLeaf] = string(r.Leaf)
	cells[fieldSize] = sizeCell(r.Size)
	cells[fieldCount] = strconv.Itoa(r.Count)
	cells[fieldAcquired] = r.Came()
	cells[fieldSoaked] = dayCell(lastSoak(r, b.Zone()))
	cells[fieldFed] = dayCell(dayOf(r.Fed, b.Zone()))
	cells[fieldBloom] = bloomCells[bloomOf(r)]
	cells[fieldRot] = answerTo(!r.Rot.IsZero())
	cells[fieldTroubles] = troublesCell(r)
	cells[fieldOffsets] = offsetsCell(r)
	cells[fieldFading] = answerTo(!r.Fading.IsZero())
	cells[fieldMistOnly] = answerTo(r.MistOnly)
	cells[fieldNew] = dayCell(dayOf(r.Quarantine, b.Zone()))
	if r.Mother != 0 {
		cells[fieldMother] = r.Mother.String()
	}
	cells[fieldAssumed] = assumedWords(r.Assumed)
	if r.State == model.Gone {
		cells[fieldGone] = r.GoneHow
	}
	return cells
}

func sizeCell(cm float64) string {
	if roundSize(cm) == 0 {
		return ""
	}
	return strconv.FormatFloat(roundSize(cm), 'f', -1, 64)
}

func dayCell(d date.Date) string {
	if d == 0 {
		return ""
	}
	return d.String()
}

// Template writes a file to start from: the columns a grower fills in and three
// rows to show how. Form, leaf and size are left to the species list.
func Template(w io.Writer) error {
	_, err := io.WriteString(w, template)
	return err
}

const template = `label,name,shelf,spot,count,size_cm,acquired,last_soaked,bloom,rot,troubles,offsets,fading,note
A1,T. ionantha 'Fuego',A,1,1,6,2025-04-12,2026-02-22,no,no,,3 (40 %),no,example rows: replace them with your plants
A2,T. xerographica,A,2,1,25-30,2024-09-01,2026-02-22,no,no,scale,,no,
B tray,T. stricta,B,,x12,,,,yes,,,,,a tray of twelve is one row
`
