package require

// Phrase is a few words of the trade, a case or a part, with figures in them: each %s
// of Words stands for one of Figures, which are written in the units of whoever reads
// them.
type Phrase struct {
	Words   string
	Figures []Figure
}

// Name is a phrase without figures.
func Name(words string) Phrase { return Phrase{Words: words} }

// Then is the phrase with another after it.
func (p Phrase) Then(q Phrase) Phrase {
	figures := p.Figures
	if len(q.Figures) > 0 {
		figures = append(figures[:len(figures):len(figures)], q.Figures...)
	}
	return Phrase{p.Words + q.Words, figures}
}

// Figure is a number in a phrase.
type Figure struct {
	Value    float64
	Unit     string // mm, kg or N; "" for none
	Measured bool   // a result, with its decimals; else a size to buy or to set
}
