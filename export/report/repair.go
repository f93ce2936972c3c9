package report

import (
	"fmt"
	"strings"

	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/explain"
	"armwright/specs"
)

// Repair is a change of the brief that lets it be met.
type Repair struct {
	Changes  []Change `json:"changes" doc:"values of the brief to change together"`
	Cost     float64  `json:"cost" doc:"by how much the brief gives way, in units that matter"`
	Sentence string   `json:"sentence" doc:"the same in words"`
}

// Change is one value of the brief with what to write instead.
type Change struct {
	Path string `json:"path" doc:"where the value stands in the brief"`
	From string `json:"from" doc:"as it stands there"`
	To   string `json:"to" doc:"what to write instead"`
}

// Buy is what one change of the brief does for coverage, where that is all that is missed.
type Buy struct {
	Changes  []Change `json:"changes" doc:"values of the brief to change together"`
	Fit      float64  `json:"fit" doc:"share of the random persons who fit then, of the sex that fits less where each is asked"`
	Gain     float64  `json:"gain" doc:"share of them more than without the change"`
	Met      bool     `json:"met" doc:"whether that is as many as are asked for"`
	Sentence string   `json:"sentence" doc:"the same in words"`
}

// Proof is a contradiction that a bound shows.
type Proof struct {
	Demands []string `json:"demands" doc:"requirements and paths of the brief that cannot all hold"`
	Needed  float64  `json:"needed" doc:"what every station needs"`
	Allowed float64  `json:"allowed" doc:"what the brief allows"`
	Unit    string   `json:"unit" enum:"mm|deg|%|" doc:"of both"`
	Reason  string   `json:"reason" doc:"in words"`
}

// repairs tells the ways out.
func repairs(r *solver.Result, u specs.Units) []Repair {
	list := []Repair{}
	for _, way := range r.Repairs {
		out := Repair{Cost: round(way.Cost, decimals)}
		out.Changes, out.Sentence = changes(way.Changes, u)
		list = append(list, out)
	}
	return list
}

// changes are changes of a brief, and in words.
func changes(list []explain.Change, u specs.Units) (out []Change, sentence string) {
	var words []string
	for _, c := range list {
		out = append(out, Change{c.Path, c.From, c.To})
		words = append(words, fmt.Sprintf("%s: %s -> %s", c.Path, told(c.From, u), told(c.To, u)))
	}
	return out, strings.Join(words, ", ")
}

// coverageBuys tells what single changes do for coverage, most people first.
func coverageBuys(r *solver.Result, u specs.Units) []Buy {
	list := []Buy{}
	for _, b := range r.Buys {
		out := Buy{Fit: share(b.Served.Share), Gain: share(b.Gain), Met: b.Met}
		out.Changes, out.Sentence = changes(b.Changes, u)
		out.Sentence += fmt.Sprintf(": %.1f %% fit then, %.1f %% more", 100*out.Fit, 100*out.Gain)
		if out.Met {
			out.Sentence += ", as many as are asked for"
		}
		list = append(list, out)
	}
	return list
}

// proofs tells the contradictions that bounds show.
func proofs(r *solver.Result) []Proof {
	list := []Proof{}
	for _, p := range r.Proofs {
		list = append(list, Proof{p.Demands, outside(p.Needed, p.Unit), outside(p.Allowed, p.Unit), words.Symbol(p.Unit), words.Bound(p.Bound)})
	}
	return list
}

// demandAdvice says how a demand without a requirement of its own gives way.
func demandAdvice(r *solver.Result, id string, u specs.Units) string {
	for _, way := range r.Repairs {
		if len(way.Changes) == 1 && way.Changes[0].ID == id {
			c := way.Changes[0]
			return fmt.Sprintf("change it from %s to %s (%s)", told(c.From, u), told(c.To, u), c.Path)
		}
	}
	return "it pulls against the others; to change it alone is not enough"
}

// told is a value as it stands in a brief, with what it is in the reader's
// units where those are others. The first is what to write: it is exact.
func told(text string, u specs.Units) string {
	if u == specs.Metric {
		return text
	}
	for _, k := range [...]struct {
		kind specs.Kind
		unit string
	}{{specs.Length, "mm"}, {specs.Mass, "kg"}, {specs.Force, "N"}} {
		if x, err := specs.ParseQuantity(text, k.kind); err == nil {
			return text + " (" + u.Figure(x, k.unit) + ")"
		}
	}
	return text
}
