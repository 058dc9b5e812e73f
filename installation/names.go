package installation

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"asfound/observation"
)

// Names are the names of now, by those of before, for words that were written
// when things were called otherwise.
type Names map[string]string

// In puts the names of now into a text, all at once, so that two things may have
// exchanged theirs. A name counts where it stands as a word of its own; of two
// that begin alike the longer one.
func (n Names) In(text string) string {
	if len(n) == 0 {
		return text
	}
	old := make([]string, 0, len(n))
	for was := range n {
		old = append(old, was)
	}
	slices.SortFunc(old, func(a, b string) int { return len(b) - len(a) })
	var out strings.Builder
	for at := 0; at < len(text); {
		i := slices.IndexFunc(old, func(was string) bool { return strings.HasPrefix(text[at:], was) && alone(text, at, len(was)) })
		if i >= 0 {
			out.WriteString(n[old[i]])
			at += len(old[i])
			continue
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		out.WriteString(text[at : at+size])
		at += size
	}
	return out.String()
}

// Stands reports whether a name stands in a text as a word of its own.
func Stands(name, text string) bool {
	for at := 0; name != "" && at < len(text); at++ {
		i := strings.Index(text[at:], name)
		if i < 0 {
			return false
		}
		if at += i; alone(text, at, len(name)) {
			return true
		}
	}
	return false
}

// alone reports whether no letter or figure stands beside a part of a text.
func alone(text string, at, size int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	after, _ := utf8.DecodeRuneInString(text[at+size:])
	return !isWord(before) && !isWord(after)
}

func isWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// NamesSince are the names of openings, panels, rooms, buildings and sources that
// were changed after an event. A name that two of them bore then is left out: which
// was meant cannot be told.
func (in *Installation) NamesSince(e observation.Event) Names {
	out, borne := Names{}, map[string]int{}
	add := func(story Story, is string) {
		if was := namedAt(story, e); was != "" {
			borne[was]++
			if was != is {
				out[was] = is
			}
		}
	}
	for _, x := range in.Openings {
		add(x.Story, x.Number)
	}
	for _, x := range in.Panels {
		add(x.Story, x.Name)
	}
	for _, x := range in.Rooms {
		add(x.Story, x.Name)
	}
	for _, x := range in.Buildings {
		add(x.Story, x.Name)
	}
	for _, x := range in.Sources {
		add(x.Story, x.Name)
	}
	for name, n := range borne {
		if n > 1 {
			delete(out, name)
		}
	}
	return out
}

// namedAt is what a thing was called when an event was recorded, as its records
// that were not withdrawn have it; "" when it was not on record.
func namedAt(story Story, e observation.Event) (name string) {
	for _, x := range story {
		if byClock(x.Event, e) > 0 {
			return name
		}
		if now, ok := named(x); ok {
			name = now
		}
	}
	return name
}

// Was is a name that a thing bore, and the entry that gave it another.
type Was struct {
	Name  string
	Until observation.Event
}

// Was lists the names that a thing bore before that of now, the oldest first.
func (s Story) Was() []Was {
	var out []Was
	name := ""
	for _, x := range s {
		now, ok := named(x)
		if !ok {
			continue
		}
		if name != "" && name != now {
			out = append(out, Was{name, x.Event})
		}
		name = now
	}
	return out
}

// named is the name that an entry gives its thing; not ok when it gives none or
// was withdrawn.
func named(x Entry) (name string, ok bool) {
	switch b := x.Body.(type) {
	case observation.Opening:
		name = b.Number
	case observation.Panel:
		name = b.Name
	case observation.Room:
		name = b.Name
	case observation.Building:
		name = b.Name
	case observation.Source:
		name = b.Name
	default:
		return "", false
	}
	return name, name != "" && len(x.WithdrawnBy) == 0
}
