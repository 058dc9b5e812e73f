package observation

import (
	"math"
	"strconv"
	"strings"

	"asfound/quantity"
)

// Point is where a lead is put: one conductor at one place. At an opening a
// conductor is named by the tag of its cable there ("1", "2", in the order the
// tags were put on) and its part; at a panel by its space, or by the bar.
type Point struct {
	At    Thing  `json:"at"`
	Space int    `json:"space,omitempty"`
	Cable string `json:"cable,omitempty"`
	Wire  Wire   `json:"wire"`
}

// Wire names a conductor of a cable or raceway: by its use where only one is
// meant (hot, neutral, egc), else by its color and a number ("blue 2").
type Wire string

// The uses of a conductor that readings name most; at a panel Neutral and EGC
// without a space or cable are the bars.
const (
	Hot     Wire = "hot"
	Neutral Wire = "neutral"
	EGC     Wire = "egc"
)

// String gives the point without its place, as a person says it: "hot of cable 2".
func (p Point) String() string {
	wire := string(p.Wire)
	if p.Wire == EGC {
		wire = "ground"
	}
	switch {
	case p.Space > 0:
		return wire + " of space " + strconv.Itoa(p.Space)
	case p.Cable != "":
		return wire + " of cable " + p.Cable
	}
	return wire
}

func (p Point) check(field string) error {
	if p.At == "" {
		return unusable(field, "", "Say at which opening or panel.")
	}
	if strings.TrimSpace(string(p.Wire)) == "" {
		return unusable(field, "", "Say which conductor.")
	}
	if p.Space < 0 {
		return unusable(field, strconv.Itoa(p.Space), "Spaces are numbered from 1.")
	}
	if wire := string(p.Wire); wire != strings.TrimSpace(wire) || p.Cable != strings.TrimSpace(p.Cable) {
		return unusable(field, wire, "Type the conductor without spaces before or after it.")
	}
	return firstFault(checkText(field, p.Cable), checkText(field, string(p.Wire)), checkText(field, string(p.At)))
}

// checkText refuses control characters, which no tape or label bears.
func checkText(field, text string) error {
	for _, r := range text {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f || r == '\ufffd' {
			return unusable(field, text, "There is a sign in this text that cannot be printed. Type it again.")
		}
	}
	const longest = 2000
	if len(text) > longest {
		return unusable(field, text, "This text is too long to keep as one note. Split it.")
	}
	return nil
}

// needText is checkText for a field that may not be empty.
func needText(field, text, say string) error {
	if strings.TrimSpace(text) == "" {
		return Unusable{Field: field, Typed: text, Say: say}
	}
	return checkText(field, text)
}

// firstFault returns the first error there is.
func firstFault(faults ...error) error {
	for _, f := range faults {
		if f != nil {
			return f
		}
	}
	return nil
}

// checkResistance refuses what no ohmmeter shows.
func checkResistance(field string, r quantity.Resistance) error {
	if !r.Open && !sized(float64(r.Ohm), 0, 1e12) {
		return unusable(field, r.String(), "Type what the ohmmeter shows: ohms from zero up, or open.")
	}
	return nil
}

// sized reports whether v is a number from least to most.
func sized(v, least, most float64) bool { return v >= least && v <= most && !math.IsNaN(v) }
