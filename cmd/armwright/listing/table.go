// Package listing prints a table for people and for programs.
package listing

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"armwright/export/terminal"
)

// Table is a listing for people and for programs: the columns' keys name the
// cells in JSON and head them in text. A cell is a text, a number or a truth.
type Table struct {
	Title   string
	Columns []string
	Rows    [][]any
}

// Add appends a row.
func (t *Table) Add(cells ...any) { t.Rows = append(t.Rows, cells) }

// Print writes the table as JSON, or as text for a terminal so many columns wide.
func (t *Table) Print(w io.Writer, columns int, json bool) error {
	if json {
		return t.JSON(w)
	}
	return t.Text(w, columns)
}

// Text writes the table with aligned columns, numbers to the right, for a terminal so
// many columns wide. Where nobody knows, in a pipe, a row is one line.
func (t *Table) Text(w io.Writer, columns int) error {
	laid := terminal.Table{Right: make([]bool, len(t.Columns))}
	places := make([]int, len(t.Columns)) // decimals of the column's numbers
	for _, row := range t.Rows {
		for i, cell := range row {
			switch v := cell.(type) {
			case float64:
				_, fraction, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
				places[i], laid.Right[i] = max(places[i], len(fraction)), true
			case int:
				laid.Right[i] = true
			}
		}
	}
	for _, c := range t.Columns {
		laid.Head = append(laid.Head, strings.ReplaceAll(c, "_", " "))
	}
	for _, row := range t.Rows {
		line := make([]string, len(row))
		for i, cell := range row {
			line[i] = fmt.Sprint(cell)
			if v, ok := cell.(float64); ok {
				line[i] = strconv.FormatFloat(v, 'f', places[i], 64)
			}
		}
		laid.Add(line...)
	}
	width := math.MaxInt
	if columns > 0 {
		width = terminal.Width(columns)
	}
	var lines []string
	if t.Title != "" {
		if strings.HasPrefix(t.Title, "\n") {
			lines = append(lines, "")
		}
		lines = append(lines, terminal.Wrap(t.Title, width)...)
	}
	lines = append(lines, laid.Lines(width)...)
	_, err := io.WriteString(w, strings.Join(lines, "\n")+"\n")
	return err
}

// JSON writes the rows as a list of objects, keys in the order of columns.
func (t *Table) JSON(w io.Writer) error {
	var b strings.Builder
	b.WriteString("[")
	for i, row := range t.Rows {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n  {")
		for j, cell := range row {
			value, err := json.Marshal(cell)
			if err != nil {
				return err
			}
			if j > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%q: %s", t.Columns[j], value)
		}
		b.WriteString("}")
	}
	b.WriteString("\n]\n")
	_, err := io.WriteString(w, b.String())
	return err
}
