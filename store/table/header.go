package table

import (
	"slices"
	"strings"
	"unicode"

	"tubside/model"
)

// field is one thing a file can say about a plant.
type field int

// The fields, in the order they are written.
const (
	fieldID field = iota
	fieldLabel
	fieldName
	fieldNow
	fieldForm
	fieldLeaf
	fieldSize
	fieldCount
	fieldShelf
	fieldSpot
	fieldAcquired
	fieldSoaked
	fieldFed
	fieldBloom
	fieldRot
	fieldTroubles
	fieldOffsets
	fieldFading
	fieldMistOnly
	fieldNew
	fieldMother
	fieldNote
	fieldAssumed
	fieldGone
	fieldCount_
)

// columns are the headers written.
var columns = [fieldCount_]string{
	"id", "label", "name", "name_now", "form", "leaf", "size_cm", "count", "shelf", "spot",
	"acquired", "last_soaked", "last_fed", "bloom", "rot", "troubles", "offsets", "fading", "mist_only",
	"quarantine_since", "mother", "note", "assumed", "gone",
}

// synonyms are the headers understood, in lower case without anything but
// letters. What stands in columns is understood too.
var synonyms = map[string]field{
	"number": fieldID, "no": fieldID, "nr": fieldID, "num": fieldID, "#": fieldID,
	"plantid": fieldID, "plantno": fieldID, "plantnr": fieldID, "plantnumber": fieldID,

	"tag": fieldLabel, "plantlabel": fieldLabel, "plantname": fieldLabel, "code": fieldLabel, "nickname": fieldLabel,

	"species": fieldName, "cultivar": fieldName, "variety": fieldName, "hybrid": fieldName, "taxon": fieldName,
	"speciescultivar": fieldName, "speciesorcultivar": fieldName, "speciesname": fieldName, "latinname": fieldName,
	"latin": fieldName, "botanicalname": fieldName, "scientificname": fieldName, "tillandsia": fieldName,

	"acceptedname": fieldNow, "currentname": fieldNow, "identifiedas": fieldNow, "correctname": fieldNow,
	"nownamed": fieldNow, "namenow": fieldNow, "renamed": fieldNow, "renamedto": fieldNow,

	"growthform": fieldForm, "habit": fieldForm, "shape": fieldForm,
	"leaftype": fieldLeaf, "leaves": fieldLeaf,

	"size": fieldSize, "diameter": fieldSize, "span": fieldSize, "width": fieldSize,
	"diametercm": fieldSize, "spancm": fieldSize, "widthcm": fieldSize,
	"sizein": fieldSize, "sizeinch": fieldSize, "sizeinches": fieldSize, "diameterin": fieldSize,
	"diameterinches": fieldSize, "sizemm": fieldSize,

	"qty": fieldCount, "quantity": fieldCount, "pcs": fieldCount, "pieces": fieldCount, "howmany": fieldCount,
	"amount": fieldCount, "numberofplants": fieldCount,

	"rack": fieldShelf, "location": fieldShelf, "place": fieldShelf, "room": fieldShelf, "stand": fieldShelf,
	"where": fieldShelf, "whereithangs": fieldShelf, "hangs": fieldShelf, "hangsin": fieldShelf, "hung": fieldShelf,
	"hungin": fieldShelf, "home": fieldShelf, "area": fieldShelf,
	"hook": fieldSpot, "position": fieldSpot, "pos": fieldSpot, "slot": fieldSpot,

	"acquiredon": fieldAcquired, "dateacquired": fieldAcquired, "bought": fieldAcquired, "boughton": fieldAcquired,
	"purchased": fieldAcquired, "purchasedate": fieldAcquired, "datepurchased": fieldAcquired,
	"datebought": fieldAcquired, "whenbought": fieldAcquired, "purchasedon": fieldAcquired,
	"received": fieldAcquired, "receivedon": fieldAcquired, "datereceived": fieldAcquired,
	"arrived": fieldAcquired, "arrivedon": fieldAcquired, "since": fieldAcquired, "gotit": fieldAcquired,
	"got": fieldAcquired, "goton": fieldAcquired, "gotiton": fieldAcquired, "igotit": fieldAcquired,
	"whenigotit": fieldAcquired, "dategot": fieldAcquired,

	"soaked": fieldSoaked, "soakedon": fieldSoaked, "lastsoak": fieldSoaked, "lastbath": fieldSoaked,
	"lastwatered": fieldSoaked, "lastwatering": fieldSoaked, "lastwater": fieldSoaked, "watered": fieldSoaked,
	"wateredon": fieldSoaked, "lastsoaking": fieldSoaked, "lastbathed": fieldSoaked, "bathed": fieldSoaked,

	"fed": fieldFed, "fedon": fieldFed, "lastfeed": fieldFed, "lastfeeding": fieldFed, "lastfertilised": fieldFed,
	"lastfertilized": fieldFed, "fertilised": fieldFed, "fertilized": fieldFed,

	"inbloom": fieldBloom, "blooming": fieldBloom, "flower": fieldBloom, "flowers": fieldBloom,
	"flowering": fieldBloom, "inflower": fieldBloom,

	"rotting": fieldRot, "suspectedrot": fieldRot,
	"trouble": fieldTroubles, "ailment": fieldTroubles, "ailments": fieldTroubles,
	"pest": fieldTroubles, "pests": fieldTroubles,
	"offset": fieldOffsets, "pups": fieldOffsets, "numberofoffsets": fieldOffsets, "numberofpups": fieldOffsets,
	"givingout":   fieldFading,
	"neversoaked": fieldMistOnly, "nosoak": fieldMistOnly, "mistingonly": fieldMistOnly,

	"quarantine": fieldNew, "inquarantine": fieldNew, "quarantined": fieldNew,
	"offsetof": fieldMother, "pupof": fieldMother, "mothernumber": fieldMother, "motherid": fieldMother,

	"notes": fieldNote, "comment": fieldNote, "comments": fieldNote, "remark": fieldNote, "remarks": fieldNote,

	"guessed": fieldAssumed,
}

