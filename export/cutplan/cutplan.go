// Package cutplan lays what is sawn and cut into bars, plates and boards as they are
// bought.
package cutplan

import (
	"cmp"
	"math"
	"slices"

	"armwright/export/partlist"
	"armwright/specs"
)

// SawKerf is what a saw cut takes of a bar, mm; own choice, stated on the sheet.
const SawKerf = 3.0

// BarLength is how long bars are bought, mm: 6 m, or 20 ft by who works in
// inches; own choices, stated on the sheet.
func BarLength(u specs.Units) float64 {
	if u == specs.InchPound {
		return 20 * 12 * 25.4
	}
	return 6000
}

// PlateSize is how large plates and boards are bought, mm: 2 m by 1 m, or 8 ft by 4 ft
// by who works in inches; own choices, stated on the sheet.
func PlateSize(u specs.Units) (long, wide float64) {
	if u == specs.InchPound {
		return 8 * 12 * 25.4, 4 * 12 * 25.4
	}
	return 2000, 1000
}

// Piece is what is sawn from a bar at one go: one piece of an item, or two of them whose
// equal mitres share a cut.
type Piece struct {
	Item   int
	Length float64 // of the bar that it takes, mm
	Each   float64 // of one, from long point to long point, mm
	Count  int     // 1, or 2 that are nested
}

// Bar is one bar with its pieces in the order they are sawn.
type Bar struct {
	Stock  string
	Pieces []Piece
	Used   float64 // with a kerf after each piece, mm
}

// Bars lays what is sawn from bars into bars of a length, stock by stock.
func Bars(list []partlist.Line, length, kerf float64) []Bar {
	var names []string
	of := map[string][]Piece{}
	for i := range list {
		l := &list[i]
		if l.Bar == "" || l.Length == 0 {
			continue
		}
		if of[l.Bar] == nil {
			names = append(names, l.Bar)
		}
		of[l.Bar] = append(of[l.Bar], pieces(l, length, kerf)...)
	}
	var out []Bar
	for _, name := range names {
		for _, b := range Nest(of[name], length, kerf) {
			b.Stock = name
			out = append(out, b)
		}
	}
	return out
}

// pieces are those of a line: where one end is mitred, two share the oblique cut, one of
// them turned end for end, and take less by as much as the mitre is long.
func pieces(l *partlist.Line, bar, kerf float64) []Piece {
	var out []Piece
	n := l.Count
	if l.Drop > kerf {
		pair := Piece{l.Item, 2*l.Length - l.Drop + kerf*math.Hypot(1, l.Drop/l.Side), l.Length, 2}
		for ; n >= 2 && pair.Length <= bar; n -= 2 {
			out = append(out, pair)
		}
	}
	for range n {
		out = append(out, Piece{l.Item, l.Length, l.Length, 1})
	}
	return out
}

// Nest lays pieces into bars of one length, first fit decreasing (D. S.
// Johnson 1973: at most 11/9 of the fewest bars and 6/9 of one more). A piece
// takes its length and one kerf; the last kerf may fall into the bar's end.
// What is longer than a bar gets one by itself.
func Nest(pieces []Piece, length, kerf float64) []Bar {
	sorted := slices.Clone(pieces)
	slices.SortStableFunc(sorted, func(a, b Piece) int { return cmp.Compare(b.Length, a.Length) })
	var bars []Bar
	for _, p := range sorted {
		need := p.Length + kerf
		at := slices.IndexFunc(bars, func(b Bar) bool { return b.Used+need <= length+kerf })
		if at < 0 {
			at = len(bars)
			bars = append(bars, Bar{})
		}
		bars[at].Pieces = append(bars[at].Pieces, p)
		bars[at].Used += need
	}
	return bars
}

// Blank is a plate, a sheet or a board from which pieces are cut in rows.
type Blank struct {
	Stock string // "plate 10 S235"
	Items []Cut
	Area  float64 // of the boxes round the pieces, as a share of the blank
}

// Cut is how many pieces of an item come from a blank.
type Cut struct{ Item, Count int }

// cutGap is between pieces on a plate, and to its edge, mm (own choice).
const cutGap = 10.0

// Blanks lays plates, sheets and boards into blanks of a size: pieces by falling width
// in rows, each in the first row and the first blank with room (first fit decreasing
// height, E. G. Coffman and others, 1980: at most 1.7 times the height that would do
// and one row more). A piece lies with its longer side along the blank. What is larger
// than a blank gets one by itself.
func Blanks(list []partlist.Line, long, wide float64) []Blank {
	type piece struct {
		item       int
		long, wide float64
	}
	var names []string
	of := map[string][]piece{}
	for i := range list {
		l := &list[i]
		if l.Blank == "" {
			continue
		}
		if of[l.Blank] == nil {
			names = append(names, l.Blank)
		}
		for range l.Count {
			of[l.Blank] = append(of[l.Blank], piece{l.Item, max(l.Box[0], l.Box[1]), min(l.Box[0], l.Box[1])})
		}
	}
	type row struct{ used, high float64 }
	type open struct {
		Blank
		rows []row
		high float64
	}
	var out []Blank
	for _, name := range names {
		pieces := of[name]
		slices.SortStableFunc(pieces, func(a, b piece) int { return cmp.Or(cmp.Compare(b.wide, a.wide), cmp.Compare(b.long, a.long)) })
		var blanks []open
		for _, p := range pieces {
			l, w := p.long+cutGap, p.wide+cutGap
			put := func(b *open) bool {
				for k := range b.rows {
					if r := &b.rows[k]; r.used+l <= long && w <= r.high {
						r.used += l
						return true
					}
				}
				if b.high > cutGap && (b.high+w > wide || cutGap+l > long) {
					return false
				}
				b.rows = append(b.rows, row{cutGap + l, w})
				b.high += w
				return true
			}
			at := -1
			for k := range blanks {
				if put(&blanks[k]) {
					at = k
					break
				}
			}
			if at < 0 {
				at = len(blanks)
				blanks = append(blanks, open{Blank: Blank{Stock: name}, high: cutGap})
				put(&blanks[at])
				if cutGap+l > long || cutGap+w > wide { // larger than a blank: nothing beside it
					blanks[at].rows, blanks[at].high = nil, math.Inf(1)
				}
			}
			b := &blanks[at].Blank
			b.Area += p.long * p.wide / (long * wide)
			if n := len(b.Items); n > 0 && b.Items[n-1].Item == p.item {
				b.Items[n-1].Count++
			} else {
				b.Items = append(b.Items, Cut{p.item, 1})
			}
		}
		for _, b := range blanks {
			out = append(out, b.Blank)
		}
	}
	return out
}
