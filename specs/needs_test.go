package specs

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// What a frame lacks for its drive is told at its place, with what to do. Each of
// these made a mass, a length or a torque that is not a number, or the picture of a
// part that is not there.
func TestParseFrameNeeds(t *testing.T) {
	good := string(frameText(t))
	if _, err := ParseFrame("f.yaml", []byte(good)); err != nil {
		t.Fatal(err)
	}
	const counter = "  base:"
	for _, c := range []struct{ name, old, new, want string }{
		{"driven wheel forgotten", "    driven_teeth: 24", "    # ", "geometry.cam.driven_teeth: the wheel of 36 teeth on the arm's shaft drives none"},
		{"driven wheel of none", "driven_teeth: 24", "driven_teeth: 0", "geometry.cam.driven_teeth: the wheel of 36 teeth on the arm's shaft drives none"},
		{"driving wheel forgotten", "    arm_teeth: 36", "    # ", "geometry.cam.driven_teeth: there is no wheel on the arm's shaft to drive this one"},
		{"one tooth", "driven_teeth: 24", "driven_teeth: 1", "geometry.cam.driven_teeth: a wheel of 1 teeth cannot be had"},
		{"few teeth", "arm_teeth: 36", "arm_teeth: 8", "geometry.cam.arm_teeth: a wheel of 8 teeth cannot be had"},
		{"no belt", "pitches: 120", "pitches: 0", "geometry.cam.pitches: no belt or chain joins the wheels"},
		// 36 and 24 teeth of 8 mm: pitch circles of 91.67 and 61.12 mm.
		{"wheels in one another", "centre_x: -200 mm", "centre_x: -20 mm", ""},
		{"wheels touch", "centre_x: -200 mm", "centre_x: 0 mm\n    centre_y: -76.3 mm\n    #", "geometry.cam.centre_x: the cam's axis is 76.3 mm from the arm's, where the wheels' pitch circles touch at 76.3943727 mm"},
		{"guide without radius", "guide_radius: 48 mm", "guide_radius: 0 mm", "geometry.cam.guide_radius: 0 mm is below 10 mm"},
		{"not a number", "guide_radius: 48 mm", "guide_radius: .nan", "geometry.cam.guide_radius: .nan is not a finite number"},
		{"infinite", "guide_radius: 48 mm", "guide_radius: inf mm", "geometry.cam.guide_radius: inf mm is not a finite number"},
		{"counterweight of no mass", counter, "  counterweight: {mass: 0 kg, radius: 150 mm}\n" + counter, "geometry.counterweight.mass: a weight of 0 kg is none"},
		{"eccentric of no mass", counter, "  eccentric: {mass: 0 kg, radius: 150 mm, phase: 0 deg}\n" + counter, "geometry.eccentric.mass: a weight of 0 kg is none"},
	} {
		text := strings.Replace(good, c.old, c.new, 1)
		if c.name == "wheels touch" {
			text = strings.Replace(text, "    centre_y: -300 mm", "    #", 1)
		}
		if text == good {
			t.Fatalf("%s: nothing changed", c.name)
		}
		_, err := ParseFrame("f.yaml", []byte(text))
		if c.want == "" {
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		var p *Problems
		if !errors.As(err, &p) || len(p.List) != 1 || p.List[0].Message != c.want || p.List[0].Line < 2 || p.List[0].Hint == "" {
			t.Errorf("%s: got\n%v\nwant %s with a place and a hint", c.name, err, c.want)
		}
	}
}

// A tube that is higher than wide has no way to lie yet, so it is neither taken,
// nor chosen, nor proposed.
func TestRectangularTubesRefused(t *testing.T) {
	with := func(value string) error {
		_, err := ParseBrief("b.yaml", []byte(least+value))
		return err
	}
	for _, c := range []struct{ text, want string }{
		{"stock: {member: 60x40x3}\n", `stock.member: "60x40x3" is a rectangular tube; stations are built from square ones`},
		{"choose: {member: \"60x60x3, 80x40x3\"}\n", `choose.member: "80x40x3" is a rectangular tube; stations are built from square ones`},
		{"stock: {member: 60x40x33}\n", `stock.member: "60x40x33" is not a known value`},
	} {
		var p *Problems
		if err := with(c.text); !errors.As(err, &p) || len(p.List) != 1 || !strings.HasSuffix(p.List[0].Message, c.want[strings.Index(c.want, ": ")+2:]) || p.List[0].Hint == "" {
			t.Errorf("%s: %v", c.text, err)
		} else if strings.Contains(err.Error(), "did you mean 60x40") {
			t.Errorf("a rectangular tube is proposed: %v", err)
		}
	}
	b, err := ParseBrief("b.yaml", []byte(least+"choose: {member: any}\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range b.Options()[0].Values {
		if lopsided(name) {
			t.Errorf("%s may be chosen", name)
		}
	}
}

// A file made to cost the scanner time is refused before it sees it.
func TestLongLinesRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"one character", strings.Repeat("<", 1<<20), "f.yaml:1:1: the file has 1048576 bytes; the most is 262144"},
		{"one line", "# a remark\n" + strings.Repeat("<", longestLine+1), "f.yaml:2:8194: the line is longer than 8192 bytes"},
		{"old line ends", "#\r" + strings.Repeat("<", longestLine+1), "f.yaml:1:8196: the line is longer than 8192 bytes"},
	} {
		_, err := ParseFrame("f.yaml", []byte(c.text))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	line := append(bytes.Repeat([]byte("<"), longestLine-1), '\n')
	if bad := screenBytes(bytes.Repeat(line, largestFile/longestLine)); bad != nil {
		t.Errorf("the longest lines that are allowed: %v", bad.message)
	}
}
