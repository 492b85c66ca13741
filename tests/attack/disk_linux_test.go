package attack_test

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"syscall"
	"testing"
	"unsafe"

	"golang.org/x/sys/unix"
)

// operation is what a program asked of the disk.
type operation struct {
	kind   string // "write", "sync" or "size"
	file   string
	offset int64 // of a write, or the new size
	data   []byte
}

// answer is what a disk says to an operation: an error of the system, or how many
// bytes of a write it takes; -1 is all.
type answer struct {
	fault syscall.Errno
	takes int
}

// sound takes everything.
var sound = answer{takes: -1}

// onDisk does some work on a disk of its own making: every write, sync and change
// of size that work asks of the system is shown to disk first, which says what
// becomes of it. The kernel asks, by a filter on the one thread that works
// (seccomp's user notification, Linux 5.5), so that it is the real program whose
// real calls are seen. Files are told by their number.
func onDisk(t testing.TB, disk func(operation) answer, work func()) {
	t.Helper()
	listener, done := make(chan int, 1), make(chan struct{})
	go func() {
		defer close(done)
		runtime.LockOSThread() // and never unlocked: the thread ends with its filter
		fd, err := filterThread()
		if err != nil {
			listener <- -1
			return
		}
		listener <- fd
		work()
	}()
	fd := <-listener
	if fd < 0 {
		<-done
		t.Skip("the kernel lets nobody watch a thread here: no figures of the disk")
	}
	defer unix.Close(fd)
	if err := serve(fd, disk, done); err != nil {
		t.Fatalf("watch the disk: %v", err)
	}
	<-done
}

// watched are the calls that change what is on a disk. Plain write is not one of
// them: no book is written so, and Go's scheduler uses it where it cannot wait.
var watched = []uint32{unix.SYS_PWRITE64, unix.SYS_FSYNC, unix.SYS_FDATASYNC, unix.SYS_FTRUNCATE}

// filterThread has the kernel ask about this thread's calls, and gives where it
// asks.
func filterThread() (int, error) {
	const load, equal, give = unix.BPF_LD | unix.BPF_W | unix.BPF_ABS, unix.BPF_JMP | unix.BPF_JEQ | unix.BPF_K, unix.BPF_RET | unix.BPF_K
	const allow, ask, newListener = 0x7fff0000, 0x7fc00000, 1 << 3
	filter := []unix.SockFilter{{Code: load}} // the call's number
	for i, nr := range watched {
		filter = append(filter, unix.SockFilter{Code: equal, K: nr, Jt: uint8(len(watched) - i)})
	}
	filter = append(filter, unix.SockFilter{Code: give, K: allow}, unix.SockFilter{Code: give, K: ask})
	if err := unix.Prctl(unix.PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0); err != nil {
		return -1, err
	}
	program := unix.SockFprog{Len: uint16(len(filter)), Filter: &filter[0]}
	fd, _, e := unix.Syscall(unix.SYS_SECCOMP, 1, newListener, uintptr(unsafe.Pointer(&program)))
	if e != 0 {
		return -1, e
	}
	return int(fd), nil
}

// notice and reply are the kernel's struct seccomp_notif and seccomp_notif_resp.
type notice struct {
	id         uint64
	pid, flags uint32
	nr         int32
	arch       uint32
	ip         uint64
	args       [6]uint64
}

type reply struct {
	id    uint64
	value int64
	fault int32
	flags uint32
}

// lookUp is how often serve looks up from an idle disk to see whether the work is
// done.
const lookUp = 10 // ms

// serve answers until the work is done.
func serve(fd int, disk func(operation) answer, done <-chan struct{}) error {
	const receive, send = 0xc0502100, 0xc0182101
	for {
		poll := []unix.PollFd{{Fd: int32(fd), Events: unix.POLLIN}}
		if _, err := unix.Poll(poll, lookUp); err != nil && !errors.Is(err, unix.EINTR) {
			return err
		}
		if poll[0].Revents&unix.POLLIN == 0 {
			select {
			case <-done:
				return nil
			default:
				continue
			}
		}
		var n notice
		if _, _, e := unix.Syscall(unix.SYS_IOCTL, uintptr(fd), receive, uintptr(unsafe.Pointer(&n))); e != 0 {
			if e == unix.ENOENT || e == unix.EINTR {
				continue
			}
			return e
		}
		r := decide(&n, disk)
		if _, _, e := unix.Syscall(unix.SYS_IOCTL, uintptr(fd), send, uintptr(unsafe.Pointer(&r))); e != 0 &&
			e != unix.ENOENT {
			return e
		}
	}
}

// decide shows one call to the disk and does what it says.
func decide(n *notice, disk func(operation) answer) reply {
	const goOn = 1
	r := reply{id: n.id, flags: goOn}
	name, err := os.Readlink(fmt.Sprintf("/proc/self/fd/%d", n.args[0]))
	if err != nil {
		return r
	}
	op := operation{file: name}
	switch uint32(n.nr) {
	case unix.SYS_PWRITE64:
		op.kind, op.offset = "write", int64(n.args[3])
		// The thread waits in the call, so its bytes stay where they are.
		op.data = append(op.data, unsafe.Slice((*byte)(*(*unsafe.Pointer)(unsafe.Pointer(&n.args[1]))), n.args[2])...)
	case unix.SYS_FTRUNCATE:
		op.kind, op.offset = "size", int64(n.args[1])
	default:
		op.kind = "sync"
	}
	a := disk(op)
	switch {
	case a.fault != 0:
		return reply{id: n.id, fault: -int32(a.fault)}
	case a.takes >= 0 && a.takes < len(op.data):
		took, err := unix.Pwrite(int(n.args[0]), op.data[:a.takes], op.offset)
		if err != nil {
			return reply{id: n.id, fault: -int32(unix.EIO)}
		}
		return reply{id: n.id, value: int64(took)}
	}
	return r
}
