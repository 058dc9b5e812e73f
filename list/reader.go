package list

import "strings"

// reader takes a text apart into records as RFC 4180 writes them, with what
// people and programs do besides: line ends of any kind, another separator,
// blanks before a quotation mark, and an inch mark in a cell without quotation
// marks.
type reader struct {
	rest      string
	line      int // of the file, on which rest begins
	separator byte
}

// longestCell is how far a quotation mark is looked for. The longest text that
// can be kept is 2,000 bytes.
const longestCell = 1 << 16

const (
	sayOpen  = "A quotation mark on this line is not closed. Close it, or write an inch mark within quotation marks twice."
	sayAfter = "Something stands behind a closing quotation mark. Write a quotation mark within a cell twice."
)

// next reads one record. One that cannot be read is that one line of the file.
func (r *reader) next() (Record, bool) {
	if r.rest == "" {
		return Record{}, false
	}
	start, out := *r, Record{Line: r.line}
	for {
		cell, fault := r.cell()
		if fault != "" {
			*r = start
			return r.faulty(fault), true
		}
		out.Cells = append(out.Cells, tidy(cell))
		if r.rest == "" || r.lineEnd() {
			return out, true
		}
		r.rest = r.rest[1:] // the separator
		if r.rest == "" {
			out.Cells = append(out.Cells, "")
			return out, true
		}
	}
}

// cell reads up to a separator or a line end.
func (r *reader) cell() (cell, fault string) {
	if blank := r.blanks(); strings.HasPrefix(r.rest[blank:], `"`) {
		r.rest = r.rest[blank+1:]
		return r.quoted()
	}
	end := strings.IndexAny(r.rest, string([]byte{r.separator, '\r', '\n'}))
	if end < 0 {
		end = len(r.rest)
	}
	cell, r.rest = r.rest[:end], r.rest[end:]
	return cell, ""
}

// quoted reads what stands behind an opening quotation mark; two within are one.
func (r *reader) quoted() (cell, fault string) {
	window := r.rest[:min(len(r.rest), longestCell)]
	var out strings.Builder
	for {
		end := strings.IndexByte(window, '"')
		if end < 0 {
			return "", sayOpen
		}
		out.WriteString(window[:end])
		window = window[end+1:]
		if !strings.HasPrefix(window, `"`) {
			break
		}
		out.WriteByte('"')
		window = window[1:]
	}
	read := min(len(r.rest), longestCell) - len(window)
	r.line += lineEnds(r.rest[:read])
	r.rest = r.rest[read:]
	r.rest = r.rest[r.blanks():]
	if r.rest != "" && r.rest[0] != r.separator && r.rest[0] != '\r' && r.rest[0] != '\n' {
		return "", sayAfter
	}
	return out.String(), ""
}

// blanks is how many blanks stand next.
func (r *reader) blanks() int {
	n := 0
	for n < len(r.rest) && (r.rest[n] == ' ' || r.rest[n] == '\t' && r.separator != '\t') {
		n++
	}
	return n
}

// lineEnd passes a line end, if one stands next.
func (r *reader) lineEnd() bool {
	switch {
	case strings.HasPrefix(r.rest, "\r\n"):
		r.rest = r.rest[2:]
	case r.rest[0] == '\r' || r.rest[0] == '\n':
		r.rest = r.rest[1:]
	default:
		return false
	}
	r.line++
	return true
}

// lineEnds counts the line ends within a text.
func lineEnds(text string) int {
	return strings.Count(text, "\n") + strings.Count(text, "\r") - strings.Count(text, "\r\n")
}

// faulty passes one line of the file that cannot be read, with its cells as far
// as they can be told.
func (r *reader) faulty(fault string) Record {
	end := strings.IndexAny(r.rest, "\r\n")
	if end < 0 {
		end = len(r.rest)
	}
	out := Record{Line: r.line, Fault: fault}
	for cell := range strings.SplitSeq(r.rest[:end], string(r.separator)) {
		out.Cells = append(out.Cells, tidy(cell))
	}
	r.rest = r.rest[end:]
	if r.rest != "" {
		r.lineEnd()
	}
	return out
}

// tidy makes line breaks and rows of blanks one blank. An apostrophe that keeps
// a table program from taking a cell for a formula goes.
func tidy(cell string) string {
	cell = strings.Join(strings.Fields(cell), " ")
	if len(cell) > 1 && cell[0] == '\'' && strings.ContainsRune(formulaSigns, firstSign(cell[1:])) {
		return cell[1:]
	}
	return cell
}
