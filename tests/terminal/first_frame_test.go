//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// From starting the program to its first frame, and to the frame with every
// plant's need, on the demo's year of 640 plants; and the most memory it held.
// The budgets are 40 ms for the first frame, and 40 MB. Beside the mean stand
// the median, the lower quartile and the time of the processor, which say more
// where others use the machine: -benchtime 20x gives them something to stand on.
func BenchmarkFirstFrame(b *testing.B) {
	program, book := built(b), filepath.Join(b.TempDir(), "demo.db")
	b.Setenv("XDG_CACHE_HOME", b.TempDir())
	made(b, program, "demo", "--keep", book)
	bothFrames(b, "surely by", program, "--book", book) // it opens where plants wait to be felt
}

// The same on books of ten years. The budget to the frame with every need is 0.2 s
// for 640 plants, and 1.5 s and 300 MB for 5,000, where the program has run before
// and kept what it worked out; afresh is without that.
func BenchmarkFirstFrameAfterTenYears(b *testing.B) {
	program := built(b)
	for _, plants := range []int{640, 5000} {
		b.Run(fmt.Sprint(plants), func(b *testing.B) {
			b.Setenv("XDG_CACHE_HOME", b.TempDir())
			book := filepath.Join(b.TempDir(), "years.db")
			lived(b, book, plants, 10)
			command := []string{program, "--book", book, "--now", lately.Format(time.RFC3339)}
			b.Run("afresh", func(b *testing.B) { untilShown(b, "signs thirst", command...) })
			made(b, append(command, "triage")...)
			bothFrames(b, "signs thirst", command...)
		})
	}
}

// built is the program as it is shipped.
func built(b *testing.B) string {
	program := filepath.Join(b.TempDir(), "tubside")
	made(b, "go", "build", "-o", program, "tubside")
	return program
}

func made(b *testing.B, command ...string) {
	if out, err := exec.Command(command[0], command[1:]...).CombinedOutput(); err != nil {
		b.Fatalf("%v: %v\n%s", command, err, out)
	}
}

// bothFrames measures to the first frame, and to one with the text that only a frame
// with every need has. Where the program has run before, the needs may be known before
// the first frame is drawn, and then that one has them; so the first frame is told by
// the mark that the screen in front has in every frame.
func bothFrames(b *testing.B, whole string, command ...string) {
	for _, frame := range [][2]string{{"first", "▸"}, {"whole", whole}} {
		b.Run(frame[0], func(b *testing.B) { untilShown(b, frame[1], command...) })
	}
}

// untilShown measures from exec to a text on the terminal.
func untilShown(b *testing.B, text string, command ...string) {
	var most float64
	var took, worked []float64 // ms; of the clock and of the processor
	for range b.N {
		before := b.Elapsed()
		cmd := exec.Command(command[0], command[1:]...)
		cmd.Env = append(os.Environ(), "TERM=dumb")
		tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
		if err != nil {
			b.Fatal(err)
		}
		impatient := time.AfterFunc(patience, func() { _ = cmd.Process.Kill() }) // and nothing is left to read
		readUntil(b, tty, text)
		b.StopTimer()
		impatient.Stop()
		took = append(took, float64((b.Elapsed()-before).Microseconds())/1000)
		most = max(most, peak(cmd.Process.Pid))
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		_ = tty.Close()
		used := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		worked = append(worked, float64(used.Microseconds())/1000)
		b.StartTimer()
	}
	slices.Sort(took)
	slices.Sort(worked)
	b.ReportMetric(took[len(took)/4], "ms-quartile")
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(worked[len(worked)/2], "ms-processor")
	if most > 0 {
		b.ReportMetric(most, "MB")
	}
}

// peak is the most memory that a running program has held, in MB; 0 where the system
// does not say. What Linux says of a program that has ended is never less than what
// the one that started it held.
func peak(pid int) float64 {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	var kB float64
	_, _ = fmt.Sscan(rest, &kB)
	return kB / 1024
}

// readUntil reads what the program draws until a text has been drawn.
func readUntil(b *testing.B, tty *os.File, text string) {
	var seen record
	buf := make([]byte, 32<<10)
	for !seen.contains(text) {
		n, err := tty.Read(buf)
		if err != nil {
			b.Fatalf("ended, or was ended after %v, before it drew %q: %v; what it drew:\n%q", patience, text, err, seen.b.String())
		}
		_, _ = seen.Write(buf[:n])
	}
}
