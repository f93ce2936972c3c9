package report

import (
	"fmt"
	"math"
	"strings"

	"armwright/solver"
	"armwright/solver/suppose"
	"armwright/specs"
)

// Supposed is what the boundary persons make of the station if an input that nobody
// can measure on them had another value.
type Supposed struct {
	Key      string   `json:"key" doc:"of the input in a brief"`
	Value    string   `json:"value" doc:"as a brief writes it"`
	Asked    bool     `json:"asked" doc:"whether it is this brief's own"`
	HandPath float64  `json:"worst_hand_path" doc:"of the person it suits least, mm"`
	AxisTilt float64  `json:"worst_axis_tilt" doc:"elbow axis to the machine axis, deg"`
	Fit      int      `json:"fit" doc:"boundary persons who meet every requirement of their own"`
	Of       int      `json:"of" doc:"boundary persons"`
	Fails    []string `json:"fails" doc:"requirements that then turn somebody away"`
}

func elbows(r *solver.Result) Elbow {
	out := Elbow{Supposed: []Supposed{}, Paths: []HandPath{}}
	if len(r.People.Boundary) == 0 {
		return out
	}
	least, worst, common, still, turning := math.Inf(1), 0.0, 0.0, 0.0, 0.0
	for i := range r.People.Boundary {
		p := &r.People.Boundary[i]
		least, worst = math.Min(least, p.HandPath), math.Max(worst, p.HandPath)
		common = math.Max(common, p.Common)
		still, turning = math.Max(still, p.Still), math.Max(turning, p.Turning)
	}
	out.LeastHandPath, out.WorstHandPath, out.CommonHandPath = some(mm(least)), some(mm(worst)), some(mm(common))
	out.AskedTurn, out.LiftingTurn = some(deg(r.Frame.Posture.LiftingTurn)), some(deg(r.TurnTold))
	out.StillHandPath, out.TurnedHandPath = some(mm(still)), some(mm(turning))
	out.Paths = handPaths(r)
	for _, v := range r.Suppositions {
		out.Supposed = append(out.Supposed, Supposed{v.Key, supposedValue(&v), v.Asked, mm(v.HandPath), deg(v.AxisTilt), v.Fit, v.Of, append([]string{}, v.Fails...)})
	}
	return out
}

// supposedValue writes a supposition's value as a brief does.
func supposedValue(v *suppose.Supposition) string {
	switch {
	case v.Word != "":
		return v.Word
	case v.Key == "people.axis_share":
		return fmt.Sprintf("%.4g %%", 100*v.Value)
	}
	return fmt.Sprintf("%.4g deg", v.Value/specs.Degree)
}

// TurnSentence tells both hand paths: of an upper arm that is held still while it
// lifts, and of one that turns about its own length.
func TurnSentence(r *Report) string {
	e := &r.Elbow
	if e.StillHandPath == nil {
		return ""
	}
	counts := "the first counts, since the brief allows no turn"
	if *e.AskedTurn > 0 {
		counts = "the second counts, as the brief asks"
	}
	return fmt.Sprintf("Of the boundary persons the worst parts by %s with the upper arm held still while it lifts, by %s if it turns up to %s about its own length either way: %s.",
		r.Units.Figure(*e.StillHandPath, "mm"), r.Units.Figure(*e.TurnedHandPath, "mm"), r.Units.Figure(*e.LiftingTurn, "deg"), counts)
}

// Outcome tells in a few words what a supposition does.
func (v *Supposed) Outcome() string {
	if len(v.Fails) == 0 {
		return "all fit"
	}
	return fmt.Sprintf("%d of %d fit; not met: %s", v.Fit, v.Of, strings.Join(v.Fails, ", "))
}
