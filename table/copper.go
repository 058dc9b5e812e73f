package table

import (
	"fmt"
	"strconv"
	"sync"

	"asfound/quantity"
)

// Stranding says how a conductor is made up.
type Stranding int

// The two ways a conductor is made up in the tables.
const (
	Solid Stranding = iota
	Stranded
)

// CopperAt20C is the direct-current resistance of 1000 ft of solid uncoated
// copper at 20 °C, in ohms (NBS Handbook 100). It is not found for a size the
// table does not print.
func CopperAt20C(size quantity.Gauge) (perKft quantity.Ohms, found bool) {
	perKft, found = copper20()[conductor{size, Solid}]
	return perKft, found
}

// CopperAt75C is the direct-current resistance of 1000 ft of uncoated copper at
// 75 °C, in ohms (National Electrical Code, chapter 9, table 8). That table
// prints both makes up to 8 AWG and only stranded above; what it does not print
// is not found.
func CopperAt75C(size quantity.Gauge, make Stranding) (perKft quantity.Ohms, found bool) {
	perKft, found = copper75()[conductor{size, make}]
	return perKft, found
}

type conductor struct {
	size quantity.Gauge
	make Stranding
}

var (
	copper20 = sync.OnceValue(func() map[conductor]quantity.Ohms { return conductors(named("copper-20c")) })
	copper75 = sync.OnceValue(func() map[conductor]quantity.Ohms { return conductors(named("copper-75c")) })
)

// conductors reads the rows by column name; a sheet without strands is solid.
func conductors(sheet Sheet) map[conductor]quantity.Ohms {
	found := map[conductor]quantity.Ohms{}
	for _, row := range sheet.Rows {
		var key conductor
		var ohms float64
		var err error
		for i, column := range sheet.Columns {
			switch column {
			case "size":
				key.size, err = quantity.ParseGauge(row[i])
			case "strands":
				if row[i] != "1" {
					key.make = Stranded
				}
			case "ohm_per_kft":
				ohms, err = strconv.ParseFloat(row[i], 64)
			}
			if err != nil {
				panic(fmt.Sprintf("table %s: %v", sheet.Name, err))
			}
		}
		found[key] = quantity.Ohms(ohms)
	}
	return found
}
