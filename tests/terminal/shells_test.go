//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/creack/pty"
)

// offered is what is typed at a shell, and a word that it must offer then.
var offered = []struct{ typed, want string }{
	{"tubside triage --shelf ", "sill"},        // "the sill", as each shell quotes it
	{"tubside triage --shelf t", "sill"},       // and begun
	{"tubside enter soak --vessel ", "bucket"}, // "bucket 3"
	{"tubside demo --scene ", "homecoming"},
	{"tubside enter signs ", "drying"}, // how plants stand
	{"tubside enter signs ", "shelf:B"},
	{"tubside enter dry 1", "10"}, // plants
	{"tubside log --kind q", "quarantine"},
	{"tubside enter rule cap-", "cap-bulbous"},
	{"tubside sheet ", "rehang"},
	{"tubside enter fan ", "near"},
	{"tubside enter putback load", "load:1"},
	{"tubside book ch", "check"},        // a command
	{"tubside triage --lim", "--limit"}, // a flag
	{"tubside rounds m", "mist"},
	{"tubside triage --band over", "overnight"},
	{"tubside enter edit 2 --form wi", "wispy"},
	{"tubside completion z", "zsh"},
	{"tubside triage --shelf the", `the\ sill`},
	{"tubside enter move 1 --shelf t", "sill"},
	{"tubside labels x.html --shelf B", "B"},
	{"tubside rounds look --shelf t", "sill"},
	{"tubside sheet triage walk.txt 1", "10"},       // plants come after the file
	{"tubside labels ./tubside.z", "./tubside.zsh"}, // which is a file
	{"tubside enter signs shelf:the", "sill"},
	{"tubside enter note load:", "load:1"},
	{"tubside enter trouble 1 --what m", "mites"},
}

// shellsBook is a book with what is to be completed, and a folder with the program
// under its name and the scripts of the three shells.
func shellsBook(t *testing.T) (folder string, env []string) {
	t.Helper()
	folder = t.TempDir()
	if err := os.Symlink(os.Args[0], filepath.Join(folder, "tubside")); err != nil {
		t.Fatal(err)
	}
	book := filepath.Join(folder, "book.db")
	shell(t, "--book", book, "book", "new")
	lines := ""
	for i := range 12 {
		lines += fmt.Sprintf("add --label tag%d --shelf %q\n", i+1, []string{"the sill", "B"}[i%2])
	}
	batch := filepath.Join(folder, "plants.txt")
	if err := os.WriteFile(batch, []byte(lines+"vessel 'bucket 3' --litres 12\nsoak --vessel tub --minutes 20 3 --anyway\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	shell(t, "--book", book, "enter", "--from", batch)
	for _, name := range []string{"bash", "zsh", "fish"} {
		script := shell(t, "completion", name)
		if err := os.WriteFile(filepath.Join(folder, "tubside."+name), []byte(script), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return folder, append(os.Environ(), asProgram+"=1", "TUBSIDE_BOOK="+book, "TUBSIDE_NOW=", "TZ=UTC", "TERM=xterm",
		"HOME="+folder, "XDG_CONFIG_HOME="+folder, "XDG_DATA_HOME="+folder, "PATH="+folder+":"+os.Getenv("PATH"))
}

// has leaves a test out, aloud, where a shell is missing.
func has(t *testing.T, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skipf("left out: %s is not here", program)
	}
}

// asked has a shell run a script and gives what it printed.
func asked(t *testing.T, folder string, env []string, words ...string) string {
	t.Helper()
	cmd := exec.Command(words[0], words[1:]...)
	cmd.Env, cmd.Dir = env, folder
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %v\n%s", words, err, out)
	}
	return string(out)
}

// asTyped types each line at a shell's prompt, and the tab key, and waits for what
// is to be offered.
func asTyped(t *testing.T, env []string, folder, begin, tabs string, shell ...string) {
	t.Helper()
	cmd := exec.Command(shell[0], shell[1:]...)
	cmd.Env, cmd.Dir = append(env, "PS1=ready> "), folder
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 120, Rows: 60})
	if err != nil {
		t.Fatal(err)
	}
	w := watch(t, cmd, tty, 120, 60).sees("ready>")
	w.keys("PS1='ready> '; " + begin + " && echo set-$((1+1))\r").sees("set-2")
	for i, o := range offered {
		if shell[0] == "bash" && strings.Contains(o.typed, ":") {
			continue // bash itself parts words at a colon
		}
		const ctrlU = "\x15" // drops the line
		mark := fmt.Sprintf("next-%d", i)
		w.keys(ctrlU + "clear; echo next-$((" + fmt.Sprint(i) + "))\r").sees(mark)
		w.keys(o.typed+tabs).until(o.want+" offered after "+o.typed, func(screen string) bool {
			_, after, _ := strings.Cut(screen, mark)
			return strings.Contains(strings.Replace(after, o.typed, "", 1), strings.TrimPrefix(o.want, lastWord(o.typed)))
		})
	}
	w.keys("\x15exit\r").ends()
}

// lastWord is the word that is being typed.
func lastWord(line string) string { return line[strings.LastIndexByte(line, ' ')+1:] }

// bashCompletion is the package that the script wants. Where it is not there, what
// the script takes of it stands in.
const bashCompletion = `
if [ -r /usr/share/bash-completion/bash_completion ]; then . /usr/share/bash-completion/bash_completion; else
_get_comp_words_by_ref() {
  words=("${COMP_WORDS[@]}") cword=$COMP_CWORD cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]}
}
fi
`

func TestBashCompletes(t *testing.T) {
	has(t, "bash")
	folder, env := shellsBook(t)
	if err := os.WriteFile(filepath.Join(folder, "package.bash"), []byte(bashCompletion), 0o600); err != nil {
		t.Fatal(err)
	}
	asTyped(t, env, folder, "source ./package.bash && source ./tubside.bash", tab+tab, "bash", "--norc", "-i")
}

func TestZshCompletes(t *testing.T) {
	has(t, "zsh")
	folder, env := shellsBook(t)
	asTyped(t, env, folder, "autoload -Uz compinit && compinit -u -D && source ./tubside.zsh", tab, "zsh", "-f", "-i")
}

// fish says itself what it would offer.
func TestFishCompletes(t *testing.T) {
	has(t, "fish")
	folder, env := shellsBook(t)
	for _, o := range offered {
		want := strings.ReplaceAll(o.want, `\`, "") // it quotes as it puts a word in, not as it lists it
		out := asked(t, folder, env, "fish", "--no-config", "-c", "source tubside.fish; complete -C \""+o.typed+"\"")
		if !strings.Contains(out, want) {
			t.Errorf("%q: fish does not offer %s:\n%s", o.typed, want, out)
		}
	}
}
