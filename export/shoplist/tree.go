// Package shoplist tells a shop what a station is put together from, weldment by
// weldment, and what of it is bought.
package shoplist

import (
	"slices"
	"strconv"

	"armwright/export/draw/weldment"
	"armwright/export/partlist"
	"armwright/geometry/assembly"
	"armwright/solver"
)

// Node is a line of the tree: a weldment, what it is made of, a part or a fastener.
// Right and left are lines of their own.
type Node struct {
	Level  int    // 0 the station, 1 what it is put together from, 2 and 3 what a weldment is welded of
	Kind   string // "station", "weldment", "part", "bought", "fastener"
	Number string // item of the parts list, or sheet of a weldment
	Title  string
	Side   string // "right", "left", or empty
	Count  int
	Stock  string
	Length float64 // long-point length of one, mm; 0 where there is none
	Mass   float64 // of one, kg; 0 where it is not known
}

// Tree lists a station as it is built, its weldments first; nil of a bench. The masses of level 1 but
// for fasteners, times their counts, add up to that of the station, level 0, which is
// the mass that balances.
func Tree(r *solver.Result) []Node {
	a := r.Station.Assembly
	if a == nil {
		return nil
	}
	t := tree{a: a, list: partlist.Of(r), line: make([]int, len(a.Parts)), welded: weldment.Find(a)}
	for i, l := range t.list {
		for _, p := range l.Parts {
			t.line[p] = i
		}
	}
	t.add(Node{Kind: "station", Title: "Station", Count: 1, Mass: a.Mass()})
	taken := make([]bool, len(a.Parts))
	for i := range t.welded {
		w := &t.welded[i]
		if !t.member(w) {
			t.weldment(w, 1)
			for _, p := range w.Parts() {
				taken[p] = true
			}
		}
	}
	var lone []int
	for p := range a.Parts {
		if !taken[p] {
			lone = append(lone, p)
		}
	}
	t.parts(lone, 1)
	for i := range t.list {
		l := &t.list[i]
		switch f := l.Fastener; {
		case f != nil:
			t.add(Node{Level: 1, Kind: "fastener", Number: strconv.Itoa(l.Item), Title: l.Title, Count: l.Count, Stock: l.Stock, Length: f.Length, Mass: f.Mass})
		case len(l.Parts) == 0:
			t.add(Node{Level: 1, Kind: "bought", Number: strconv.Itoa(l.Item), Title: l.Title, Count: l.Count, Stock: l.Stock, Length: l.Length, Mass: l.Mass})
		}
	}
	return t.nodes
}

type tree struct {
	a      *assembly.Assembly
	list   []partlist.Line
	line   []int // of the list, by part
	welded []weldment.Weldment
	nodes  []Node
}

func (t *tree) add(n Node) { t.nodes = append(t.nodes, n) }

// member reports whether a weldment is part of another.
func (t *tree) member(w *weldment.Weldment) bool {
	for i := range t.welded {
		for _, b := range t.welded[i].Blocks {
			if b.Sheet == w.Number {
				return true
			}
		}
	}
	return false
}

// weldment adds a weldment and what it is welded of.
func (t *tree) weldment(w *weldment.Weldment, level int) {
	mass := 0.0
	for _, p := range w.Parts() {
		mass += t.a.Parts[p].Mass
	}
	t.add(Node{Level: level, Kind: "weldment", Number: strconv.Itoa(w.Number), Title: w.Title, Side: w.Side.String(), Count: 1, Mass: mass})
	var parts []int
	for _, b := range w.Blocks {
		if i := slices.IndexFunc(t.welded, func(o weldment.Weldment) bool { return b.Sheet != 0 && o.Number == b.Sheet }); i >= 0 {
			t.weldment(&t.welded[i], level+1)
			continue
		}
		parts = append(parts, b.Parts...)
	}
	t.parts(parts, level+1)
}

// parts adds parts, equal ones of a side together.
func (t *tree) parts(parts []int, level int) {
	type key struct {
		line int
		side assembly.Side
	}
	at := map[key]int{}
	for _, p := range parts {
		k := key{t.line[p], t.a.Parts[p].Side}
		if i, ok := at[k]; ok {
			t.nodes[i].Count++
			continue
		}
		at[k] = len(t.nodes)
		l := &t.list[k.line]
		kind := "part"
		if l.Form == assembly.Bought {
			kind = "bought"
		}
		t.add(Node{Level: level, Kind: kind, Number: strconv.Itoa(l.Item), Title: l.Title, Side: k.side.String(), Count: 1, Stock: l.Stock, Length: l.Length, Mass: l.Mass})
	}
}
