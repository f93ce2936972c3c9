package assembly

import (
	"math"
	"strings"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Item is one line of a parts list: parts that are equal or mirror images of each
// other, or equal things without a solid.
type Item struct {
	ID, Title string
	Stock     Stock
	Length    float64 // long-point length of what is sawn to one, mm; of a cable or chain, its length; 0 where there is none
	Mass      float64 // kg of one
	Parts     []int   // indices of the parts, or else
	Flexible  []int   // of what has no solid
}

// Count is how many there are.
func (i *Item) Count() int { return len(i.Parts) + len(i.Flexible) }

// sameStock is the difference, mm, below which sizes of stock are one.
const sameStock = 1e-3

// equal reports whether two are ordered or cut alike.
func (s *Stock) equal(o *Stock) bool {
	if s.Form != o.Form || s.Name != o.Name || s.Grade != o.Grade || math.Abs(s.Length-o.Length) > sameStock {
		return false
	}
	for i := range s.Size {
		if math.Abs(s.Size[i]-o.Size[i]) > sameStock {
			return false
		}
	}
	return true
}

// Items lists every part and everything flexible once, those of one item, stock and
// mass together, in the order in which they first come. The masses of the items
// times their counts add up to Mass.
func (a *Assembly) Items() []Item {
	out := make([]Item, 0, len(a.Parts)/2)
	of := make(map[string]int, len(a.Parts)/2) // last line of an item
	line := func(id string, stock *Stock, mass float64) (*Item, bool) {
		if at, ok := of[id]; ok {
			i := &out[at]
			if i.Stock.equal(stock) && math.Abs(i.Mass-mass) <= 1e-4*mass {
				return i, true
			}
		}
		of[id] = len(out)
		out = append(out, Item{ID: id, Stock: *stock, Mass: mass})
		return &out[len(out)-1], false
	}
	for k := range a.Parts {
		p := &a.Parts[k]
		i, known := line(p.Item, &p.Stock, p.Mass)
		if !known {
			i.Title, i.Length = p.Title, p.Length()
		} else if i.Title != p.Title {
			i.Title = common(i.Title, p.Title)
		}
		i.Parts = append(i.Parts, k)
	}
	for k := range a.Flexible {
		f := &a.Flexible[k]
		i, known := line(f.Item, &f.Stock, f.Mass)
		if !known {
			i.Title, i.Length = f.Title, f.Length()
		}
		i.Flexible = append(i.Flexible, k)
	}
	return out
}

// common is what two titles end in alike, in whole words: of "Lower stop" and "Upper
// stop", "Stop". Without any it is the first.
func common(a, b string) string {
	p, q := strings.Fields(a), strings.Fields(b)
	n := 0
	for n < len(p) && n < len(q) && strings.EqualFold(p[len(p)-1-n], q[len(q)-1-n]) {
		n++
	}
	if n == 0 {
		return a
	}
	tail := strings.Join(p[len(p)-n:], " ")
	return strings.ToUpper(tail[:1]) + tail[1:]
}

// Length is the long-point length to which the part is sawn from a bar or a tube,
// mm; 0 of what is not.
func (p *Part) Length() float64 {
	switch {
	case p.Stock.Length > 0:
		return p.Stock.Length
	case p.Stock.Form != Tube && p.Stock.Form != Round:
		return 0
	}
	switch s := p.Solid.(type) {
	case solid.Turned:
		return s.Outline[len(s.Outline)-1].Y - s.Outline[0].Y
	case solid.Prism:
		return s.To.Z - s.From.Z
	}
	return 0
}

// Length is that of the centreline, mm.
func (f *Flexible) Length() float64 {
	if f.Stock.Length > 0 {
		return f.Stock.Length
	}
	sum := 0.0
	for i := range f.Path {
		if i > 0 {
			sum += r3.Norm(r3.Sub(f.Path[i], f.Path[i-1]))
		}
	}
	if n := len(f.Path); f.Closed && n > 0 {
		sum += r3.Norm(r3.Sub(f.Path[0], f.Path[n-1]))
	}
	return sum
}

// Hardware is what joints are made with beside the parts: Count bolts or screws of a
// thread, or keys.
type Hardware struct {
	Kind   HardwareKind
	Thread float64 // nominal diameter
	Length float64 // under the head; 0 where the joint does not ask for one
	Key    Key
	Count  int
}

// HardwareKind is what a piece of hardware is.
type HardwareKind int8

// The kinds of hardware. Screws hold a key or a collar by their points.
const (
	Bolt HardwareKind = iota
	SetScrew
	ParallelKey
)

// String is the kind's name.
func (k HardwareKind) String() string { return [...]string{"bolt", "set screw", "parallel key"}[k] }

// HardwareOf is what a joint is made with: bolts, screws and keys. Bolts that go
// through several parts, one joint between each two, are those of the first. Pins and
// axles are parts.
func (a *Assembly) HardwareOf(joint int) []Hardware {
	j := &a.Joints[joint]
	d := &j.Detail
	if a.Parts[j.A].Is(Fastener) || a.Parts[j.B].Is(Fastener) {
		return nil
	}
	var out []Hardware
	if d.Key.Length > 0 {
		out = append(out, Hardware{Kind: ParallelKey, Key: d.Key, Count: 1})
	}
	switch {
	case d.Count == 0 || d.Thread == 0:
	case j.Kind == Fit && d.Length == 0:
		out = append(out, Hardware{Kind: SetScrew, Thread: d.Thread, Count: d.Count})
	case !a.repeated(joint):
		out = append(out, Hardware{Kind: Bolt, Thread: d.Thread, Length: d.Length, Count: d.Count})
	}
	return out
}

// repeated reports whether the bolts of a joint are those of an earlier one: of the
// same make, through a part of both, at places nearer to each other than the bolts
// are long.
func (a *Assembly) repeated(k int) bool {
	j := &a.Joints[k]
	for i := range a.Joints[:k] {
		o := &a.Joints[i]
		d, e := &j.Detail, &o.Detail
		if o.Kind != j.Kind || d.Thread != e.Thread || d.Count != e.Count || d.Length != e.Length || d.Pattern != e.Pattern {
			continue
		}
		if (o.A == j.A || o.A == j.B || o.B == j.A || o.B == j.B) && r3.Norm(r3.Sub(o.At, j.At)) < d.Length {
			return true
		}
	}
	return false
}
