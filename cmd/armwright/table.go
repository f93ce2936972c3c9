package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// table is a listing for people and for programs: the columns' keys name the
// cells in JSON and head them in text. A cell is a text, a number or a truth.
type table struct {
	title   string
	columns []string
	rows    [][]any
}

func (t *table) add(cells ...any) { t.rows = append(t.rows, cells) }

// text writes the table with aligned columns, numbers to the right. The last
// column is as wide as it likes.
func (t *table) text(w io.Writer) error {
	width := make([]int, len(t.columns))
	right := make([]bool, len(t.columns))
	places := make([]int, len(t.columns)) // decimals of the column's numbers
	for _, row := range t.rows {
		for i, cell := range row {
			switch v := cell.(type) {
			case float64:
				_, fraction, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
				places[i], right[i] = max(places[i], len(fraction)), true
			case int:
				right[i] = true
			}
		}
	}
	lines := [][]string{make([]string, len(t.columns))}
	for i, c := range t.columns {
		lines[0][i] = strings.ReplaceAll(c, "_", " ")
	}
	for _, row := range t.rows {
		line := make([]string, len(row))
		for i, cell := range row {
			line[i] = fmt.Sprint(cell)
			if v, ok := cell.(float64); ok {
				line[i] = strconv.FormatFloat(v, 'f', places[i], 64)
			}
		}
		lines = append(lines, line)
	}
	for _, line := range lines {
		for i, s := range line {
			width[i] = max(width[i], utf8.RuneCountInString(s))
		}
	}
	var b strings.Builder
	if t.title != "" {
		b.WriteString(t.title + "\n")
	}
	for _, line := range lines {
		var l strings.Builder
		for i, s := range line {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(s))
			if right[i] {
				l.WriteString(pad + s + "  ")
			} else {
				l.WriteString(s + pad + "  ")
			}
		}
		b.WriteString(strings.TrimRight(l.String(), " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// json writes the rows as a list of objects, keys in the order of columns.
func (t *table) json(w io.Writer) error {
	var b strings.Builder
	b.WriteString("[")
	for i, row := range t.rows {
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
			fmt.Fprintf(&b, "%q: %s", t.columns[j], value)
		}
		b.WriteString("}")
	}
	b.WriteString("\n]\n")
	_, err := io.WriteString(w, b.String())
	return err
}