// loose are headers that growers use for the tag as well as for the species.
// Beside a column for one of the two they mean the other; alone they mean the
// species, which tells more; "plant" and "name" together are tag and species.
var loose = []string{"plant", "name"}

func init() {
	for f, word := range columns {
		if word != "name" {
			synonyms[headerKey(word)] = field(f)
		}
	}
}

// headerKey is what is compared of a header: its letters. A lone # stays.
func headerKey(cell string) string {
	if strings.TrimSpace(cell) == "#" {
		return "#"
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, cell)
}

// header says which column holds which field.
type header struct {
	cells   []string
	at      [fieldCount_]int // -1: no such column
	ignored []string         // headers that mean nothing to us
	unused  []string         // the same, each with the header that would do, if one is near
	faults  Faults
}

// matchHeader reads a header row, and says how many of its columns it knows.
func matchHeader(cells []string, line int) (h *header, known int) {
	h = &header{cells: cells}
	for f := range h.at {
		h.at[f] = -1
	}
	var open []int // loose columns
	for i, cell := range cells {
		key := headerKey(cell)
		f, ok := synonyms[key]
		switch {
		case slices.Contains(loose, key):
			open = append(open, i)
		case ok:
			h.take(f, i, line)
		case strings.TrimSpace(cell) != "":
			h.ignored = append(h.ignored, strings.TrimSpace(cell))
			continue
		}
	}
	h.settle(open, line)
	for _, cell := range h.ignored {
		h.unused = append(h.unused, h.meant(cell))
	}
	for _, i := range h.at {
		if i >= 0 {
			known++
		}
	}
	return h, known
}

// settle gives the loose columns a field.
func (h *header) settle(open []int, line int) {
	slices.SortFunc(open, func(a, b int) int {
		return slices.Index(loose, headerKey(h.cells[a])) - slices.Index(loose, headerKey(h.cells[b]))
	})
	for n, i := range open {
		f := fieldName
		if h.at[fieldLabel] < 0 && (h.at[fieldName] >= 0 || n < len(open)-1) {
			f = fieldLabel
		}
		h.take(f, i, line)
	}
}

func (h *header) take(f field, column, line int) {
	if first := h.at[f]; first >= 0 {
		h.faults = append(h.faults, Fault{
			Line: line, Field: h.cells[column],
			Text: "the columns " + quote(h.cells[first]) + " and " + quote(h.cells[column]) + " both hold the " +
				strings.ReplaceAll(columns[f], "_", " "),
			Do: "join them or rename one",
		})
		return
	}
	h.at[f] = column
}

// has reports whether the file has a column for f.
func (h *header) has(f field) bool { return h.at[f] >= 0 }

// title is what the file calls the column of f.
func (h *header) title(f field) string {
	if h.has(f) {
		return strings.TrimSpace(h.cells[h.at[f]])
	}
	return columns[f]
}

// foreign are headers that say something we do not keep, though they are a slip away
// from one that we do: from whom a plant was bought is no form.
var foreign = []string{"from"}

// meant is a header that means nothing to us, with the one that would do: a slip away
// from it, or one of its words, of a column that the file does not have yet.
func (h *header) meant(cell string) string {
	var free []string
	for key, f := range synonyms {
		if !h.has(f) {
			free = append(free, key)
		}
	}
	slices.Sort(free)
	near := ""
	if key := headerKey(cell); !slices.Contains(foreign, key) {
		near = model.OneSlip(key, free)
	}
	for _, word := range strings.Fields(cell) {
		if near == "" && slices.Contains(free, headerKey(word)) {
			near = headerKey(word)
		}
	}
	if near == "" {
		return cell
	}
	return cell + " (call it " + columns[synonyms[near]] + " to bring it in)"
}
