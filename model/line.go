package model

import "bytes"

// asWritten takes a line apart that stands exactly as [Entry.MarshalJSON] writes
// it, as nearly all do. Opening a book is mostly reading such lines, and where
// each part of them begins need not be found out twice over, as encoding/json
// does. It is sure of nothing but the places: whether the fact is sound JSON is
// for whoever decodes it to say. It returns false for a line of any other look,
// which may still be a good one.
func (r *Reader) asWritten(b []byte) (line, bool) {
	l := line{V: EntryVersion}
	rest, ok := bytes.CutPrefix(b, []byte(`{"v":1,"at":`))
	end := bytes.Index(rest, []byte(`,"kind":"`))
	if !ok || end < 0 || l.At.UnmarshalJSON(rest[:end]) != nil {
		return l, false
	}
	kind, rest, ok := bytes.Cut(rest[end+len(`,"kind":"`):], []byte(`"`))
	l.Kind = Kind(kind)
	if !ok {
		return l, false
	}
	if once, isSo := bytes.CutPrefix(rest, []byte(`,"once":"`)); isSo {
		var text []byte
		if text, rest, ok = bytes.Cut(once, []byte(`"`)); !ok || !isOnce(string(text)) {
			return l, false
		}
		l.Once = string(text)
	}
	if plants, isSo := bytes.CutPrefix(rest, []byte(`,"plants":"`)); isSo {
		var text []byte
		text, rest, ok = bytes.Cut(plants, []byte(`"`))
		ids, err := r.ids(text)
		if !ok || err != nil || bytes.IndexByte(text, '\t') >= 0 { // no JSON has a bare tab in a text
			return l, false
		}
		l.Plants = ids
	}
	if fact, isSo := bytes.CutPrefix(rest, []byte(`,"fact":`)); isSo {
		fact, ok = bytes.CutSuffix(fact, []byte("}"))
		l.Fact = fact
		return l, ok && bytes.HasPrefix(fact, []byte("{"))
	}
	return l, string(rest) == "}"
}
