package explain

import (
	"context"
	"fmt"
	"math"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/nlp"
	"armwright/specs"
)

// concede looks from a station for the one that goes past one demand by the
// least, all others held; nil if it finds none that holds them. The brief has the
// demand at its loosest.
func (e *explainer) concede(d *demand, loose *specs.Brief, here *specs.Geometry) (*judge.Result, error) {
	s, err := e.open(loose)
	if s == nil {
		return nil, err
	}
	if err := e.search(); err != nil {
		return nil, err
	}
	se := &fit.Search{Program: s, Options: e.opt, Axes: len(here.Pivots.Axes), Guard: make([]float64, len(s.Kinds))}
	if err := se.Enter(here); err != nil {
		return nil, err
	}
	// The station itself may keep everything else already.
	var best *judge.Result
	check := func(g *specs.Geometry) (*judge.Result, error) {
		r, err := s.Check(judge.FrameFor(loose.Name, &loose.Asked, g), judge.Persons{})
		if err == nil && r.Verdict == judge.Met && (best == nil || e.past(d, r) < e.past(d, best)) {
			best = r
		}
		return r, err
	}
	if _, err := check(here); err != nil {
		return nil, err
	}
	const tries = 3 // of choosing settings anew
	for range tries {
		if err := concede(e.ctx, se, d, &e.brief, loose); err != nil {
			return nil, err
		}
		done := judge.Clone(se.Geometry)
		if err := se.Complete(done); drive.Unmade(err) {
			break
		} else if err != nil {
			return nil, err
		}
		r, err := check(done)
		if err != nil {
			return nil, err
		}
		if r.Verdict == judge.Met {
			break
		}
		if se.Last.Status.Usable() {
			for _, q := range r.Requirements {
				if !q.Met {
					se.Guard[s.KindOf(q.ID)] -= 1.1 * q.Margin
				}
			}
		} else if se.Last.KKT.Violation > fit.Hopeless {
			break
		}
		se.Settings = s.FreeSettings(se.Geometry, se.Drive)
	}
	return best, nil
}

// past is how far a station goes past a demand, in units that matter.
func (e *explainer) past(d *demand, r *judge.Result) float64 {
	sum := 0.0
	for i := range d.ends {
		v := &d.ends[i]
		s, _ := e.brief.Span(v.path)
		if x, ok := taken(d, v, r); ok {
			sum += v.beyond(s, x) / v.unit
		}
	}
	return sum
}

// concede minimises how far one demand gives way, with the settings held: the
// program of the search with one variable more, the number t of units that matter
// by which every end of the demand moves. Rows of its requirement gain t, and
// design variables whose bounds move are held by rows in place of bounds. The
// program of the search is of the loose brief.
func concede(ctx context.Context, se *fit.Search, d *demand, asked, loose *specs.Brief) error {
	s := se.Program
	type held struct {
		end
		from     float64
		variable int
	}
	var bounds []held
	own := -1      // requirement whose limit moves
	farthest := 0. // units that matter that the format allows
	// Limits are as asked while the optimiser works: it passes over rows that are
	// far from theirs.
	var restore []func()
	for _, v := range d.ends {
		was, _ := asked.Span(v.path)
		now, _ := loose.Span(v.path)
		farthest = math.Max(farthest, math.Abs(now.Value-was.Value)/v.unit)
		if v.kind != "" {
			own = s.KindOf(v.kind)
			wide := now.Value
			now.Set(was.Value)
			restore = append(restore, func() { now.Set(wide) })
		}
		for j, x := range s.Variables(se.Geometry) {
			if x.Name == v.variable {
				bounds = append(bounds, held{v, was.Value, j})
			}
		}
	}
	if own >= 0 {
		wide := s.Limits[own]
		s.Limits[own] = s.Limit(s.Asked, own)
		restore = append(restore, func() { s.Limits[own] = wide })
	}
	p, kinds, settings := se.Problem()
	n, rows := p.N, p.M
	q := nlp.Problem{
		N: n + 1, Lower: append(p.Lower, 0), Upper: append(p.Upper, farthest), Scale: append(p.Scale, math.Max(1, farthest/10)),
		M: rows + len(bounds), RowScale: slices.Repeat([]float64{1}, rows+len(bounds)),
	}
	// The objective of the search stays as a small part, so that what does not
	// matter for the concession does not drift.
	const drift = 1e-3
	q.Both = func(c, x []float64) float64 {
		t := x[n]
		f := p.Both(c[:rows], x[:n])
		for i, k := range kinds {
			if k == own {
				c[i] += t
			}
		}
		for i, b := range bounds {
			c[rows+i] = t + (b.from-x[b.variable])/b.unit
			if !b.up {
				c[rows+i] = t + (x[b.variable]-b.from)/b.unit
			}
		}
		return t + drift*f
	}
	r, err := nlp.Minimize(ctx, q, append(se.Point(), farthest), settings)
	for _, f := range restore {
		f()
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return fmt.Errorf("explain: %w", err)
	}
	se.Last = r
	se.Apply(r.X[:n])
	return nil
}
