package board

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// binding is one key as data: what it is called, what it does, and why it does
// nothing just now. Dispatch, help and the footer are all made from it.
type binding struct {
	key.Binding
	do  func() tea.Cmd
	off func() string // why it does not work here; nil or "" when it does
}

// bind makes a binding. The first key is the one shown in help.
func bind(keys []string, shown, help string, do func() tea.Cmd) binding {
	return binding{Binding: key.NewBinding(key.WithKeys(keys...), key.WithHelp(shown, help)), do: do}
}

// act is bind for something that starts no command.
func act(keys []string, shown, help string, do func()) binding {
	return bind(keys, shown, help, func() tea.Cmd { do(); return nil })
}

// unless gives the reason for which the binding does nothing.
func (b binding) unless(off func() string) binding {
	b.off = off
	return b
}

// why is the reason the binding does nothing now, or "".
func (b binding) why() string {
	if b.off == nil {
		return ""
	}
	return b.off()
}

// press finds the binding for a key and does it. A binding that is off says
// why. It reports whether the key meant anything.
func press(bs []binding, msg tea.KeyMsg, say func(string)) (tea.Cmd, bool) {
	for _, b := range bs {
		if !key.Matches(msg, b.Binding) {
			continue
		}
		if why := b.why(); why != "" {
			say(why)
			return nil, true
		}
		return b.do(), true
	}
	return nil, false
}

// group is bindings under one heading in help.
type group struct {
	title string
	keys  []binding
}
