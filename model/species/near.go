package species

import (
	"strings"
	"sync"

	"tubside/model"
)

// leastLetters is how long a name must be for a slip in it to be told from another
// word.
const leastLetters = 5

// Near is the name on the list that a misspelt one was likely meant to be, "" when
// none is near or the name is on the list.
func Near(name string) string {
	if _, ok := Find(name); ok {
		return ""
	}
	words := normalise(name)
	if len(words) == 0 || isHybrid(words) {
		return ""
	}
	for n := len(words); n > 0; n-- {
		text := strings.Join(words[:n], " ")
		if len(text) < leastLetters {
			break
		}
		if found := model.Near(text, epithets()); found != "" {
			e, _ := Find(found)
			return e.Name
		}
	}
	return ""
}

// epithets are all names of the list without their genus.
var epithets = sync.OnceValue(func() []string {
	var names []string
	for _, e := range All() {
		for _, name := range append([]string{e.Name}, e.Aliases...) {
			names = append(names, strings.Join(normalise(name), " "))
		}
	}
	return names
})

// Unlisted are names that the list does not have, each with the one that was likely
// meant, and that it is filled in as: "T. ionanta (taken for T. ionantha)".
func Unlisted(names []string) []string {
	said := make([]string, len(names))
	for i, name := range names {
		if said[i] = name; Near(name) != "" {
			said[i] += " (taken for " + Near(name) + ")"
		}
	}
	return said
}
