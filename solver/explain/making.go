package explain

import (
	"sort"

	"armwright/specs"
	"armwright/specs/stock"
)

// What is looked into where no drive can be made at all, beside the demands that
// every drive has.

// makings lists what else can give way where no drive can be made at all: the
// range it works over, of which a fifth is left at least, and what the cam is
// built on.
func makings(a *specs.Asked) []demand {
	loaded := a.Resistance.Loaded
	most := 0.4 * (loaded.To - loaded.From)
	list := []demand{
		{id: "resistance.loaded", drive: true, ends: []end{
			{path: "resistance.loaded.from", up: true, unit: 5 * specs.Degree, farthest: loaded.From + most},
			{path: "resistance.loaded.to", unit: 5 * specs.Degree, farthest: loaded.To - most},
		}},
		{id: "stock.shaft", drive: true, ends: []end{{path: "stock.shaft", unit: 1}}},
	}
	if a.Resistance.Drive == "cam" {
		list = append(list, demand{id: "resistance.sheave_radius", drive: true, ends: []end{{path: "resistance.sheave_radius", up: true, unit: 5}}})
	}
	return list
}

// swapCost is what another kind of part counts as, in units that matter
// (judgement): more than a value moved a little.
const swapCost = 3

// swaps adds to ways each kind of part with which a drive can be made, everything
// else as asked: thinner cables, the thickest first, other hubs, the other side of
// the guide sheave. Such a part belongs to every conflict.
func (e *explainer) swaps(ways []Repair) ([]Repair, error) {
	a := &e.brief.Asked
	list := []struct {
		path   string
		others []string
	}{
		{"stock.hub", []string{"bolted", "keyway", "clamp"}},
		{"resistance.side", []string{"open", "crossed"}},
		{"stock.cable", thinner(a.Stock.Cable)},
	}
	if a.Resistance.Drive != "cam" {
		return ways, nil
	}
	for _, l := range list {
		from, err := e.brief.Get(l.path)
		if err != nil {
			return nil, err
		}
		for _, to := range l.others {
			if to == from {
				continue
			}
			b := e.brief
			if err := b.Set(l.path, to); err != nil {
				return nil, err
			}
			r, err := e.drives(&b)
			if err != nil {
				return nil, err
			}
			if r != nil {
				e.note(Conflict{ID: l.path, Needed: true})
				ways = append(ways, Repair{[]Change{{Path: l.path, From: from, To: to, ID: l.path, By: 1}}, swapCost})
				break
			}
		}
	}
	sort.SliceStable(ways, func(i, j int) bool { return ways[i].Cost < ways[j].Cost })
	return ways, nil
}

// thinner lists the cables of stock that may be bent more sharply than one, of
// its own system of units, what comes nearest to it first.
func thinner(name string) []string {
	bend := func(name string) float64 {
		c, _ := stock.Cable(name) // names of stock and of a valid brief are known
		return c.LeastRadius(c.CriticalRatio)
	}
	var list []string
	for _, n := range stock.CableNames() {
		if stock.Inch(n) == stock.Inch(name) && bend(n) < bend(name) {
			list = append(list, n)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return bend(list[i]) > bend(list[j]) })
	return list
}

// several finds what mends the drive where no demand does alone: all of them at
// their loosest, then one end after another brought back as far as the drive allows,
// the dearest first.
func (e *explainer) several(list []rival) ([]Repair, error) {
	b := e.brief
	type mover struct {
		*end
		demand *demand
	}
	var movers []mover
	for i := range list {
		d := &list[i].demand
		d.loosen(&b)
		for k := range d.ends {
			movers = append(movers, mover{&d.ends[k], d})
		}
	}
	holds := func() (bool, error) {
		r, err := e.drives(&b)
		return r != nil, err
	}
	if ok, err := holds(); err != nil || !ok {
		return nil, err
	}
	price := func(m mover) float64 {
		was, _ := e.brief.Span(m.path)
		now, _ := b.Span(m.path)
		return m.beyond(was, now.Value) / m.unit
	}
	sort.SliceStable(movers, func(i, j int) bool { return price(movers[i]) > price(movers[j]) })
	const halvings = 5
	for _, m := range movers {
		was, _ := e.brief.Span(m.path)
		now, _ := b.Span(m.path)
		near, far := was.Value, now.Value
		now.Set(near)
		ok, err := holds()
		for n := 0; err == nil && !ok && n < halvings; n++ {
			middle := m.lenient(was, (near+far)/2)
			now.Set(middle)
			var enough bool
			if enough, err = holds(); enough {
				far = middle
			} else {
				near = middle
			}
		}
		if err != nil {
			return nil, err
		}
		if !ok {
			now.Set(far)
		}
	}
	return []Repair{e.difference(&b)}, nil
}
