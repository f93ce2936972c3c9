package terminal

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWidth(t *testing.T) {
	for columns, want := range map[int]int{0: 100, -1: 100, 20: 60, 60: 60, 77: 77, 200: 200, 1000: 200} {
		if got := Width(columns); got != want {
			t.Errorf("%d columns: %d, want %d", columns, got, want)
		}
	}
}

func TestCount(t *testing.T) {
	for s, want := range map[string]int{"": 0, "met": 3, "\x1b[32mmet\x1b[0m": 3, "N·m": 3, "\x1b[1;31mNOT MET\x1b[0m now": 11} {
		if got := Count(s); got != want {
			t.Errorf("%q: %d, want %d", s, got, want)
		}
	}
}

func TestTable(t *testing.T) {
	table := Table{
		Head:  []string{"", "governing person", "value"},
		Right: []bool{false, false, true},
		Rows:  [][]string{{"met", "woman 02, over the rear, at 130 deg", "12.5 mm"}, {"NOT MET", "nobody", "1 mm"}},
	}
	for width, want := range map[int]string{
		60: "         governing person                       value\n" +
			"met      woman 02, over the rear, at 130 deg  12.5 mm\n" +
			"NOT MET  nobody                                  1 mm",
		40: "         governing person          value\n" +
			"met      woman 02, over the      12.5 mm\n" +
			"         rear, at 130 deg\n" +
			"NOT MET  nobody                     1 mm",
		25: "met: governing person\n  woman 02, over the\n  rear, at 130 deg, value\n  12.5 mm\nNOT MET: governing\n  person nobody, value\n  1 mm",
	} {
		if got := strings.Join(table.Lines(width), "\n"); got != want {
			t.Errorf("in %d:\n%s\nwant\n%s", width, got, want)
		}
	}
}

// However narrow, nothing is lost and no line is too long.
func TestTableKeepsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "columns")
		word := rapid.StringMatching(`[a-z0-9·]{1,9}( [a-z]{1,9}){0,4}`)
		table := Table{Head: rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,9}`), n, n).Draw(t, "head"), Right: rapid.SliceOfN(rapid.Bool(), n, n).Draw(t, "right")}
		for range rapid.IntRange(1, 5).Draw(t, "rows") {
			table.Rows = append(table.Rows, rapid.SliceOfN(word, n, n).Draw(t, "row"))
		}
		width := rapid.IntRange(Least, Most).Draw(t, "width")
		lines := table.Lines(width)
		var words []string
		for _, l := range lines {
			if Count(l) > width {
				t.Fatalf("%d characters of %d: %s", Count(l), width, l)
			}
			words = append(words, strings.FieldsFunc(l, func(r rune) bool { return r == ' ' || r == ',' || r == ':' })...)
		}
		for _, r := range table.Rows {
			for _, w := range strings.Fields(strings.Join(r, " ")) {
				i := slices.Index(words, w)
				if i < 0 {
					t.Fatalf("%q is lost in\n%s", w, strings.Join(lines, "\n"))
				}
				words = slices.Delete(words, i, i+1)
			}
		}
	})
}

func TestIndent(t *testing.T) {
	got := strings.Join(Indent("note: ", Wrap("a few words", 5)), "|")
	if want := "note: a few|      words"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestNumbersKeepTheirUnits(t *testing.T) {
	for _, c := range []struct {
		s     string
		width int
		want  string
	}{
		{"it is 12.5 mm long", 9, "it is|12.5 mm|long"},
		{"room (-3 %, of it)", 9, "room|(-3 %, of|it)"},
		{"1 misses it", 8, "1 misses|it"},
	} {
		if got := strings.Join(Wrap(c.s, c.width), "|"); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
