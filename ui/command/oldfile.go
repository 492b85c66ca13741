package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"tubside/model"
)

// openFile opens a file that somebody named, to be read.
func openFile(path string) (*os.File, error) {
	f, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		err = &model.Problem{What: "there is no file " + path, Do: "look at its name and the folder it is in"}
	case errors.Is(err, fs.ErrPermission):
		err = &model.Problem{What: "you may not read " + path, Do: "ask whose file it is, or copy it"}
	case err != nil:
		err = fmt.Errorf("open %s: %w", path, err)
	default:
		info, noInfo := f.Stat()
		if noInfo != nil || !info.IsDir() {
			return f, nil
		}
		f.Close()
		err = &model.Problem{What: path + " is a folder", Do: "name a file in it"}
	}
	return nil, &fileError{err}
}
