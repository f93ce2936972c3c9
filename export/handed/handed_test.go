package handed_test

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/folder"
	"armwright/export/handed"
	"armwright/export/output"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/fit"
	"armwright/specs"
	"armwright/testdata"
)

// All files of a station that was handed over are those of the station.
func TestFilesAreTheSame(t *testing.T) {
	for name, edit := range map[string]func(*specs.Brief){
		"cam-study":       func(*specs.Brief) {},
		"arm-pad-station": func(*specs.Brief) {},
		"conflict":        func(b *specs.Brief) { b.Space.Length = 700 },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			example := name
			if name != "cam-study" { // the quickest
				testdata.Long(t)
			}
			if name == "conflict" {
				example = "reclined-levers"
			}
			b := brief(t, example)
			edit(&b)
			r, err := solver.Solve(context.Background(), b, nil)
			if err != nil {
				t.Fatal(err)
			}
			want := files(t, r)
			data, err := handed.Write(r)
			if err != nil {
				t.Fatal(err)
			}
			again, err := handed.Read(data)
			if err != nil {
				t.Fatal(err)
			}
			got := files(t, again)
			if len(got) != len(want) {
				t.Fatalf("%d files, want %d", len(got), len(want))
			}
			for i, f := range got {
				if f.Path != want[i].Path || !bytes.Equal(f.Data, want[i].Data) {
					t.Errorf("%s is not %s", f.Path, want[i].Path)
				}
			}
		})
	}
}

func brief(t *testing.T, name string) specs.Brief {
	t.Helper()
	data, err := specs.Examples.ReadFile("examples/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	b, err := specs.ParseBrief(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func files(t *testing.T, r *solver.Result) []folder.File {
	t.Helper()
	out, _, err := output.Files(r, "armwright", draw.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Why a combination has no station is told by an error of some type; its words arrive.
func TestReasonsArrive(t *testing.T) {
	b := brief(t, "cam-study")
	r, err := solver.Solve(context.Background(), b, &fit.Options{Terse: true})
	if err != nil {
		t.Fatal(err)
	}
	why := errors.New("no wheel has so few teeth")
	r.Choices = []fit.Choice{{Fate: fit.Missed, Why: fit.Why{Unmade: why}}, {Fate: fit.Chosen}}
	data, err := handed.Write(r)
	if err != nil {
		t.Fatal(err)
	}
	if r.Choices[0].Why.Unmade != why {
		t.Error("the station handed over has changed")
	}
	again, err := handed.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	if got := again.Choices[0].Why.Unmade; got == nil || got.Error() != why.Error() {
		t.Errorf("arrived: %v", got)
	}
	if got := again.Choices[1].Why.Unmade; got != nil {
		t.Errorf("arrived for one without: %v", got)
	}
}

func TestRefused(t *testing.T) {
	if _, err := handed.Write(&solver.Result{Solution: fit.Solution{NoStation: &drive.CamError{}}}); err == nil {
		t.Error("a result without a station is handed over")
	}
	for _, text := range []string{"", "{}", `{"Frame": "armwright: frame/1"}`, `{"Frame": "", "Unmade": ["a"]}`, strings.Repeat("[", 100)} {
		if _, err := handed.Read([]byte(text)); err == nil {
			t.Errorf("%.40q is read", text)
		}
	}
}
