package observation

import (
	"slices"
	"strconv"
	"strings"

	"asfound/quantity"
)

// OpeningUse is what an opening is for, as far as can be seen.
type OpeningUse string

// The uses of an opening; NoUse is not known yet.
const (
	NoUse      OpeningUse = ""
	Receptacle OpeningUse = "receptacle"
	Switch     OpeningUse = "switch"
	Lighting   OpeningUse = "lighting"
	Equipment  OpeningUse = "equipment"
	Junction   OpeningUse = "junction"
)

// OpeningUses lists the uses in the order a form offers them.
var OpeningUses = []OpeningUse{Receptacle, Switch, Lighting, Equipment, Junction, NoUse}

func (u OpeningUse) check() error {
	if !slices.Contains(OpeningUses, u) {
		return unusable("use", string(u), "Choose what the opening is for from the list, or leave it as not known.")
	}
	return nil
}

// Opening is a box or connection point for a device, luminaire or equipment,
// whatever its gangs. Number is what stands on its tape; two openings may bear
// the same one until somebody settles it.
type Opening struct {
	Room   Thing           `json:"room"`
	Number string          `json:"number"`
	Use    OpeningUse      `json:"use,omitempty"`
	Gangs  int             `json:"gangs,omitempty"`
	Order  int             `json:"order,omitempty"` // place on the walk through the room
	Height quantity.Inches `json:"height,omitempty"`
	Depth  quantity.Inches `json:"depth,omitempty"` // front of the box behind the finished surface
	Note   string          `json:"note,omitempty"`
}

// Kind is "opening.1".
func (Opening) Kind() string { return "opening.1" }

// Check wants a room and a number free of letters that look like figures.
func (o Opening) Check() error {
	if o.Room == "" {
		return unusable("room", "", "Say which room the opening is in.")
	}
	if o.Gangs < 0 || o.Gangs > 12 {
		return unusable("gangs", strconv.Itoa(o.Gangs), "Type the gangs as a number from 1 to 12.")
	}
	if !sized(float64(o.Height), 0, 2000) || !sized(float64(o.Depth), 0, 200) {
		return unusable("height", "", "Type heights and depths in inches, not below zero.")
	}
	if err := o.Use.check(); err != nil {
		return err
	}
	return firstFault(CheckNumber(o.Number), checkText("note", o.Note))
}

// CheckNumber refuses an opening number that is empty or has the letter O or l
// among figures, and says how it should read.
func CheckNumber(number string) error {
	if err := needText("number", number, "Type the number on the tape."); err != nil {
		return err
	}
	if mended := asFigures(number); mended != number {
		return unusable("number", number, "%s has a letter where a figure belongs. Type %s.", number, mended)
	}
	return nil
}

// asFigures turns the letters O, o, l and I into figures where they stand
// beside one: A02-O8 becomes A02-08; a leading letter of a building stays.
func asFigures(number string) string {
	out := []rune(number)
	figure := func(i int) bool { return i >= 0 && i < len(out) && out[i] >= '0' && out[i] <= '9' }
	for i, r := range out {
		if i == 0 || !figure(i-1) && !figure(i+1) {
			continue
		}
		if !figure(i-1) && i > 1 && strings.ContainsRune("ABCDEFGHIJKLMNOPQRSTUVWXYZ", out[i-1]) {
			continue
		}
		switch r {
		case 'O', 'o':
			out[i] = '0'
		case 'l', 'I':
			out[i] = '1'
		}
	}
	return string(out)
}
