package list

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
)

// Bad is a record that was not taken in, and why.
type Bad struct {
	Line  int
	Why   string
	Cells []string
}

// Mend writes the bad records as a list (RFC 4180) to be put right and brought
// again: under the head of their file, behind their line and what to do.
func Mend(w io.Writer, head []string, bad []Bad) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	columns := []int{}
	first := []string{lineHead, whyHead}
	for i, h := range head {
		if !ours(h) {
			columns, first = append(columns, i), append(first, guarded(h))
		}
	}
	rows := [][]string{first}
	for _, b := range bad {
		row := []string{strconv.Itoa(b.Line), guarded(b.Why)}
		for _, i := range columns {
			cell := ""
			if i < len(b.Cells) {
				cell = b.Cells[i]
			}
			row = append(row, guarded(cell))
		}
		for i := len(head); i < len(b.Cells); i++ {
			row = append(row, guarded(b.Cells[i])) // nothing that stood there is lost
		}
		rows = append(rows, row)
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("write bad lines: %w", err)
	}
	return nil
}

// formulaSigns begin what a table program runs.
const formulaSigns = "=+-@＝＋－＠"

// guarded is a cell that no table program takes for a formula.
func guarded(cell string) string {
	cell = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, cell)
	if strings.ContainsRune(formulaSigns, firstSign(cell)) {
		return "'" + cell
	}
	return cell
}

func firstSign(s string) rune {
	for _, r := range s {
		return r
	}
	return ' '
}
