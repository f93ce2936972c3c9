package terminal

import "strings"

// Table is a table of texts. Where its terminal is too narrow for it, heads are broken
// first, then the widest columns of words; a table of figures that is still too wide
// becomes a list, a row an entry, each cell with its head.
type Table struct {
	Head  []string // of the columns, empty for one without; nil for none at all
	Right []bool   // columns of figures, which stand at the right and are not broken
	Rows  [][]string
}

const (
	apart    = 2  // between columns
	narrowed = 14 // the least that a column of words is narrowed to, if its words allow
)

// Add adds a row.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, cells) }

func (t *Table) right(i int) bool { return i < len(t.Right) && t.Right[i] }

func (t *Table) columns() int {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r))
	}
	return n
}

func longestWord(s string) int {
	n := 0
	for _, w := range strings.Fields(s) {
		n = max(n, Count(w))
	}
	return n
}

// Lines lays the table out in a width.
func (t *Table) Lines(width int) []string {
	n := t.columns()
	cells, least, wide := make([]int, n), make([]int, n), make([]int, n)
	for _, r := range t.Rows {
		for i, c := range r {
			cells[i] = max(cells[i], Count(c))
			if t.right(i) {
				least[i] = cells[i]
			} else {
				least[i] = max(least[i], longestWord(c), min(Count(c), narrowed))
			}
		}
	}
	total := apart * (n - 1)
	for i := range wide {
		wide[i] = cells[i]
		if i < len(t.Head) {
			wide[i] = max(wide[i], Count(t.Head[i]))
			least[i] = max(least[i], longestWord(t.Head[i]))
		}
		total += wide[i]
	}
	// Heads that are wider than what stands under them give way, then words do.
	for _, floor := range [][]int{cells, nil} {
		for total > width {
			widest := -1
			for i := range wide {
				low := least[i]
				if floor != nil {
					low = max(low, floor[i])
				}
				if wide[i] > low && (widest < 0 || wide[i] > wide[widest]) {
					widest = i
				}
			}
			if widest < 0 {
				break
			}
			wide[widest]--
			total--
		}
	}
	if total > width {
		return t.list(width)
	}
	var out []string
	if t.Head != nil {
		head := t.row(t.Head, wide)
		out = append(out, head...)
	}
	for _, r := range t.Rows {
		out = append(out, t.row(r, wide)...)
	}
	return out
}

// row is one row in columns, on as many lines as its fullest cell takes.
func (t *Table) row(cells []string, wide []int) []string {
	parts := make([][]string, len(cells))
	lines := 1
	for i, c := range cells {
		if Count(c) <= wide[i] {
			parts[i] = []string{c} // as it stands, with spaces
		} else {
			parts[i] = Wrap(c, wide[i])
		}
		lines = max(lines, len(parts[i]))
	}
	out := make([]string, lines)
	for k := range out {
		var b strings.Builder
		for i := range cells {
			s := ""
			if k < len(parts[i]) {
				s = parts[i][k]
			}
			space := strings.Repeat(" ", max(0, wide[i]-Count(s)))
			if t.right(i) {
				b.WriteString(space + s)
			} else {
				b.WriteString(s + space)
			}
			b.WriteString(strings.Repeat(" ", apart))
		}
		out[k] = strings.TrimRight(b.String(), " ")
	}
	return out
}

// list is the table as a list.
func (t *Table) list(width int) []string {
	var out []string
	for _, r := range t.Rows {
		var name []string
		var told []string
		for i, c := range r {
			head := ""
			if i < len(t.Head) {
				head = t.Head[i]
			}
			switch {
			case strings.TrimSpace(c) == "":
			case len(told) == 0 && (head == "" || len(name) == 0):
				name = append(name, strings.TrimSpace(c))
			case head == "":
				told = append(told, c)
			default:
				told = append(told, head+" "+c)
			}
		}
		s := strings.Join(name, " ")
		if len(told) > 0 {
			s += ": " + strings.Join(told, ", ")
		}
		const hang = "  "
		lines := Wrap(s, width-len(hang))
		for i := range lines {
			if i > 0 {
				lines[i] = hang + lines[i]
			}
		}
		out = append(out, lines...)
	}
	return out
}
