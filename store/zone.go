package store

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"time"
	_ "time/tzdata" // a book's zone is known on every machine
)

// zoneName is what to call a zone in the book, so that another machine knows it
// again: "" for one without a name of that kind.
func zoneName(zone *time.Location) string {
	name := zone.String()
	if name == "Local" { // what the machine is set to
		link, _ := os.Readlink("/etc/localtime")
		_, name, _ = strings.Cut(link, "zoneinfo/")
	}
	if _, err := time.LoadLocation(name); err != nil {
		return ""
	}
	return name
}

// zoneText tells zones apart: by name, and one without a name, as Windows has them, by
// what it shows on the first of every month.
func zoneText(zone *time.Location) string {
	if zone.String() != "Local" {
		return zone.String()
	}
	var b strings.Builder
	for month := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC); month.Year() < 2060; month = month.AddDate(0, 1, 0) {
		_, offset := month.In(zone).Zone()
		fmt.Fprint(&b, offset, " ")
	}
	return b.String()
}

// ZoneOf is the zone of the house whose book is at path, read without opening
// it. It returns false when there is no book that names one.
func ZoneOf(path string) (*time.Location, bool) {
	f, err := openPlain(path)
	if err != nil {
		return nil, false
	}
	defer f.Close()
	m, _, err := newestMeta(f)
	if err != nil {
		return nil, false
	}
	r := &raw{about: map[string][]byte{}}
	w := newWalk(f, m)
	err = w.tree(m.root, func(e element) error {
		if !bytes.Equal(e.key, metaBucket) {
			return nil
		}
		return r.bucket(w, e)
	})
	name, unsealed := readAbout(zoneKey, r.about[string(zoneKey)])
	if err != nil || unsealed != nil || name == "" {
		return nil, false
	}
	zone, err := time.LoadLocation(name)
	return zone, err == nil
}
