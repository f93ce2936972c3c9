package draw

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"armwright/export/sheet"
	"armwright/specs"
)

// sawKerf is own choice, stated on the sheet, mm.
const sawKerf = 3.0

// barLength is how long bars are bought, mm: 6 m, or 20 ft by who works in
// inches; own choices, stated on the sheet.
func barLength(u specs.Units) float64 {
	if u == specs.InchPound {
		return 20 * 12 * 25.4
	}
	return 6000
}

// cutPiece is one piece to be sawn from a bar.
type cutPiece struct {
	item   int
	length float64
}

// cutBar is one bar with its pieces in the order they are sawn.
type cutBar struct {
	pieces []cutPiece
	used   float64 // with a kerf after each piece
}

// nest lays pieces into bars of one length, first fit decreasing (D. S.
// Johnson 1973: at most 11/9 of the fewest bars and 6/9 of one more). A piece
// takes its length and one kerf; the last kerf may fall into the bar's end.
// What is longer than a bar gets one by itself.
func nest(pieces []cutPiece, length, kerf float64) []cutBar {
	sorted := slices.Clone(pieces)
	slices.SortStableFunc(sorted, func(a, b cutPiece) int { return cmp.Compare(b.length, a.length) })
	var bars []cutBar
	for _, p := range sorted {
		need := p.length + kerf
		at := slices.IndexFunc(bars, func(b cutBar) bool { return b.used+need <= length+kerf })
		if at < 0 {
			at = len(bars)
			bars = append(bars, cutBar{})
		}
		bars[at].pieces = append(bars[at].pieces, p)
		bars[at].used += need
	}
	return bars
}

// cuttingPlan says which pieces come from which bar.
func (d *drafter) cuttingPlan() sheet.Table {
	long := barLength(d.reads())
	t := sheet.Table{
		Title:   "Cutting plan, bars of " + d.measure(long) + ", kerf " + d.measure(sawKerf),
		Columns: columns("<Stock", ">Bar", "<Pieces: number x item (length)", ">Rest "+d.unit()),
	}
	var names []string
	of := map[string][]cutPiece{}
	for _, p := range d.list {
		if p.Bar == "" || p.Length == 0 {
			continue
		}
		if of[p.Bar] == nil {
			names = append(names, p.Bar)
		}
		for range p.Count {
			of[p.Bar] = append(of[p.Bar], cutPiece{p.Item, p.Length})
		}
	}
	for _, name := range names {
		for i, b := range nest(of[name], long, sawKerf) {
			rest := max(0, long-b.used)
			for k, line := range d.runs(b.pieces) {
				row := []string{"", "", line, ""}
				if k == 0 {
					row = []string{name, strconv.Itoa(i + 1), line, d.length(rest)}
				}
				t.Rows = append(t.Rows, row)
			}
		}
	}
	return t
}

// runs writes the pieces of a bar, equal ones counted, in lines.
func (d *drafter) runs(pieces []cutPiece) []string {
	const perLine = 5
	var words []string
	for i := 0; i < len(pieces); {
		n := 1
		for i+n < len(pieces) && pieces[i+n] == pieces[i] {
			n++
		}
		words = append(words, strconv.Itoa(n)+" x item "+strconv.Itoa(pieces[i].item)+" ("+d.length(pieces[i].length)+")")
		i += n
	}
	var lines []string
	for chunk := range slices.Chunk(words, perLine) {
		lines = append(lines, strings.Join(chunk, ", "))
	}
	return lines
}
