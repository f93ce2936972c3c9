package page

import (
	"fmt"
	"math"
	"strconv"

	m "armwright/export/page/markup"
	"armwright/export/report"
)

// texts are the parts of the page that are told in words.
func texts(r *report.Report, figures []figure, solved bool) parts {
	return parts{
		Verdict:  string(verdict(r)),
		Head:     string(head(r, figures, solved)),
		Conflict: string(conflict(r)),
		Held:     string(held(r)),
		Table:    string(requirements(r)),
	}
}

func verdict(r *report.Report) m.HTML {
	return verdictWord(r.Verdict == "met", report.VerdictWord(r.Verdict))
}

// verdictWord is a word in the colour of what is met, or of what failed.
func verdictWord(met bool, word string) m.HTML {
	class := "failed"
	if met {
		class = "met"
	}
	return m.Element("span", m.Attributes{"class", class}, m.Text(word))
}

func head(r *report.Report, figures []figure, solved bool) m.HTML {
	rows := m.Each(figures, func(f figure) m.HTML {
		of := m.Off
		if f.Requirement != "" {
			of = f.Requirement
		}
		return m.Element("li", nil, m.Element("span", nil, m.Text(f.Name)), m.Text(" "), m.Element("b", m.Attributes{"data-requirement", of}, m.Text(f.Text)))
	})
	sentence := m.Text(r.Summary)
	if !solved {
		sentence = m.Join(sentence, m.Text(" "), soft("Judged on the geometry at hand, not solved; who of a crowd fits is told after solving."))
	}
	out := m.Join(m.Element("ul", m.Attributes{"class", "figures"}, rows), m.Text("\n"), m.Element("p", nil, sentence))
	if len(r.Beyond()) > 0 {
		out = m.Join(out, m.Text("\n"), m.Element("p", m.Attributes{"class", "failed"}, m.Text("Beyond a stated limit of protection")),
			m.Element("ul", nil, m.Each(r.Beyond(), func(p report.Protection) m.HTML { return m.Element("li", nil, m.Text(p.Tell(r.Units))) })))
	}
	if len(r.Notes) == 0 {
		return out
	}
	return m.Join(out, m.Text("\n"), m.Element("details", m.Attributes{"class", "notes"},
		m.Element("summary", nil, m.Text(fmt.Sprintf("Notes (%d)", len(r.Notes)))),
		m.Element("ul", m.Attributes{"class", "soft"}, m.Each(r.Notes, func(s string) m.HTML { return m.Element("li", nil, m.Text(s)) }))))
}

func soft(s string) m.HTML { return m.Element("span", m.Attributes{"class", "soft"}, m.Text(s)) }

func conflict(r *report.Report) m.HTML {
	if len(r.Conflict) == 0 {
		return ""
	}
	rows := m.Each(r.Conflict, func(c report.Conflict) m.HTML {
		told := ": " + c.Advice
		if c.Excess != 0 {
			told = " fails by " + r.Units.Figure(c.Excess, c.Unit) + told
		}
		row := m.Join(m.Element("b", nil, m.Text(c.ID)), m.Text(told))
		if c.Needed {
			row = m.Join(row, m.Text(" "), soft("One of those that cannot hold together."))
		}
		return m.Element("li", nil, row)
	})
	proofs := m.Each(r.Proofs, func(p report.Proof) m.HTML {
		return m.Element("p", nil, m.Text(fmt.Sprintf("Proved for every station: %s: %s against %s.", p.Reason, r.Units.Figure(p.Needed, p.Unit), r.Units.Figure(p.Allowed, p.Unit))))
	})
	return m.Join(m.Element("h3", nil, m.Text("What conflicts, and the cheapest way out")), m.Text("\n"),
		m.Element("ul", m.Attributes{"class", "conflict"}, rows), m.Text("\n"), proofs)
}

func held(r *report.Report) m.HTML {
	if len(r.Trades) == 0 {
		return ""
	}
	return m.Join(m.Element("h3", nil, m.Text("What holds the design back")), m.Text("\n"),
		m.Element("ul", nil, m.Each(r.Trades, func(t report.Trade) m.HTML { return m.Element("li", nil, m.Text(t.Sentence)) })))
}

func requirements(r *report.Report) m.HTML {
	rows := m.Each(r.Requirements, func(q report.Requirement) m.HTML {
		class, word := "fails", "not met"
		if q.Met {
			class, word = "holds", "met"
		}
		asks := q.Asks
		if of := report.Governing(q); of != "" {
			asks += "; " + of
		}
		return m.Element("li", m.Attributes{"class", class},
			verdictWord(q.Met, word), m.Text(" "), m.Element("b", nil, m.Text(q.ID)), m.Text(" "),
			m.Element("span", m.Attributes{"class", "n"}, m.Text(r.Units.Figure(q.Value, q.Unit)+", "+q.Sense+" "+r.Units.Figure(q.Limit, q.Unit))), m.Text("\n"),
			bar(q), m.Text("\n"), soft(asks))
	})
	return m.Join(m.Element("h3", nil, m.Text("Requirements")), m.Text("\n"), m.Element("ul", m.Attributes{"class", "asked"}, rows))
}

// bar shows the margin of a requirement in units that matter, the middle being just met.
func bar(q report.Requirement) m.HTML {
	class := "bad"
	if q.Met {
		class = "good"
	}
	end := strconv.FormatFloat(0.5+0.5*math.Tanh(q.Margin/q.Scale/5), 'f', 3, 64)
	return m.Element("svg", m.Attributes{"class", "room", "viewBox", "0 0 1 0.2", "aria-hidden", "true"},
		m.Element("path", m.Attributes{"d", "M0.5 0V0.2"}), m.Element("path", m.Attributes{"class", class, "d", "M0.5 0.1H" + end}))
}
