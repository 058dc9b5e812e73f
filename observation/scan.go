package observation

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"asfound/quantity"
)

// scanEvent reads the form that Encode writes, which is nearly every event, in a
// fraction of the time of a general reader. It leaves everything unusual (spaces,
// escapes, other keys, another order) to decodeAny: ok is false then.
func scanEvent(raw []byte) (e Event, ok bool) {
	s := scan{rest: string(raw)}
	e.Device = s.need(`{"dev":`)
	e.Seq = s.count(`,"seq":`)
	e.Prev = s.text(`,"prev":`)
	e.HLC = s.count(`,"hlc":`)
	e.Wall = s.time(`,"wall":`, true)
	e.Taken = s.time(`,"taken":`, false)
	e.Stop = s.text(`,"stop":`)
	e.Under = s.ids(`,"under":`)
	e.Who = s.need(`,"who":`)
	e.Kind = s.need(`,"kind":`)
	e.Subject = Thing(s.text(`,"subj":`))
	ok = s.body(&e, raw)
	e.Seen = s.ids(`,"seen":`)
	e.After = s.ids(`,"after":`)
	if !ok || s.failed || s.rest != "}" || e.Device == "" || e.Seq == 0 || e.Kind == "" {
		return Event{}, false
	}
	return e, true
}

// scan is what is left of a line, and whether anything in it was unusual.
type scan struct {
	rest   string
	failed bool
}

// body reads the data of e, of which raw is the whole line.
func (s *scan) body(e *Event, raw []byte) bool {
	if read := quick[e.Kind]; read != nil {
		before := *s
		if s.key(`,"data":`) {
			if b := read(s); !s.failed {
				e.Body = b
				return true
			}
		}
		*s = before
	}
	length := len(s.object(`,"data":`))
	if s.failed {
		return false
	}
	end := len(raw) - len(s.rest)
	data := raw[end-length : end]
	if _, known := bodies[e.Kind]; known {
		return e.readBody(data) == nil
	}
	e.Unknown = bytes.Clone(data)
	return json.Valid(data)
}

func (s *scan) point(key string) Point {
	var p Point
	if !s.key(key) {
		s.failed = true
	}
	p.At = Thing(s.need(`{"at":`))
	if strings.HasPrefix(s.rest, `,"space":`) {
		space := s.count(`,"space":`)
		if p.Space = int(space); p.Space < 0 || uint64(p.Space) != space {
			s.failed = true
		}
	}
	p.Cable = s.text(`,"cable":`)
	p.Wire = Wire(s.need(`,"wire":`))
	s.close()
	return p
}

// resistance reads whole and decimal ohms without an exponent, and "open".
func (s *scan) resistance(key string) quantity.Resistance {
	if s.key(key + `"open"`) {
		return quantity.Resistance{Open: true}
	}
	if !s.key(key) {
		s.failed = true
		return quantity.Resistance{}
	}
	whole := s.figures()
	figures := whole
	if strings.HasPrefix(s.rest, ".") {
		s.rest = s.rest[1:]
		decimals := s.figures()
		s.failed = s.failed || decimals == ""
		figures += "." + decimals
	}
	ohm, err := strconv.ParseFloat(figures, 64)
	if err != nil || whole == "" || len(whole) > 1 && whole[0] == '0' {
		s.failed = true
	}
	return quantity.Resistance{Ohm: quantity.Ohms(ohm)}
}

// close steps over the end of an object.
func (s *scan) close() {
	if !s.key("}") {
		s.failed = true
	}
}

// key steps over a key if it comes next.
func (s *scan) key(key string) bool {
	if s.failed || !strings.HasPrefix(s.rest, key) {
		return false
	}
	s.rest = s.rest[len(key):]
	return true
}

// need is text whose key has to come next.
func (s *scan) need(key string) string {
	if !s.key(key) {
		s.failed = true
		return ""
	}
	return s.quoted()
}

// text is the text under a key, or "" when another key comes next.
func (s *scan) text(key string) string {
	if !s.key(key) {
		return ""
	}
	return s.quoted()
}

// quoted reads a string without escapes.
func (s *scan) quoted() string {
	plain := true
	for i := 1; i < len(s.rest) && s.rest[0] == '"'; i++ {
		switch c := s.rest[i]; {
		case c == '"':
			out := s.rest[1:i]
			s.rest = s.rest[i+1:]
			s.failed = s.failed || !plain && !utf8.ValidString(out)
			return out
		case c == '\\' || c < ' ':
			s.failed = true
			return ""
		case c >= utf8.RuneSelf:
			plain = false
		}
	}
	s.failed = true
	return ""
}

func (s *scan) figures() string {
	end := 0
	for end < len(s.rest) && s.rest[end] >= '0' && s.rest[end] <= '9' {
		end++
	}
	out := s.rest[:end]
	s.rest = s.rest[end:]
	return out
}

func (s *scan) count(key string) uint64 {
	if !s.key(key) {
		s.failed = true
		return 0
	}
	figures := s.figures()
	n, err := strconv.ParseUint(figures, 10, 64)
	if err != nil || len(figures) > 1 && figures[0] == '0' {
		s.failed = true
	}
	return n
}

func (s *scan) time(key string, needed bool) (t time.Time) {
	if !s.key(key) {
		s.failed = s.failed || needed
		return t
	}
	if err := t.UnmarshalText([]byte(s.quoted())); err != nil {
		s.failed = true
	}
	return t
}

func (s *scan) ids(key string) []ID {
	if !s.key(key) {
		return nil
	}
	var out []ID
	for before := "["; !s.failed; before = "," {
		if !s.key(before) {
			s.failed = true
			break
		}
		id, err := ParseID(s.quoted())
		if err != nil {
			s.failed = true
		}
		out = append(out, id)
		if s.key("]") {
			return out
		}
	}
	return nil
}

// object cuts out the object under a key. It finds the end by brackets and
// quotes only; whether what lies between is right shows when it is read.
func (s *scan) object(key string) string {
	if !s.key(key) || !strings.HasPrefix(s.rest, "{") {
		s.failed = true
		return ""
	}
	depth, inText := 0, false
	for i := 0; i < len(s.rest); i++ {
		switch c := s.rest[i]; {
		case inText && c == '\\':
			i++
		case c == '"':
			inText = !inText
		case inText:
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			if depth--; depth == 0 {
				out := s.rest[:i+1]
				s.rest = s.rest[i+1:]
				return out
			}
		}
	}
	s.failed = true
	return ""
}
