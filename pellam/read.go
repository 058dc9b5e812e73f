package pellam

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"asfound/quantity"
)

//go:embed data/*.csv
var data embed.FS

// Designed reads the property as its drawings mean it to be.
func Designed() (*Property, error) {
	p := &Property{}
	for _, t := range []struct {
		name string
		take func(*row)
	}{
		{"rooms", p.room}, {"openings", p.opening}, {"panels", p.panel}, {"circuits", p.circuit}, {"cables", p.cable},
		{"groups", p.group}, {"feeders", p.feeder}, {"paths", p.path}, {"drawn", p.drawn},
	} {
		if err := rows(t.name, t.take); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// rows hands each line of a table to take.
func rows(name string, take func(*row)) error {
	raw, err := data.ReadFile("data/" + name + ".csv")
	if err != nil {
		return fmt.Errorf("read table: %w", err)
	}
	lines, err := csv.NewReader(bytes.NewReader(raw)).ReadAll()
	if err != nil {
		return fmt.Errorf("read table %s: %w", name, err)
	}
	for i, l := range lines[1:] {
		r := row{head: lines[0], cells: l}
		take(&r)
		if r.err != nil {
			return fmt.Errorf("read table %s, line %d: %w", name, i+2, r.err)
		}
	}
	return nil
}

// row is one line of a table. Its first fault is kept in err.
type row struct {
	head, cells []string
	err         error
}

func (r *row) text(column string) string {
	for i, h := range r.head {
		if h == column {
			return r.cells[i]
		}
	}
	r.err = fmt.Errorf("no column %q", column)
	return ""
}

// number reads a number; an empty cell is 0, where the column says what that
// means.
func (r *row) number(column string) float64 {
	text := r.text(column)
	if text == "" {
		return 0
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		r.err = fmt.Errorf("column %s: %w", column, err)
	}
	return x
}

func (r *row) feet(column string) quantity.Feet { return quantity.Feet(r.number(column)) }

func (r *row) yokes(column string) []Yoke {
	var out []Yoke
	for _, word := range strings.Fields(r.text(column)) {
		box, at, _ := strings.Cut(word, "/")
		n, err := strconv.Atoi(at)
		if err != nil {
			r.err = fmt.Errorf("column %s: %w", column, err)
		}
		out = append(out, Yoke{box, n})
	}
	return out
}

func (p *Property) room(r *row) {
	p.Rooms = append(p.Rooms, Room{ID: r.text("room"), Name: r.text("name"), X: r.feet("x_ft"), Y: r.feet("y_ft"),
		Width: r.feet("width_ft"), Depth: r.feet("depth_ft"), Floor: r.feet("floor_ft"), Ceiling: r.feet("ceiling_ft"),
		Walls: r.text("walls"), CeilingFinish: r.text("ceiling")})
}

func (p *Property) opening(r *row) {
	o := Opening{ID: r.text("opening"), Room: r.text("room"), Kind: Kind(r.text("kind")), What: r.text("what"),
		Gangs: int(r.number("gangs")), Volume: r.number("box_in3"), Needs: r.number("needs_in3"),
		X: r.feet("x_ft"), Y: r.feet("y_ft"), Z: r.feet("z_ft"), VoltAmpere: r.number("va")}
	if devices := r.text("devices"); devices != "" {
		o.Devices = strings.Split(devices, "; ")
	}
	p.Openings = append(p.Openings, o)
}

func (p *Property) panel(r *row) {
	p.Panels = append(p.Panels, Panel{ID: r.text("panel"), Name: r.text("name"), Room: r.text("room"),
		X: r.feet("x_ft"), Y: r.feet("y_ft"), Z: r.feet("z_ft"), Spaces: int(r.number("spaces")),
		Bus: quantity.Amperes(r.number("bus_a")), Main: r.text("main"), FedFrom: r.text("fed_from"), Mounting: r.text("mounting")})
}

func (p *Property) circuit(r *row) {
	c := Circuit{ID: r.text("circuit"), Panel: r.text("panel"), Amps: quantity.Amperes(r.number("amps")), Cable: r.text("cable"),
		Protection: r.text("protection"), Serves: r.text("serves"), Mark: r.text("mark"), MarkIs: r.text("mark_is"),
		Coiled: r.text("home_run") == "coiled"}
	for _, word := range strings.Fields(r.text("spaces")) {
		n, err := strconv.Atoi(word)
		if err != nil {
			r.err = err
		}
		c.Spaces = append(c.Spaces, n)
	}
	p.Circuits = append(p.Circuits, c)
}

func (p *Property) cable(r *row) {
	p.Cables = append(p.Cables, Cable{Circuit: r.text("circuit"), From: r.text("from"), To: r.text("to"), Type: r.text("cable"),
		Role: Role(r.text("role")), Length: r.feet("length_ft")})
}

func (p *Property) group(r *row) {
	p.Groups = append(p.Groups, Group{ID: r.text("group"), Name: r.text("name"), Kind: r.text("kind"), Circuit: r.text("circuit"),
		Switches: r.yokes("switches"), Luminaires: strings.Fields(r.text("luminaires"))})
}

func (p *Property) feeder(r *row) {
	p.Feeders = append(p.Feeders, Feeder{ID: r.text("feeder"), From: r.text("from"), To: r.text("to"), Length: r.feet("length_ft"),
		Conductors: r.text("conductors")})
}

func (p *Property) path(r *row) {
	p.Paths = append(p.Paths, Path{From: r.text("from"), To: r.text("to"), Length: r.feet("length_ft")})
}

func (p *Property) drawn(r *row) {
	p.Drawn = append(p.Drawn, Drawn{Room: r.text("room"), Kind: Kind(r.text("kind")), What: r.text("what"), Opening: r.text("opening"), Drawn: int(r.number("drawn")), Found: int(r.number("found"))})
}
