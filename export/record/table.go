// Package record prints the rows of a study of many designs, reads them back and
// plots them.
package record

import (
	"bytes"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"armwright/export/words"
	"armwright/solver/sweep"
	"armwright/specs"
)

// Table prints the rows of a study, one line a design: its number from 1
// and of how many, the SHA-256 of its brief (or frame) as a file, the values
// that vary, verdict, the requirement that governs, and the figures. Numbers
// are in the unit at the end of their column's name; what is not known is an
// empty cell, or left out in JSON.
type Table struct {
	JSON    bool // JSON lines instead of comma-separated values
	columns []string
	numeric []bool // of the values that vary
	figures []sweep.Figure
}

// Columns before the values that vary, and between them and the figures.
var (
	studyFirst  = [...]string{"design", "of", "brief"}
	studyMiddle = [...]string{"verdict", "governs"}
)

const studyLast = "reason"

// NewTable returns the table of a study that varies the values at places.
func NewTable(places []*specs.Place, json bool) *Table {
	t := &Table{JSON: json, figures: sweep.Figures()}
	t.columns = append(t.columns, studyFirst[:]...)
	for _, p := range places {
		t.numeric = append(t.numeric, p.Numeric())
		name := p.Path()
		if p.Numeric() {
			name += unitSuffix(p.Kind())
		}
		t.columns = append(t.columns, name)
	}
	t.columns = append(t.columns, studyMiddle[:]...)
	for _, f := range t.figures {
		t.columns = append(t.columns, f.Name)
	}
	t.columns = append(t.columns, studyLast)
	return t
}

// unitSuffix is the unit of a file's quantity as the end of a column's name.
func unitSuffix(k specs.Kind) string {
	switch k {
	case specs.Number:
		return ""
	case specs.Percent:
		return "_percent"
	}
	_, unit, _ := strings.Cut(specs.FormatQuantity(0, k, 0), " ")
	return "_" + strings.ToLower(strings.ReplaceAll(unit, " ", ""))
}

// Head is the first line, empty for JSON lines.
func (t *Table) Head() []byte {
	if t.JSON {
		return nil
	}
	return []byte(strings.Join(t.columns, ",") + "\n")
}

// AppendRow appends the line of a design, numbered from 0, of so many.
func (t *Table) AppendRow(to []byte, design, of int, o *sweep.Outcome) []byte {
	column := 0
	open := func() {
		name := t.columns[column]
		switch {
		case !t.JSON && column > 0:
			to = append(to, ',')
		case t.JSON && column == 0:
			to = append(to, '{')
		case t.JSON:
			to = append(to, ',')
		}
		if t.JSON {
			to = append(strconv.AppendQuote(to, name), ':')
		}
		column++
	}
	text := func(s string) {
		if t.JSON && s == "" {
			column++
			return
		}
		open()
		if t.JSON {
			quoted, _ := json.Marshal(s) // a string always can be
			to = append(to, quoted...)
			return
		}
		to = append(to, csvCell(s)...)
	}
	number := func(s string) { // digits
		open()
		to = append(to, s...)
	}
	number(strconv.Itoa(design + 1))
	number(strconv.Itoa(of))
	text(hex.EncodeToString(o.Digest[:]))
	for i, v := range o.Values {
		if t.numeric[i] {
			digits, _, _ := strings.Cut(v, " ")
			number(digits)
			continue
		}
		text(v)
	}
	text(string(o.Verdict))
	text(o.Governs)
	for i, f := range t.figures {
		x := o.Figures[i]
		if math.IsNaN(x) || math.IsInf(x, 0) {
			text("")
			continue
		}
		number(strconv.FormatFloat(quantised(words.Outside(x, f.Unit)), 'f', -1, 64))
	}
	text(o.Reason)
	if t.JSON {
		to = append(to, '}')
	}
	return append(to, '\n')
}

// csvCell is a text as a cell, in quotes where it must be.
func csvCell(s string) string {
	if !strings.ContainsAny(s, "\",\r\n") && s == strings.TrimSpace(s) {
		return s
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write([]string{s}) // a buffer takes everything
	w.Flush()
	return strings.TrimSuffix(b.String(), "\n")
}

// quantised rounds to what a report's figures keep, far below what a workshop
// can hold, without negative zero.
func quantised(x float64) float64 { return math.Round(x*1e4)/1e4 + 0 }
