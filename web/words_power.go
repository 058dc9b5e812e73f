package web

import (
	"fmt"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// Words of sources and feeders, locks, and power put on.

// sourceWord names a sort of source.
func sourceWord(s observation.SourceOf) string {
	if say, ok := map[observation.SourceOf]string{observation.Utility: "Utility", observation.Temporary: "Temporary supply", observation.Generator: "Generator",
		observation.Solar: "Solar", observation.Battery: "Battery"}[s]; ok {
		return say
	}
	return "Other"
}

// sourceOfWord is the sort of a source, unless its name says it.
func sourceOfWord(s observation.Source) string {
	if strings.EqualFold(s.Name, string(s.Of)) || strings.EqualFold(s.Name, sourceWord(s.Of)) || s.Of == observation.OtherSource {
		return ""
	}
	return string(s.Of)
}

// opensWords says what opens a source.
func opensWords(s observation.Source) string {
	if s.Disconnect == "" {
		return "what opens it is not on record"
	}
	return "opened by " + s.Disconnect
}

func startsWords(s observation.Source) string {
	if s.Starts == observation.Yes {
		return "can start by itself"
	}
	return ""
}

func keyWords(key string) string {
	if key == "" {
		return ""
	}
	return "key: " + key
}

// sourceOptions are the sorts of source as buttons.
func sourceOptions() []option {
	var out []option
	for _, s := range observation.SourcesOf {
		out = append(out, option{Value: string(s), Say: sourceWord(s)})
	}
	return out
}

// basisOptions are the ways in which a feeder is known.
func basisOptions() []option {
	var out []option
	for _, b := range []observation.Basis{observation.BasisTested, observation.BasisLabel, observation.BasisAssumed, observation.BasisUnknown} {
		say := b.String()
		out = append(out, option{Value: string(b), Say: strings.ToUpper(say[:1]) + say[1:]})
	}
	return out
}

// toldOf are the things that somebody is told of.
var toldOf = []string{"lock-out", "release", "power", "live test"}

const (
	sayFeederSpace  = "Type the number of the space the feeder lands on, or leave it empty."
	sayNoSourceSort = "Choose what kind of source it is."
	sayWhichLocks   = "Tick the locks that came off."
	sayCountLocks   = "Count the locks in your hand and type the number."
	sayLookFirst    = "What this would do stands above. Read it, then press again."
	sayNotOnNow     = "Not kept: somebody is on record as working where this power comes. What has to come off first stands above."
)

// sayCountedLocks is that the count does not match what was ticked.
func sayCountedLocks(ticked, counted int) string {
	return fmt.Sprintf("You ticked %s and counted %d. Find the difference before anything is closed.", lockCount(ticked), counted)
}

func lockCount(n int) string { return counted(n, "lock") }

// sayOthersLock is that a lock is somebody else's.
func sayOthersLock(device, who string) string {
	return fmt.Sprintf("“%s” was put on by %s. Write in the note why somebody else takes it off.", device, who)
}

// stopWords say why power is not to be put on now, in one sentence.
func (v *visit) stopWords(e installation.Effect) string {
	var parts []string
	for _, l := range e.Locks {
		b := l.Lock.Body.(observation.LockOut)
		parts = append(parts, fmt.Sprintf("“%s” of %s stands at %s", b.Device, l.Lock.Who, v.lowTitle(l.At)))
	}
	for _, t := range e.Tours {
		parts = append(parts, "the resistors of "+t.Name+" are on")
	}
	if len(parts) == 0 {
		return ""
	}
	return "Stop: " + listWords(parts) + "."
}

// lowTitle is a place inside a sentence: "panel A1".
func (v *visit) lowTitle(t observation.Thing) string {
	title := placeTitle(v.found.Installation, t)
	for _, first := range []string{"Panel ", "Source "} {
		if rest, ok := strings.CutPrefix(title, first); ok {
			return strings.ToLower(first) + rest
		}
	}
	return title
}

func listWords(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// voidWords say what voids a test: "The test counts no more: Power put on ...".
func (v *visit) voidWords(by observation.Event) string {
	return "The test counts no more since: " + v.eventWords(by) + "."
}

// eventWords is an event with who and when.
func (v *visit) eventWords(e observation.Event) string {
	return entryWords(v.found.Installation, e) + " (" + e.Who + ", " + dayAndTime(e.When(), v.ask.Now) + ")"
}

const sayUnfed = "what feeds it is not on record"
