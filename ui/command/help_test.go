package command

import (
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// Every command has two examples, each of that command, and says what it is for.
func TestEveryCommandHasTwoExamples(t *testing.T) {
	root := (&run{}).root()
	var walk func(*cobra.Command)
	walk = func(c *cobra.Command) {
		for _, sub := range c.Commands() {
			walk(sub)
		}
		if c == root || c.Hidden || c.RunE == nil || c.Name() == "help" {
			return
		}
		examples := strings.Split(strings.TrimSpace(c.Example), "\n")
		for _, e := range examples {
			if !strings.HasPrefix(strings.TrimSpace(e), c.CommandPath()) {
				t.Errorf("%s: an example of something else: %s", c.CommandPath(), e)
			}
		}
		if len(examples) < 2 || c.Short == "" {
			t.Errorf("%s has the examples %q and the help %q", c.CommandPath(), examples, c.Short)
		}
	}
	walk(root)
}
