package command

import (
	"fmt"
	"io"
	"os"

	"tubside/model"
)

// newFile writes a text to a file that is there whole or not at all. A file
// that is already there stays unless it may be replaced.
func newFile(path, text string, force bool) error {
	if _, err := os.Stat(path); err == nil && !force {
		return &model.Problem{What: path + " is already there", Do: "name another file, or replace it with --force"}
	}
	err := whole(path, func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	})
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	return nil
}
