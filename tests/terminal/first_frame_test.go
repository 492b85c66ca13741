package terminal_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/creack/pty"
)

// From starting the program to its first frame, and to the frame with every
// plant's need, on the demo's year of 640 plants; and the most memory it held.
// The budgets are 60 ms for the first frame, and 40 MB.
func BenchmarkFirstFrame(b *testing.B) {
	dir := b.TempDir()
	program, book := filepath.Join(dir, "tubside"), filepath.Join(dir, "demo.db")
	for _, args := range [][]string{{"go", "build", "-o", program, "tubside"}, {program, "demo", "--keep", book}} {
		if out, err := exec.Command(args[0], args[1:]...).CombinedOutput(); err != nil {
			b.Fatalf("%v: %v\n%s", args, err, out)
		}
	}
	for name, text := range map[string]string{"first": "reckoning what", "reckoned": "by shelf"} {
		b.Run(name, func(b *testing.B) { untilShown(b, text, program, "--book", book) })
	}
}

// untilShown measures from exec to a text on the terminal.
func untilShown(b *testing.B, text string, command ...string) {
	var most int64
	for range b.N {
		cmd := exec.Command(command[0], command[1:]...)
		cmd.Env = append(os.Environ(), "TERM=dumb")
		tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
		if err != nil {
			b.Fatal(err)
		}
		readUntil(b, tty, text)
		b.StopTimer()
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		_ = tty.Close()
		most = max(most, cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
		b.StartTimer()
	}
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
