// Package hush keeps the program from asking the terminal anything before its
// first frame. Bubble Tea asks for the background colour when it is loaded and
// waits for up to five seconds; what is typed meanwhile is lost. A terminal
// called "dumb" is not asked, so for as long as packages are being loaded this
// terminal is called that.
//
// Packages are loaded in the order of their import paths, each as soon as all
// that it imports is (Go specification, "Program initialization"). This one
// imports the os package alone, so it comes before "unicode", which every part
// of Bubble Tea waits for.
package hush

import "os"

var term, known = os.LookupEnv("TERM")

func init() { _ = os.Setenv("TERM", "dumb") }

// Over calls the terminal by its name again. Whoever imports both this package
// and Bubble Tea calls it once both are loaded.
func Over() {
	if known {
		_ = os.Setenv("TERM", term)
	} else {
		_ = os.Unsetenv("TERM")
	}
}
