package main

import (
	"strings"
	"testing"
)

// studyFrame is a short frame of a cam on the bench.
const studyFrame = `armwright: frame/1
name: Study
kind: cam-study
resistance:
  load: {light: 5 kg, middle: 20 kg, heavy: 40 kg}
  loaded: 10 deg..125 deg
  sheave_radius: 40 mm
  ratio: 1..1
limits: {torque_match: 20 %}
geometry:
  pivots: {height: 900 mm, spacing: 400 mm, axes: [{toe: 0 deg, cant: 0 deg}]}
  handle: {least: 327 mm, pitch: 10 mm, positions: 1, middle: 0 mm, grip_length: 114 mm, diameter: 32 mm, arm_mass: 2.6 kg, arm_centre: 158 mm}
  cam:
    ratio: 1
    centre_x: 0 mm
    centre_y: 0 mm
    guide_x: 0 mm
    guide_y: -300 mm
    guide_radius: 40 mm
    side: open
    moment_arm: [39.8659 mm, 47.8726 mm, 57.6607 mm, 69.9275 mm, 81.2322 mm, 90.3633 mm, 97.1496 mm, 101.595 mm, 103.8206 mm, 104.0142 mm, 102.3925 mm, 99.1783 mm, 94.5893 mm]
`

// seatedFrame is a short frame of a station with an arm pad.
const seatedFrame = `armwright: frame/1
name: Station
kind: arm-pad
people: {sample: 100}
resistance:
  load: {light: 10 kg, middle: 40 kg, heavy: 80 kg}
  ratio: 1.5..1.5
geometry:
  pivots: {height: 817 mm, spacing: 427 mm, axes: [{toe: 9.5 deg, cant: 9 deg}, {toe: 14.5 deg, cant: 13.8 deg}]}
  pad: {slope: 43 deg, offset: 55 mm, near: 40 mm, far: 215 mm, width: 120 mm}
  seat: {lowest: 415 mm, pitch: 20 mm, positions: 6, front: 61 mm, depth: 400 mm, width: 360 mm}
  handle: {least: 266 mm, pitch: 10 mm, positions: 10, middle: 31 mm, grip_length: 148 mm, diameter: 32 mm, arm_mass: 2.7 kg, arm_centre: 172 mm}
  cam:
    ratio: 1.5
    centre_x: 118 mm
    centre_y: -92 mm
    guide_x: -303 mm
    guide_y: -144 mm
    guide_radius: 48 mm
    side: open
    moment_arm: [51 mm, 61 mm, 70 mm, 79 mm, 89 mm, 101 mm, 112 mm, 120 mm, 124 mm, 123 mm, 117 mm, 107 mm, 94 mm, 79 mm]
  base: {rear: -199 mm, front: 527 mm, width: 540 mm, pad_post: 60 mm, seat_post: -139 mm, tower: 427 mm, tower_height: 954 mm}
`

// The frames that the cases spoil are sound themselves.
func TestFramesToSpoilAreSound(t *testing.T) {
	for name, text := range map[string]string{"study": studyFrame, "seated": seatedFrame} {
		s, _, stderr := testStreams(text)
		if code := exitCode(run(s, []string{"check", "-", "--quiet"})); code != exitMet && code != exitNotMet {
			t.Errorf("%s: exit %d, %s", name, code, stderr)
		}
	}
}

// badFrames are frames that describe no station.
func badFrames(t *testing.T) []badCase {
	frame := func(name, text string) badCase {
		return badCase{name: "frame: " + name, args: "check f.yaml", files: map[string]string{"f.yaml": text}, code: exitInvalid, place: "f.yaml"}
	}
	spoilt := func(name, base, old, text string) badCase {
		if !strings.Contains(base, old) {
			t.Fatalf("%s: the frame has no %q", name, old)
		}
		return frame(name, strings.Replace(base, old, text, 1))
	}
	line := func(base, key string) string { // of a key, whole
		from := strings.Index(base, "  "+key+":")
		to := strings.Index(base[from:], "\n")
		return base[from : from+to+1]
	}
	law := studyFrame[strings.Index(studyFrame, "[3") : strings.Index(studyFrame, "mm]\n")+3]
	cam := studyFrame[strings.Index(studyFrame, "  cam:"):]
	return []badCase{
		frame("empty", ""),
		frame("a brief", leastBrief),
		frame("report of a run", `{"schema": "armwright/report/1", "verdict": "met"}`),
		frame("binary", "PK\x03\x04"),
		spoilt("no geometry", studyFrame, studyFrame[strings.Index(studyFrame, "geometry"):], ""),
		spoilt("no pivots", studyFrame, line(studyFrame, "pivots"), ""),
		spoilt("no pad", seatedFrame, line(seatedFrame, "pad"), ""),
		spoilt("no seat", seatedFrame, line(seatedFrame, "seat"), ""),
		spoilt("no cam", studyFrame, cam, ""),
		spoilt("no back pad", seatedFrame, "arm-pad", "reclined"),
		spoilt("cam where a lever is due", seatedFrame, "  ratio: 1.5..1.5", "  drive: lever"),
		spoilt("no axis position", studyFrame, "[{toe: 0 deg, cant: 0 deg}]", "[]"),
		spoilt("too many axis positions", studyFrame, "[{toe: 0 deg, cant: 0 deg}]", "["+strings.Repeat("{toe: 0 deg, cant: 0 deg}, ", 9)+"]"),
		spoilt("axis position that is no section", studyFrame, "[{toe: 0 deg, cant: 0 deg}]", "[12 deg]"),
		spoilt("half an axis position", studyFrame, "{toe: 0 deg, cant: 0 deg}", "{toe: 0 deg}"),
		spoilt("toe out of range", studyFrame, "toe: 0 deg", "toe: 60 deg"),
		spoilt("toe not a number", studyFrame, "toe: 0 deg", "toe: .nan"),
		spoilt("height without a unit", studyFrame, "height: 900 mm", "height: 900"),
		spoilt("pad upside down", seatedFrame, "near: 40 mm, far: 215 mm", "near: 215 mm, far: 40 mm"),
		spoilt("ratio of zero", studyFrame, "    ratio: 1\n", "    ratio: 0\n"),
		spoilt("ratio negative", studyFrame, "    ratio: 1\n", "    ratio: -1\n"),
		spoilt("moment arms too few", studyFrame, law, "[40 mm, 48 mm]"),
		spoilt("moment arms too many", studyFrame, law, "["+strings.Repeat("95 mm, ", 1000)+"95 mm]"),
		spoilt("moment arm negative", studyFrame, "[39.8659 mm", "[-39.8659 mm"),
		spoilt("moment arm in another unit", studyFrame, "[39.8659 mm", "[39.8659 deg"),
		spoilt("moment arm is one value", studyFrame, law, "90 mm"),
		spoilt("cam that crosses itself", studyFrame, "[39.8659 mm, 47.8726 mm, 57.6607 mm, 69.9275 mm", "[490 mm, 10 mm, 490 mm, 10 mm"),
		spoilt("guide sheave within the cam", studyFrame, "guide_y: -300 mm", "guide_y: -30 mm"),
		spoilt("guide sheave at the cam's axis", studyFrame, "guide_y: -300 mm", "guide_y: 0 mm"),
		spoilt("positions as a quantity", studyFrame, "positions: 1,", "positions: 1 mm,"),
		spoilt("unknown part", studyFrame, "  cam:\n", "  winch: {}\n  cam:\n"),
	}
}

