package specs

import "testing"

func TestSet(t *testing.T) {
	b, err := ParseBrief("b.yaml", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	want := b
	want.Limits.HandPath = 25.4
	want.Posture.Lean = Range{0, 0.5}
	want.People.Sample = 500
	want.Kind = "reclined"
	for path, text := range map[string]string{
		"limits.hand_path": "1 in", "posture.lean.to": "0.5 rad", "people.sample": "500", "kind": "reclined",
	} {
		if err := b.Set(path, text); err != nil {
			t.Error(err)
		}
	}
	if b != want {
		t.Errorf("got %+v\nwant %+v", b, want)
	}
	for _, c := range []struct{ path, text, want string }{
		{"limits.hand_pth", "1 in", "unknown key \"hand_pth\" in limits\n  hint: did you mean hand_path?"},
		{"limits.hand_path", "1", "limits.hand_path: 1 has no unit\n  hint: write 1 mm or 1 in"},
		{"resistance.load", "1 kg", "resistance.load: holds keys, not a value\n  hint: keys here: light, middle, heavy"},
		{"kind.of", "x", "kind: holds a value, not keys"},
		{"", "x", "unknown key \"\"\n  hint: keys here: armwright, name, kind, region, people, posture, resistance, space, stock, limits, drawing, minimise, choose"},
	} {
		if err := b.Set(c.path, c.text); err == nil || err.Error() != c.want {
			t.Errorf("Set(%q, %q): %v, want %s", c.path, c.text, err, c.want)
		}
	}
	if b != want {
		t.Error("a refused text changed the brief")
	}
}
