package calibration_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

// figures is a folder to write the measured figures to, a file each.
var figures = flag.String("figures", "", "`folder` to write the measured figures to")

// record prints figures and keeps them where asked.
func record(t *testing.T, name, text string) {
	t.Helper()
	t.Log("\n" + text)
	if *figures == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*figures, name+".txt"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}
