package specs

import (
	"reflect"
	"strings"
	"testing"
)

func TestStarter(t *testing.T) {
	for _, kind := range []string{"arm-pad", "reclined", "cam-study"} {
		text := Starter(kind)
		b, err := ParseBrief(kind, text)
		if err != nil {
			t.Error(err)
			continue
		}
		short, err := ParseBrief("least", []byte(strings.Replace(strings.Replace(least, "Station", "New station", 1), "arm-pad", kind, 1)))
		if err != nil {
			t.Fatal(err)
		}
		if b != short {
			t.Errorf("%s: the starter does not show the defaults:\n%+v\nwant\n%+v", kind, b, short)
		}
		for _, line := range strings.Split(string(text), "\n") {
			if n := len([]rune(line)); n > commentWidth {
				t.Errorf("%s: line of %d columns: %s", kind, n, line)
			}
		}
		golden(t, kind+".yaml", text)
	}
	if got := Starter("sketch"); got != nil {
		t.Errorf("a starter of a sketch: %s", got)
	}
}

// The starter names every key there is.
func TestStarterHasEveryKey(t *testing.T) {
	text := string(Starter("arm-pad"))
	var walk func(fields []field, indent string)
	walk = func(fields []field, indent string) {
		for _, f := range fields {
			if !strings.Contains(text, "\n"+indent+f.key+":") {
				t.Errorf("no %q", indent+f.key)
			}
			if s, ok := f.section(); ok {
				walk(fieldsOf(s), indent+indentStep)
			}
		}
	}
	walk(fieldsOf(reflect.TypeFor[Brief]()), "")
}

func TestLimitIndex(t *testing.T) {
	b, err := ParseBrief("b", []byte(least+"limits: {axis_offset: 1 in, torque_match: 5 %}\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		id    string
		value float64
		unit  string
		ok    bool
	}{
		{"axis-offset", 25.4, "length", true},
		{"torque-match", 0.05, "percent", true},
		{"cable-factor", 6, "", true},
		{"axis_offset", 0, "", false},
		{"footprint-length", 0, "", false},
		{"", 0, "", false},
	} {
		value, unit := 0.0, ""
		at, ok := LimitIndex(c.id)
		if ok {
			value, unit = b.Limits.At(at), reflect.TypeFor[Limits]().Field(at).Tag.Get("unit")
		}
		if value != c.value || unit != c.unit || ok != c.ok {
			t.Errorf("%q: %v, %q, %v; want %v, %q, %v", c.id, value, unit, ok, c.value, c.unit, c.ok)
		}
	}
}
