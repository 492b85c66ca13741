package command

import (
	"github.com/charmbracelet/x/ansi"

	"tubside/model/care"
	"tubside/model/feed"
)

// The cautions that stand in the help of what can hurt.
const (
	feedCaution      = feed.Caution
	pesticideCaution = care.PesticideCaution
	disinfectCaution = care.DisinfectCaution
)

// wrapped is a caution under its heading, as wide as help is.
func wrapped(head, text string) string { return ansi.Wordwrap(head+": "+text, pipedWidth, "") + "\n" }
