package people

import (
	"bytes"
	"errors"
	"math"
	"testing"
)

// FuzzReader demands that whatever the bytes, the reader of measured persons
// never panics, tells what is wrong with a place and a hint, and yields whole
// persons only.
func FuzzReader(f *testing.F) {
	for _, s := range []string{
		"label,sex,age_y,stature_mm,mass_kg,sitting_height_mm,carrying_angle_deg\nA,woman,31,1651,63.5,863.6,14\n",
		"\ufeffLabel;Gender;Age;Height (in);Weight [lb];Sitting height, cm\r\nA;F;31;65;140;86.36\r\n",
		"sex\tstature m\tmass-kg\nfemale\t1.651\t63.5\nx\t\tNaN\n",
		"gender,stature,weightkg,sittingheight,acromialheight,Weightlbs\nMale,1750,850,920,1440,187\n",
		"sex,stature_mm,mass_kg\nm,1750,1e999\nm,1750\nm,-Inf,80\n\"m,1750,80\n",
		"sex,stature_mm,stature_cm\n", ",,,\n", "", "\x00", "sex;sex\n",
	} {
		f.Add([]byte(s))
	}
	population := Population{Source: "survey", Carrying: DefaultCarrying(), Age: 40, Women: 0.5}
	told := func(t *testing.T, err error) {
		var row *RowError
		if !errors.As(err, &row) || row.Line < 1 || row.Column < 1 || row.What == "" || row.Advice == "" {
			t.Fatalf("error without a place or a hint: %#v", err)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := NewReader("crew.csv", bytes.NewReader(data), population, 1)
		if err != nil {
			told(t, err)
			return
		}
		seen := 0
		for p, err := range r.All() {
			if err != nil {
				told(t, err)
				continue
			}
			seen++
			for _, d := range dimensions() {
				if x := *d.field(&p); math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%s of %q is %g", d.name, p.Label, x)
				}
			}
			if math.IsNaN(p.CarryingAngle) || p.Label == "" {
				t.Fatalf("half a person: %+v", p)
			}
		}
		if rows, bad, _ := r.Rows(); rows-bad != seen {
			t.Fatalf("%d of %d rows are bad, but %d persons came", bad, rows, seen)
		}
	})
}
