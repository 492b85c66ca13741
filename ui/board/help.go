package board

import "tubside/ui/show"

// help lists the keys that work on the screen behind it, made from the same
// bindings that do the work.
type help struct {
	desk *desk
	text scroll
}

const helpKeyWidth = 12

func newHelp(m *board) *help {
	h := &help{desk: m.desk}
	var lines []string
	if m.at == 0 {
		lines = append(lines, m.desk.theme.title.of(" Keying in signs, three digits a plant"))
		for _, s := range []string{
			"curl   0 flat   1 edges lifting   2 deep channel   3 rolled shut",
			"tips   0 no brown new tips   1 a few   2 many   3 most",
			"shift  0 already dark when a drop wets it   1 slow or patchy",
			"       2 quick and full   3 stays pale        - not looked at",
		} {
			lines = append(lines, "   "+s)
		}
		lines = append(lines, "")
	}
	for _, g := range once(append(m.front().groups(), m.global)) {
		lines = append(lines, m.desk.theme.title.of(" "+g.title))
		for _, b := range g.keys {
			lines = append(lines, h.line(b))
		}
		lines = append(lines, "")
	}
	h.text.set(lines)
	return h
}

// once leaves out the bindings whose key an earlier one takes, what is no key, and
// keys that do nothing but say so.
func once(groups []group) []group {
	taken := map[string]bool{}
	var out []group
	for _, g := range groups {
		var keys []binding
		for _, b := range g.keys {
			if b.keys == "" || b.help == "" || taken[keysOf(b.keys)[0]] {
				continue
			}
			for _, k := range keysOf(b.keys) {
				taken[k] = true
			}
			keys = append(keys, b)
		}
		out = append(out, group{g.title, keys})
	}
	return out
}

// helpPadAt is the column from which help names the key of the number pad.
const helpPadAt = 58

func (h *help) line(b binding) string {
	keys := b.keys
	if h.desk.onPad() && b.num != "" {
		keys = b.num
	}
	text := "   " + show.Pad(keys, helpKeyWidth) + b.help
	if b.num != "" && !h.desk.onPad() {
		text = show.Pad(text, helpPadAt) + "  on the number pad " + b.num
	}
	if why := b.why(); why != "" {
		return h.desk.theme.quiet.of(text + "   (" + why + ")")
	}
	return text
}

func (h *help) groups() []group {
	keys := append(h.text.keys(), act("esc ? q enter", "back", func() { h.desk.drop(h) }).foot("back"))
	return []group{{"Help", keys}}
}

func (h *help) lead() string {
	if h.text.below() {
		return "there is more below:"
	}
	return ""
}

func (h *help) draw(p *page, height int) { h.text.draw(p, h.desk.width, height) }
