package explain

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"testing"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// Every random brief ends met, with its requirements verified from the frame's
// file, or infeasible with what conflicts, with or without a station. None panics, gives a number that is
// not finite, or stops unexplained, and a context cancelled midway ends the
// search with its error.
//
// Briefs are examples with one in fifty to all of their values drawn anew over
// the whole range the format allows. ARMWRIGHT_BRIEFS says how many,
// ARMWRIGHT_BRIEFS_FROM the first. The one numbered 0 takes minutes, and is left to the
// long tests.
func TestRandomBriefs(t *testing.T) {
	testdata.Long(t)
	n, from := fromEnvironment(t, "ARMWRIGHT_BRIEFS", 3), fromEnvironment(t, "ARMWRIGHT_BRIEFS_FROM", 0)
	count := map[string]int{}
	for i := from; i < from+n; i++ {
		count[judgeRandomBrief(t, i)]++
	}
	t.Logf("%d briefs: %v", n, count)
}

// Random briefs that once ended otherwise: minutes each, so where random briefs are asked for.
func TestRandomBriefsMended(t *testing.T) {
	if os.Getenv("ARMWRIGHT_BRIEFS") == "" {
		t.Skip("ARMWRIGHT_BRIEFS is not set")
	}
	for _, i := range []int{
		481,  // arms past the range of a stop pad's slope, which the frame's file then held
		4850, // feet that hang higher than a foot plate may stand
		6055, // a cam whose closing arcs reach the guide sheave
		8630, // hands that want more handle positions and a longer grip than a frame has
		9230, // bars that pass a dead point over a wider range, looked into for a repair
		9642, // the same
		9798, // a cam whose outline closes kilometres away
	} {
		judgeRandomBrief(t, i)
	}
}

func fromEnvironment(t *testing.T, name string, otherwise int) int {
	t.Helper()
	s := os.Getenv(name)
	if s == "" {
		return otherwise
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// judgeRandomBrief solves the i-th random brief and says how it ended.
func judgeRandomBrief(t *testing.T, i int) (end string) {
	t.Helper()
	rnd := rand.New(rand.NewPCG(5, uint64(i)))
	b := randomBrief(t, rnd)
	fail := func(format string, args ...any) {
		t.Helper()
		t.Errorf("brief %d: %s", i, fmt.Sprintf(format, args...))
	}
	defer func() {
		if p := recover(); p != nil {
			fail("panic: %v", p)
			panic(p)
		}
	}()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	opt := &fit.Options{Starts: 1}
	stop := 0
	if rnd.IntN(8) == 0 {
		stop = 1 + rnd.IntN(40)
		left := stop
		opt.Progress = func(fit.Progress) {
			if left--; left == 0 {
				cancel()
			}
		}
	}
	r, err := explained(ctx, b, opt)
	switch {
	case stop > 0 && errors.Is(err, context.Canceled):
		return "cancelled"
	case err != nil:
		fail("%v", err)
		return "error"
	}
	if where, ok := finite(reflect.ValueOf(r), "result"); !ok {
		fail("%s is not finite", where)
	}
	if r.NoStation != nil {
		if r.Verdict != judge.Infeasible || len(r.Conflict) == 0 {
			fail("no station, %s without a conflict", r.Verdict)
		}
		return "no station"
	}
	var file bytes.Buffer
	if err := specs.WriteFrame(&file, r.Frame); err != nil {
		fail("frame: %v", err)
		return "error"
	}
	f, err := specs.ParseFrame("frame.yaml", file.Bytes())
	if err != nil {
		fail("frame: %v", err)
		return "error"
	}
	again, err := judge.CheckPeople(f, judge.Random(f.People))
	if err != nil {
		fail("check: %v", err)
		return "error"
	}
	for k, q := range r.Requirements {
		if !reflect.DeepEqual(again.Requirements[k], q) {
			fail("check says %+v, design %+v", again.Requirements[k], q)
		}
	}
	switch r.Verdict {
	case judge.Met:
		if again.Verdict != judge.Met {
			fail("check says %s", again.Verdict)
		}
		if len(r.Proofs) > 0 {
			fail("met against a proof: %+v", r.Proofs)
		}
		s, err := fit.NewProgram(&b.Asked)
		if err != nil {
			t.Fatal(err)
		}
		if p := s.Prove(); p != nil {
			fail("met, yet proved infeasible: %+v", p)
		}
	case judge.Infeasible:
		if len(r.Conflict) == 0 {
			fail("infeasible without a conflict")
		}
	default:
		fail("verdict %s", r.Verdict)
	}
	return string(r.Verdict)
}

// randomBrief draws values of an example anew until the format accepts it.
func randomBrief(t *testing.T, rnd *rand.Rand) specs.Brief {
	t.Helper()
	names := []string{"arm-pad-station", "reclined-levers", "cam-study"}
	wild := []float64{0.02, 0.05, 0.2, 1}[rnd.IntN(4)]
	for {
		b := solvertest.Brief(t, names[rnd.IntN(3)])
		for _, l := range specs.Leaves() {
			if rnd.Float64() > wild {
				continue
			}
			switch s, ok := b.Span(l.Path); {
			case ok && s.Whole():
				s.Set(s.Least + math.Floor(rnd.Float64()*(s.Most-s.Least+1)))
			case ok:
				s.Set(s.Least + rnd.Float64()*(s.Most-s.Least))
			case l.Path == "resistance.curve_table":
				if err := b.Set(l.Path, "15 deg 41, 30 deg 46, 60 deg 52, 105 deg 43"); err != nil {
					t.Fatal(err)
				}
			case len(l.Choices) > 0:
				if err := b.Set(l.Path, l.Choices[rnd.IntN(len(l.Choices))]); err != nil {
					t.Fatal(err)
				}
			}
		}
		b.People.Sample = 100 // for coverage alone
		order(&b)
		if b.Validate() == nil {
			return b
		}
	}
}

// order puts drawn values the right way round.
func order(b *specs.Brief) {
	p, r := &b.Posture, &b.Resistance
	for _, v := range []*specs.Range{&p.PadSlope, &p.Lean, &p.BackAngle, &p.ArmAngle, &p.PivotHeight, &p.PivotSpacing, &r.Loaded, &r.Ratio, &r.LeverRadius} {
		v.From, v.To = math.Min(v.From, v.To), math.Max(v.From, v.To)
	}
	r.LeastArm, r.GreatestArm = math.Min(r.LeastArm, r.GreatestArm), math.Max(r.LeastArm, r.GreatestArm)
	l := &r.Load
	l.Light, l.Middle = math.Min(l.Light, l.Middle), math.Max(l.Light, l.Middle)
	l.Middle, l.Heavy = math.Min(l.Middle, l.Heavy), math.Max(l.Middle, l.Heavy)
	l.Light, l.Middle = math.Min(l.Light, l.Middle), math.Max(l.Light, l.Middle)
}

// finite looks through a value for a number that is not finite.
func finite(v reflect.Value, path string) (string, bool) {
	switch v.Kind() {
	case reflect.Float64:
		return path, !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return finite(v.Elem(), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if where, ok := finite(v.Field(i), path+"."+v.Type().Field(i).Name); !ok {
					return where, false
				}
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where, ok := finite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); !ok {
				return where, false
			}
		}
	}
	return "", true
}