// badPersons are tables of measured persons that cannot be used.
func badPersons(t *testing.T) []badCase {
	table := func(name, text string) badCase {
		return badCase{name: "persons: " + name, args: "check f.yaml --people p.csv --list out.csv",
			files: map[string]string{"f.yaml": seatedFrame, "p.csv": text}, code: exitInvalid, place: "p.csv"}
	}
	const head = "label,sex,stature_mm,mass_kg\n"
	row := func(name, text string) badCase { return table(name, head+"Ann,woman,1652,62\n"+text+"\n") }
	study := badCase{name: "persons: on a bench", args: "check f.yaml --people p.csv",
		files: map[string]string{"f.yaml": studyFrame, "p.csv": head + "Ann,woman,1652,62\n"}, code: exitUsage}
	zipped := table("not compressed", head)
	zipped.args = "check f.yaml --people p.csv.gz"
	zipped.files = map[string]string{"f.yaml": seatedFrame, "p.csv.gz": head}
	zipped.place = ""
	missing := table("missing", "")
	missing.files, missing.code, missing.place = map[string]string{"f.yaml": seatedFrame}, exitFailed, ""
	folder := missing
	folder.name, folder.args = "persons: a folder", "check f.yaml --people ."
	return []badCase{
		study, zipped, missing, folder,
		table("empty", ""),
		table("heading alone", head),
		table("binary", "PK\x03\x04\x00"),
		table("no heading", "Ann,woman,1652,62\n"),
		table("no sex", "label,stature_mm,mass_kg\nAnn,1652,62\n"),
		table("no stature", "label,sex,mass_kg\nAnn,woman,62\n"),
		table("no mass", "label,sex,stature_mm\nAnn,woman,1652\n"),
		table("stature twice", "sex,stature_mm,stature_cm,mass_kg\nwoman,1652,165.2,62\n"),
		table("sex twice", "sex,gender,stature_mm,mass_kg\nwoman,f,1652,62\n"),
		table("no unit", "sex,stature,mass_kg\nwoman,1652,62\n"),
		table("mass in mm", "sex,stature_mm,mass_mm\nwoman,1652,62\n"),
		row("sex unknown", "Bo,x,1700,70"),
		row("sex empty", "Bo,,1700,70"),
		row("stature a word", "Bo,man,tall,70"),
		row("stature empty", "Bo,man,,70"),
		row("stature not a number", "Bo,man,NaN,70"),
		row("stature infinite", "Bo,man,Inf,70"),
		row("stature with a unit", "Bo,man,1700 mm,70"),
		row("stature in centimetres", "Bo,man,170,70"),
		row("stature in metres", "Bo,man,1.7,70"),
		row("mass in pounds", "Bo,man,1700,1000"),
		row("mass negative", "Bo,man,1700,-70"),
		row("too few fields", "Bo,man,1700"),
		row("too many fields", "Bo,man,1700,70,5"),
		row("quote left open", "\"Bo,man,1700,70"),
		row("quote within", "B\"o\",man,1700,70"),
		table("age of an infant", "sex,age_y,stature_mm,mass_kg\nwoman,2,1652,62\n"),
		table("control characters in a heading", "sex,stature_\x1b[2J,mass_kg\nwoman,1652,62\n"),
		table("control characters in a file", "sex,stature_mm,mass_kg\nwoman\x1b[31m,1652,62\n"),
		table("a row without end", head+strings.Repeat("x", 80<<10)+",woman,1652,62\n"),
		table("decimal comma", "sex;stature_mm;mass_kg\nwoman;1652,5;62\n"),
	}
}
