//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"syscall"
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

func bothFrames(b *testing.B, whole string, command ...string) {
	for _, frame := range [][2]string{{"first", "working out what"}, {"whole", whole}} {
		b.Run(frame[0], func(b *testing.B) { untilShown(b, frame[1], command...) })
	}
}

// untilShown measures from exec to a text on the terminal.
func untilShown(b *testing.B, text string, command ...string) {
	var most int64
	var took, worked []float64 // ms; of the clock and of the processor
	for range b.N {
		before := b.Elapsed()
		cmd := exec.Command(command[0], command[1:]...)
		cmd.Env = append(os.Environ(), "TERM=dumb")
		tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
		if err != nil {
			b.Fatal(err)
		}
		readUntil(b, tty, text)
		b.StopTimer()
		took = append(took, float64((b.Elapsed()-before).Microseconds())/1000)
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		_ = tty.Close()
		most = max(most, cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
		used := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		worked = append(worked, float64(used.Microseconds())/1000)
		b.StartTimer()
	}
	slices.Sort(took)
	slices.Sort(worked)
	b.ReportMetric(took[len(took)/4], "ms-quartile")
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(worked[len(worked)/2], "ms-processor")
	b.ReportMetric(float64(most)/1024, "MB")
}

// readUntil reads what the program draws until a text has been drawn.
func readUntil(b *testing.B, tty *os.File, text string) {
	var seen record
	buf := make([]byte, 32<<10)
	for !seen.contains(text) {
		n, err := tty.Read(buf)
		if err != nil {
			b.Fatalf("ended before it drew %q: %v", text, err)
		}
		_, _ = seen.Write(buf[:n])
	}
}
