package specs

// Names are the names a brief may use for things described elsewhere.
type Names struct {
	Curves   []string // strength curves
	Members  []string // tubes
	Cables   []string
	Bearings []string
}

// list is the list a names tag speaks of.
func (n Names) list(tag string) []string {
	switch tag {
	case "curves":
		return n.Curves
	case "members":
		return n.Members
	case "cables":
		return n.Cables
	case "bearings":
		return n.Bearings
	}
	panic("specs: no list of names called " + tag)
}

// KnownNames returns the names that this program knows.
func KnownNames() Names { return Names{} }
