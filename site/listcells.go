package site

import (
	"errors"
	"strconv"
	"strings"

	"asfound/list"
	"asfound/observation"
	"asfound/quantity"
)

// cells reads the cells of a record; the first fault stays.
type cells struct {
	list.Record
	fault error
}

func (c *cells) refuse(column, say string) {
	if c.fault == nil {
		c.fault = bad(column, c.Get(column), say)
	}
}

// known is what stands in a cell; a question mark, a dash and words for it mean
// that it is not known, as an empty cell does.
func (c *cells) known(column string) string {
	text := c.Get(column)
	switch strings.ToLower(text) {
	case "?", "-", "–", "—", "unknown", "not known", "n/a":
		return ""
	}
	return text
}

// name is a cell that may not be empty.
func (c *cells) name(column string) string {
	text := c.Get(column)
	if text == "" {
		c.refuse(column, sayNoName)
	}
	return text
}

// whole reads a whole number; spreadsheets write 2.0 and 2,0 for it.
func (c *cells) whole(column, say string) int {
	text := c.known(column)
	if text == "" {
		return 0
	}
	figures, zeros, _ := strings.Cut(strings.ReplaceAll(text, ",", "."), ".")
	n, err := strconv.Atoi(figures)
	if err != nil || strings.Trim(zeros, "0") != "" {
		c.refuse(column, say)
		return 0
	}
	return n
}

// floor reads a floor, and whether there is one.
func (c *cells) floor() (int, bool) {
	switch strings.ToLower(c.known("floor")) {
	case "":
		return 0, false
	case "main":
		return 0, true
	}
	return c.whole("floor", sayListFloor), true
}

func (c *cells) inches(column string) quantity.Inches {
	text := c.known(column)
	if text == "" {
		return 0
	}
	size, err := quantity.ParseInches(text)
	var unusable *quantity.Unusable
	if errors.As(err, &unusable) {
		c.refuse(column, unusable.Say)
	}
	return size
}

// amps reads a rating: 20, 20 A, 20.0.
func (c *cells) amps(column string) quantity.Amperes {
	text := strings.ToLower(c.known(column))
	if text == "" {
		return 0
	}
	for _, unit := range []string{"amps", "amp", "a"} {
		if rest, ok := strings.CutSuffix(text, unit); ok {
			text = strings.TrimSpace(rest)
			break
		}
	}
	figures := strings.ReplaceAll(text, ",", ".")
	x, err := strconv.ParseFloat(figures, 64)
	if err != nil || strings.Trim(figures, "0123456789.") != "" || x == 0 {
		c.refuse(column, sayListAmps)
	}
	return quantity.Amperes(x)
}

// uses are the words for what an opening is for.
var uses = map[string]observation.OpeningUse{
	"": observation.NoUse, "receptacle": observation.Receptacle, "receptacle outlet": observation.Receptacle,
	"switch": observation.Switch, "lighting": observation.Lighting, "light": observation.Lighting, "luminaire": observation.Lighting,
	"lighting outlet": observation.Lighting, "equipment": observation.Equipment, "junction": observation.Junction, "junction box": observation.Junction,
}

func (c *cells) use() observation.OpeningUse {
	text := strings.ToLower(c.known("use"))
	use, ok := uses[text]
	for _, more := range []string{"s", "es"} {
		if !ok {
			use, ok = uses[strings.TrimSuffix(text, more)]
		}
	}
	if !ok {
		c.refuse("use", sayUse)
	}
	return use
}

func (c *cells) lands() observation.Lands {
	switch strings.ToLower(c.known("lands")) {
	case "":
		return observation.LandsNotLooked
	case "branch", "branch circuit":
		return observation.LandsBranch
	case "feeder":
		return observation.LandsFeeder
	case "nothing", "none":
		return observation.LandsNothing
	}
	c.refuse("lands", sayLands)
	return observation.LandsNotLooked
}

func (c *cells) yes(column string) observation.Known {
	switch strings.ToLower(c.known(column)) {
	case "":
		return observation.NotKnown
	case "yes", "y":
		return observation.Yes
	case "no", "n":
		return observation.No
	}
	c.refuse(column, sayYesNo)
	return observation.NotKnown
}

// space reads the number of a space, or both of a 2-pole breaker.
func (c *cells) space() (number, poles int) {
	text := c.Get("space")
	if n, err := strconv.Atoi(text); err == nil {
		return n, 0
	}
	both := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("/,-–+& ", r) })
	if len(both) == 2 {
		upper, errA := strconv.Atoi(both[0])
		lower, errB := strconv.Atoi(both[1])
		switch {
		case errA != nil || errB != nil:
		case lower == upper+2:
			return upper, 2
		case lower == 0 && strings.ContainsAny(text, ".,"): // 12,0
			return upper, 0
		default:
			c.refuse("space", sayPoles(upper, lower))
			return 0, 0
		}
	}
	if upper, zeros, ok := strings.Cut(text, "."); ok && strings.Trim(zeros, "0") == "" {
		if n, err := strconv.Atoi(upper); err == nil {
			return n, 0
		}
	}
	c.refuse("space", sayListSpace)
	return 0, 0
}
