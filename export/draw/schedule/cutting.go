package schedule

import (
	"math"
	"strconv"
	"strings"

	"armwright/export/cutplan"
	"armwright/export/sheet"
)

// Cutting says which pieces come from which bar.
func (l *Lists) Cutting() sheet.Table {
	long := cutplan.BarLength(l.reads())
	t := sheet.Table{
		Title:   "Cutting plan, bars of " + l.measure(long) + ", kerf " + l.measure(cutplan.SawKerf),
		Columns: sheet.Columns("<Stock", ">Bar", "<Pieces: number x item (length)", ">Rest "+l.unit()),
	}
	before, n := "", 0
	for _, b := range cutplan.Bars(l.List, long, cutplan.SawKerf) {
		if n++; b.Stock != before {
			before, n = b.Stock, 1
		}
		rest := max(0, long-b.Used)
		for k, line := range l.runs(b.Pieces) {
			row := []string{"", "", line, ""}
			if k == 0 {
				row = []string{b.Stock, strconv.Itoa(n), line, l.Units.Figure(rest)}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// Plates says which pieces come from which plate or board.
func (l *Lists) Plates() sheet.Table {
	long, wide := cutplan.PlateSize(l.reads())
	t := sheet.Table{
		Title:   "Plates and boards of " + l.Units.Figure(long) + " x " + l.measure(wide),
		Columns: sheet.Columns("<Stock", ">No", "<Pieces: number x item", ">Used %"),
	}
	before, n := "", 0
	for _, b := range cutplan.Blanks(l.List, long, wide) {
		if n++; b.Stock != before {
			before, n = b.Stock, 1
		}
		var words []string
		for _, c := range b.Items {
			words = append(words, strconv.Itoa(c.Count)+" x "+strconv.Itoa(c.Item))
		}
		for k, line := range lines(words, 9) {
			row := []string{"", "", line, ""}
			if k == 0 {
				row = []string{b.Stock, strconv.Itoa(n), line, strconv.Itoa(int(math.Ceil(100 * b.Area)))}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// runs writes the pieces of a bar, equal ones counted, in lines.
func (l *Lists) runs(pieces []cutplan.Piece) []string {
	var words []string
	for i := 0; i < len(pieces); {
		n, p := 0, pieces[i]
		for ; i < len(pieces) && pieces[i] == p; i++ {
			n += p.Count
		}
		word := strconv.Itoa(n) + " x item " + strconv.Itoa(p.Item) + " (" + l.Units.Figure(p.Each)
		if p.Count > 1 {
			word += ", mitres in one cut"
		}
		words = append(words, word+")")
	}
	return lines(words, 5)
}

// lines puts words into lines of so many.
func lines(words []string, each int) []string {
	var out []string
	for at := 0; at < len(words); at += each {
		out = append(out, strings.Join(words[at:min(at+each, len(words))], ", "))
	}
	return out
}
