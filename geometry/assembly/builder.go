package assembly

import (
	"slices"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Both are the indices of a right thing and of its left twin; of something in
// the middle, the same one twice.
type Both [2]int

// One returns the middle thing as both.
func One(i int) Both { return Both{i, i} }

// Builder gathers an assembly. The zero value is ready. Reset begins another one
// over the memory of the one before, and keeps what costs time to make: ids, mirror
// images, volumes and centroids, which are worked out again only for a solid that
// differs from the one that stood in its place.
type Builder struct {
	Assembly
	twins []int   // left twin of each group
	known []known // by index of the part
}

// known is what is kept of a part.
type known struct {
	solid    solid.Solid
	volume   float64
	centroid r3.Vec
	twin     solid.Solid // mirror image of the solid, nil where nobody asked
	id       string      // without its side
	sided    [2]string
}

// of returns the ids of right and left part.
func (k *known) of(id string) (right, left string) {
	if k.id != id {
		k.id, k.sided = id, [2]string{id + "-right", id + "-left"}
	}
	return k.sided[0], k.sided[1]
}

// Reset begins a new assembly. The one built before is overwritten.
func (b *Builder) Reset() {
	b.Assembly = Assembly{Parts: b.Parts[:0], Joints: b.Joints[:0], Groups: b.Groups[:0], Flexible: b.Flexible[:0]}
	b.twins = b.twins[:0]
}

// Group adds a group in the middle.
func (b *Builder) Group(id string, parent int, m Motion) int {
	n := len(b.Groups)
	b.Groups = append(b.Groups, Group{ID: id, Parent: parent, Motion: m})
	b.twins = append(b.twins, n)
	return n
}

// GroupPair adds a right group and its left twin; the motion is the right one's.
func (b *Builder) GroupPair(id string, parent Both, m Motion) Both {
	n := len(b.Groups)
	b.Groups = append(b.Groups,
		Group{ID: id + "-right", Side: Right, Parent: parent[0], Motion: m},
		Group{ID: id + "-left", Side: Left, Parent: parent[1], Motion: m})
	b.twins = append(b.twins, n+1, n+1)
	return Both{n, n + 1}
}

// Add adds a part and returns its index. A part without an item is one of its own.
func (b *Builder) Add(p Part) int { return b.add(&p) }

func (b *Builder) add(p *Part) int {
	if p.Item == "" {
		p.Item = p.ID
	}
	w := b.weigh(p.Solid)
	p.Solid = w.solid
	if p.Density > 0 {
		p.Mass = p.Density * w.volume
	}
	p.Centre = p.Place.Point(w.centroid)
	b.Parts = append(b.Parts, *p)
	return len(b.Parts) - 1
}

// weigh returns volume and centroid of the next part's solid.
func (b *Builder) weigh(s solid.Solid) *known {
	k := b.next()
	if !same(k.solid, s) {
		k.solid, k.twin = s, nil
		k.volume, k.centroid = solid.Weigh(s)
	}
	return k
}

// next is what is known of the next part.
func (b *Builder) next() *known {
	n := len(b.Parts)
	if n >= len(b.known) {
		b.known = append(b.known, make([]known, n+1-len(b.known))...)
	}
	return &b.known[n]
}

// same reports whether two solids are equal for certain.
func same(a, b solid.Solid) bool {
	switch p := a.(type) {
	case solid.Prism:
		q, ok := b.(solid.Prism)
		return ok && p.Profile == q.Profile && p.From == q.From && p.To == q.To && slices.Equal(p.Bores, q.Bores)
	case solid.Turned:
		q, ok := b.(solid.Turned)
		return ok && p.Bore == q.Bore && slices.Equal(p.Outline, q.Outline)
	}
	return false
}

// Pair adds a right part and its mirror image on the left.
func (b *Builder) Pair(p Part) Both {
	id := p.ID
	if p.Item == "" {
		p.Item = id
	}
	var left string
	p.ID, left = b.next().of(id)
	p.Side = Right
	right := b.add(&p)
	k := &b.known[right]
	if k.twin == nil {
		k.twin = solid.Mirrored(k.solid)
	}
	p.ID, p.Side = left, Left
	p.Solid, p.Place = k.twin, p.Place.Mirrored()
	p.Centre.Y = -p.Centre.Y
	p.Group = b.twins[p.Group]
	b.Parts = append(b.Parts, p)
	return Both{right, right + 1}
}

// Flex adds something flexible.
func (b *Builder) Flex(f Flexible) int {
	if f.Item == "" {
		f.Item = f.ID
	}
	var w Weight
	for i := range f.Path {
		j := i + 1
		if j == len(f.Path) {
			if !f.Closed {
				break
			}
			j = 0
		}
		w.Add(r3.Norm(r3.Sub(f.Path[j], f.Path[i])), r3.Scale(0.5, r3.Add(f.Path[i], f.Path[j])))
	}
	f.Centre = w.Centre()
	b.Flexible = append(b.Flexible, f)
	return len(b.Flexible) - 1
}

// FlexPair adds something flexible on the right and its mirror image.
func (b *Builder) FlexPair(f Flexible) Both {
	id := f.ID
	if f.Item == "" {
		f.Item = id
	}
	f.ID, f.Side = id+"-right", Right
	right := b.Flex(f)
	f.ID, f.Side = id+"-left", Left
	path := make([]r3.Vec, len(f.Path))
	for i, q := range f.Path {
		path[i] = mirror(q)
	}
	f.Path = path
	return Both{right, b.Flex(f)}
}

// Join joins two parts at a place.
func (b *Builder) Join(kind JointKind, p, q int, at r3.Vec, d Detail) {
	b.Joints = append(b.Joints, Joint{Kind: kind, A: p, B: q, At: at, Detail: d})
}

// JoinPair joins the right parts at a place and the left ones at its mirror image.
func (b *Builder) JoinPair(kind JointKind, p, q Both, at r3.Vec, d Detail) {
	b.Joints = append(b.Joints,
		Joint{Kind: kind, A: p[0], B: q[0], At: at, Detail: d},
		Joint{Kind: kind, A: p[1], B: q[1], At: mirror(at), Detail: d})
}

func mirror(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
