package command

import (
	"bytes"
	"context"
	stdflag "flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"rsc.io/pdf"
)

var browse = stdflag.Bool("browser", false, "print the pages in chromium and measure them")

// measure is run by the browser on a page: how far it is wider than the window,
// and how many cells and lines of labels are cut.
const measure = `<script>
const wide = document.documentElement.scrollWidth - innerWidth;
const cut = [...document.querySelectorAll("td, th, .label p")].filter(e => e.scrollWidth > e.clientWidth + 1).length;
document.title = "measured " + wide + " " + cut;
</script></body>`

var measured = regexp.MustCompile(`<title>measured (-?\d+) (\d+)</title>`)

// browser runs a real one without a window; a test that has none is left out
// aloud.
func browser(t *testing.T, args ...string) string {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	args = append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars"}, args...)
	out, err := exec.CommandContext(ctx, "chromium", args...).Output()
	if err != nil {
		t.Fatalf("chromium: %v", err)
	}
	return string(out)
}

// Every page reads on a phone 390 px wide without being wider than it, and in
// print no cell is cut and no page at the end is empty, on A4 and on letter.
func TestPagesInABrowser(t *testing.T) {
	if !*browse {
		t.Skip("left out without -browser: it takes chromium, and some time")
	}
	book, dir := demoBook(t, "bench"), t.TempDir()
	page := func(name string) string { return filepath.Join(dir, name+".html") }
	must(t, book, "", "sheet", "triage", page("triage"), "--shelf", "Arch")
	must(t, book, "", "sheet", "check", page("check"))
	must(t, book, "", "sheet", "rehang", page("rehang"))
	must(t, book, "", "plan", "--sheet", page("plan"))
	must(t, book, "", "forecast", "--away", "60d", "--sitter", page("sitter"))
	must(t, book, "", "ledger", "--html", page("ledger"))
	must(t, book, "", "labels", page("labels"), "--shelf", "Arch")
	if marks := marksOn(t, dir, `<p>one</p><p style="break-before: page; height: 1cm"></p>`); len(marks) != 2 ||
		marks[0] == 0 || marks[1] != 0 {
		t.Fatalf("an empty sheet would not be seen: %v", marks)
	}
	for _, name := range []string{"triage", "check", "rehang", "plan", "sitter", "ledger", "labels"} {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(page(name))
			if err != nil {
				t.Fatal(err)
			}
			with := page(name + "-measured")
			if err := os.WriteFile(with, bytes.Replace(text, []byte("</body>"), []byte(measure), 1),
				0o600); err != nil {
				t.Fatal(err)
			}
			found := measured.FindStringSubmatch(browser(t, "--window-size=390,844", "--dump-dom", "file://"+with))
			if found == nil {
				t.Fatal("nothing was measured")
			}
			if wide, _ := strconv.Atoi(found[1]); wide > 0 && name != "labels" { // those are as wide as paper
				t.Errorf("%d px wider than a phone", wide)
			}
			if found[2] != "0" {
				t.Errorf("%s cells are cut", found[2])
			}
			for _, size := range []string{"A4", "letter"} {
				printed(t, dir, name, size, string(text))
			}
		})
	}
}

// printed prints a page: every sheet of paper has something on it.
func printed(t *testing.T, dir, name, size, text string) {
	t.Helper()
	if name != "labels" { // those say their paper
		text = strings.Replace(text, "@page { ", "@page { size: "+size+"; ", 1)
	}
	marks := marksOn(t, dir, text)
	if n := len(marks); n == 0 || slices.Contains(marks, 0) {
		t.Errorf("%s: a sheet has nothing on it: %v", size, marks)
	}
	if name == "sitter" && (len(marks) != 1 || strings.Count(text, "<tr><td>") != 24) {
		t.Errorf("%s: the sitter has %d sheets and %d plants, want one and all that an hour is enough for", size, len(marks),
			strings.Count(text, "<tr><td>"))
	}
	if want := strings.Count(text, `class="paper"`); name == "labels" && want != len(marks) {
		t.Errorf("%d sheets of labels are printed on %d", want, len(marks))
	}
	t.Logf("%s: %d sheets", size, len(marks))
}

// marksOn counts the letters on each sheet of a printed page.
func marksOn(t *testing.T, dir, text string) (marks []int) {
	t.Helper()
	file := filepath.Join(dir, "print.html")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	browser(t, "--no-pdf-header-footer", "--print-to-pdf="+file+".pdf", "file://"+file)
	made, err := pdf.Open(file + ".pdf")
	if err != nil {
		t.Fatal(err)
	}
	for i := range made.NumPage() {
		marks = append(marks, len(made.Page(i+1).Content().Text))
	}
	return marks
}
