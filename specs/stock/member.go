package stock

import (
	"fmt"
	"slices"
	"strconv"
	"sync"
)

// Member returns the tube with a name of MemberNames, as "60x40x3" (mm) or
// "2x2x0.125in", or an *UnknownError.
func Member(name string) (Section, error) { return find("tube", name, members()) }

// MemberNames returns the names of the tubes that a station is built from: square
// ones in mm, then in inches, each by size and wall. Stock knows rectangular tubes
// too, which have no name here: nothing says yet which way one lies.
func MemberNames() []string {
	return names(slices.DeleteFunc(slices.Clone(members()), func(s Section) bool { return !s.Square() }))
}

// members is made once and never changed.
var members = sync.OnceValue(func() []Section { return append(metricMembers(), inchMembers()...) })

// metricMembers returns common sizes of cold-formed hollow sections to EN
// 10219-2 (sizes M), corner radii 2t and t.
func metricMembers() []Section {
	var list []Section
	for _, size := range []struct {
		h, b  float64
		walls []float64
	}{
		{20, 20, []float64{2}},
		{25, 25, []float64{2, 2.5, 3}},
		{30, 30, []float64{2, 2.5, 3}},
		{40, 40, []float64{2, 2.5, 3, 4}},
		{50, 50, []float64{2, 2.5, 3, 4, 5}},
		{60, 60, []float64{2, 2.5, 3, 4, 5, 6}},
		{70, 70, []float64{3, 4, 5}},
		{80, 80, []float64{3, 4, 5, 6}},
		{90, 90, []float64{3, 4, 5, 6}},
		{100, 100, []float64{3, 4, 5, 6}},
		{40, 20, []float64{2, 2.5, 3}},
		{50, 30, []float64{2, 2.5, 3, 4}},
		{60, 40, []float64{2, 2.5, 3, 4, 5}},
		{80, 40, []float64{2, 2.5, 3, 4, 5}},
		{80, 60, []float64{3, 4, 5}},
		{90, 50, []float64{3, 4, 5}},
		{100, 50, []float64{3, 4, 5, 6}},
		{100, 60, []float64{3, 4, 5, 6}},
		{120, 60, []float64{3, 4, 5, 6}},
		{120, 80, []float64{3, 4, 5, 6}},
	} {
		for _, t := range size.walls {
			s := hollow(size.b, size.h, t, 2*t, t)
			s.Name = fmt.Sprintf("%gx%gx%g", size.h, size.b, t)
			s.Source = "EN 10219-2 sizes, properties by its annex B"
			s.Mark = "M, D"
			list = append(list, s)
		}
	}
	return list
}

// inchMembers returns common inch sections. Structural walls (1/8, 3/16 and
// 1/4 in) count with the smaller design wall in all properties but mass, as
// the American tables do; sheet-gauge walls count in full.
func inchMembers() []Section {
	walls := []struct {
		nominal string // in
		design  float64
		source  string
	}{
		{"0.083", 0.083, "14-gauge tube, full wall"},
		{"0.120", 0.120, "11-gauge tube, full wall"},
		{"0.125", 0.116, "ASTM A500 section, design wall 0.116 in"},
		{"0.1875", 0.174, "ASTM A500 section, design wall 0.174 in"},
		{"0.25", 0.233, "ASTM A500 section, design wall 0.233 in"},
	}
	var list []Section
	for _, size := range []struct{ h, b float64 }{
		{1.5, 1.5}, {2, 2}, {2.5, 2.5}, {3, 3}, {4, 4}, {2, 1}, {3, 1.5}, {3, 2}, {4, 2},
	} {
		for _, wall := range walls {
			nominal, err := strconv.ParseFloat(wall.nominal, 64)
			if err != nil {
				panic(err)
			}
			thick := nominal > 0.2 && size.b < 2
			thin := nominal < 0.1 && size.h > 2
			if thick || thin {
				continue // not rolled
			}
			t := wall.design * inch
			s := hollow(size.b*inch, size.h*inch, t, 2*t, t)
			full := nominal * inch
			s.Full, s.Mass = full, hollow(s.B, s.H, full, 2*full, full).Mass
			s.Name = fmt.Sprintf("%gx%gx%sin", size.h, size.b, wall.nominal)
			s.Source = wall.source
			s.Mark = "M, D"
			list = append(list, s)
		}
	}
	return list
}
