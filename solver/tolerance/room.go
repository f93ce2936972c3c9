package tolerance

import (
	"context"

	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// Design of a brief with room for its builds: how many builds a study of the room
// draws, how many of them are to meet each limit, and how often the room is
// worked out anew, since it is that of another station then.
const (
	roomBuilds = 2000
	roomShare  = 0.95
	roomRounds = 4
)

// Room is a station solved with room for its builds.
type Room struct {
	*solver.Result
	Classes Classes
	Builds  *Result // a study of it; nil where the brief is not met
	// Short are the requirements whose limit fewer than 95 % of the builds meet
	// all the same.
	Short []Spread
}

// Solve solves a brief so that 95 % of the builds within the classes meet each of
// its limits, as far as that can be: as solver.Solve does, then with as much in hand
// of every requirement as the builds of the station found take of it. Where that
// leaves a limit unmet, or helps no more builds to meet everything, half of that is
// tried, and in the end the station before stands, as when the context ends the work. The errors are
// those of solver.Solve and NewModel, beside what was found before.
func Solve(ctx context.Context, brief specs.Brief, c Classes, opt *fit.Options) (*Room, error) {
	r, err := solver.Solve(ctx, brief, opt)
	if r == nil {
		return nil, err
	}
	best := &Room{Result: r, Classes: c}
	if err != nil || r.Verdict != judge.Met {
		return best, err
	}
	if err := best.build(ctx); err != nil {
		return best, err
	}
	// What was left to the tool is chosen.
	chosen := specs.Brief{Name: brief.Name, Minimise: brief.Minimise, Asked: r.Frame.Asked}
	share := 1.0
	for n := 0; len(best.Short) > 0 && n < roomRounds; n++ {
		with := fit.Options{Progress: opt.Progress, Starts: opt.Starts, Start: &best.Frame.Geometry, Room: best.room(share)}
		r, err := solver.Solve(ctx, chosen, &with)
		if err != nil {
			return best, err
		}
		r.Choices = best.Choices
		at := &Room{Result: r, Classes: c}
		if r.Verdict == judge.Met {
			if err := at.build(ctx); err != nil {
				return best, err
			}
		}
		if r.Verdict != judge.Met || at.Builds.Met <= best.Builds.Met {
			share /= 2 // there is no such room, or none was found: less may be had
			continue
		}
		best = at
	}
	return best, nil
}

// build draws builds of the station.
func (r *Room) build(ctx context.Context) error {
	judge, err := judge.New(&r.Frame.Asked)
	if err != nil {
		return err
	}
	m, err := NewModel(judge, &r.Frame, r.Classes)
	if err != nil {
		return err
	}
	if r.Builds, err = m.Run(ctx, Options{Builds: roomBuilds, Seed: 1, Times: 1}); err != nil {
		return err
	}
	for _, s := range r.Builds.Spreads {
		if s.Met < roomShare {
			r.Short = append(r.Short, s)
		}
	}
	return nil
}

// room is a share of that by which the margins of the builds stay below those of the
// station, but for one in twenty.
func (r *Room) room(share float64) map[string]float64 {
	list := map[string]float64{}
	for _, s := range r.Builds.Spreads {
		list[s.ID] = share * (s.Nominal - s.Low)
	}
	return list
}
