package report

import (
	"slices"
	"strings"
)

// Short is the name of a boundary person without what it stands for: "woman 22" of
// "woman 22 (-size +trunk)". Any other name stays as it is.
func Short(label string) string {
	name, _, ok := cutLabel(label)
	if !ok {
		return label
	}
	return name
}

// Meaning tells what a boundary person stands for in plain words, empty of any other
// name.
func Meaning(label string) string {
	_, signs, ok := cutLabel(label)
	if !ok {
		return ""
	}
	var words []string
	for _, sign := range strings.Fields(signs) {
		words = append(words, meanings()[sign])
	}
	return strings.Join(words, ", ")
}

// meanings are the directions in which boundary persons lie, in plain words.
func meanings() map[string]string {
	return map[string]string{
		"centre": "middling in all",
		"-size":  "small", "+size": "large",
		"-length": "short-legged", "+length": "long-legged",
		"-trunk": "short trunk", "+trunk": "long trunk",
		"-carrying": "straight elbow", "+carrying": "wide carrying angle",
	}
}

// cutLabel cuts the label of a boundary person into its name and its signs.
func cutLabel(label string) (name, signs string, ok bool) {
	name, rest, found := strings.Cut(label, " (")
	signs, closed := strings.CutSuffix(rest, ")")
	if !found || !closed {
		return "", "", false
	}
	for _, sign := range strings.Fields(signs) {
		if meanings()[sign] == "" {
			return "", "", false
		}
	}
	return name, signs, true
}

// Key explains the names of boundary persons that stand in a list of labels, each
// once, in the order of the labels.
func Key(labels []string) []string {
	var list []string
	for _, l := range labels {
		if m := Meaning(l); m != "" && !slices.Contains(list, Short(l)+": "+m) {
			list = append(list, Short(l)+": "+m)
		}
	}
	return list
}
