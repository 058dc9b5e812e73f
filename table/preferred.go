package table

import (
	"fmt"
	"slices"
	"strconv"
	"sync"
)

// Preferred returns the values of one decade of a preferred number series of IEC
// 60063, ascending from 1 to below 10. It knows E12, E24 and E96.
func Preferred(series string) (decade []float64, found bool) {
	decade, found = preferred()[series]
	return slices.Clone(decade), found
}

var preferred = sync.OnceValue(func() map[string][]float64 {
	decades := map[string][]float64{}
	for _, row := range named("preferred-numbers").Rows {
		value, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			panic(fmt.Sprintf("table preferred-numbers: %v", err))
		}
		decades[row[0]] = append(decades[row[0]], value)
	}
	return decades
})
