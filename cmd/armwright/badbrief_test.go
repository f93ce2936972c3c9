package main

import "strings"

// leastBrief is the shortest brief there is.
const leastBrief = `armwright: brief/1
name: Station
kind: arm-pad
resistance:
  load: {light: 10 kg, middle: 40 kg, heavy: 80 kg}
`

// brief is a bad brief, by itself.
func brief(name, text string) badCase {
	return badCase{name: "brief: " + name, args: "design b.yaml --out out", files: map[string]string{"b.yaml": text}, code: exitInvalid, place: "b.yaml"}
}

// more is the shortest brief with lines added.
func more(name, lines string) badCase { return brief(name, leastBrief+lines) }

// edited is the shortest brief with a text replaced.
func edited(name, old, text string) badCase {
	if !strings.Contains(leastBrief, old) {
		panic("the brief has no " + old)
	}
	return brief(name, strings.Replace(leastBrief, old, text, 1))
}

// badBytes are files that are no text at all.
func badBytes() []badCase {
	return []badCase{
		brief("empty", ""),
		brief("blank", " \n\n  \n"),
		brief("byte order mark alone", "\ufeff"),
		brief("comments alone", "# to be filled in\n# later\n"),
		brief("archive", "PK\x03\x04\x14\x00\x00\x00\x08\x00"),
		brief("program", "\x7fELF\x02\x01\x01\x00"),
		brief("picture", "\x89PNG\r\n\x1a\n\x00\x00"),
		brief("compressed", "\x1f\x8b\x08\x00\x00\x00"),
		brief("zeros", strings.Repeat("\x00", 4096)),
		brief("UTF-16", "\xff\xfea\x00r\x00m\x00"),
		brief("UTF-16 without a mark", "a\x00r\x00m\x00w\x00"),
		brief("Latin-1", leastBrief+"drawing: {owner: Gr\xf6\xdfe}\n"),
		brief("cut within a character", leastBrief+"drawing: {owner: \"Gr\xc3"),
		brief("escape sequence", leastBrief+"# \x1b[31mred\n"),
		brief("delete character", leastBrief+"# \x7f\n"),
		brief("bell in a name", strings.Replace(leastBrief, "Station", "Sta\x07tion", 1)),
		brief("a byte too large", strings.Repeat("#", 1<<20+1)),
		brief("huge", strings.Repeat("# nothing but a remark\n", 1<<20)),
		{name: "brief: empty stdin", args: "design - --out out", code: exitInvalid, place: "stdin"},
		{name: "brief: huge stdin", args: "design - --out out", stdin: strings.Repeat("x", 5<<20), code: exitInvalid, place: "stdin"},
	}
}

// badYAML are texts that are no YAML, or more of it than a brief has use for.
func badYAML() []badCase {
	return []badCase{
		brief("null", "~\n"),
		brief("word", "station\n"),
		brief("number", "42\n"),
		brief("list", "- armwright: brief/1\n- name: x\n"),
		brief("document marks alone", "---\n...\n"),
		brief("two documents", leastBrief+"---\n"+leastBrief),
		brief("alias bomb", "a: &a [lol, lol, lol, lol]\nb: &b [*a, *a, *a, *a]\nc: &c [*b, *b, *b, *b]\nd: [*c, *c, *c, *c]\n"),
		brief("alias to itself", "a: &a [*a]\n"),
		brief("anchor without alias", strings.Replace(leastBrief, "Station", "&n Station", 1)),
		brief("merge key", leastBrief+"space:\n  <<: {width: 1 m}\n"),
		brief("tag", strings.Replace(leastBrief, "Station", "!!binary aGFsbG8=", 1)),
		brief("tag of a language's object", "!!python/object/apply:os.system ['true']\n"),
		brief("directive", "%YAML 1.1\n---\n"+leastBrief),
		brief("explicit key", leastBrief+"? space\n: {width: 1 m}\n"),
		brief("block text", strings.Replace(leastBrief, "Station", "|\n  Station", 1)),
		brief("folded text", strings.Replace(leastBrief, "Station", ">\n  Station", 1)),
		brief("deep brackets", "name: "+strings.Repeat("[", 8000)),
		brief("deep braces", "name: "+strings.Repeat("{a: ", 2000)),
		brief("deep dashes", strings.Repeat("- ", 4000)),
		brief("deep indentation", deepIndentation(100)),
		brief("endless list", "a:\n"+strings.Repeat("- x\n", 60000)),
		brief("endless keys", endlessKeys(30000)),
		brief("bracket left open", "name: [x\nkind: arm-pad\n"),
		brief("brace left open", leastBrief+"space: {width: 1 m\n"),
		brief("quote left open", leastBrief+"drawing: {owner: \"Me}\n"),
		brief("unknown escape", leastBrief+"drawing: {owner: \"a\\qb\"}\n"),
		brief("tab", leastBrief+"space:\n\twidth: 1 m\n"),
		brief("crooked indentation", leastBrief+"space:\n    width: 1 m\n  length: 2 m\n"),
		brief("no blank after the colon", "armwright:brief/1\nname:Station\n"),
		brief("equals signs", "armwright = brief/1\nname = Station\n"),
		brief("table of another format", "[people]\nshoe = \"25 mm\"\n"),
		brief("markup", "<?xml version=\"1.0\"?>\n<brief><name>Station</name></brief>\n"),
		brief("colon in a text", leastBrief+"drawing:\n  owner: Shop: hall 2\n"),
		brief("key twice", leastBrief+"name: Again\n"),
		brief("section twice", leastBrief+"space: {width: 1 m}\nspace: {length: 2 m}\n"),
		brief("key twice in braces", leastBrief+"space: {width: 1 m, width: 2 m}\n"),
		brief("key of many letters", leastBrief+strings.Repeat("k", 5000)+": 1\n"),
	}
}

func deepIndentation(levels int) string {
	var b strings.Builder
	for i := range levels {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func endlessKeys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("k" + strings.Repeat("x", i%7) + ": 1\n")
	}
	return b.String()
}

// badKeys are briefs with keys that are missing, unknown or of another shape.
func badKeys() []badCase {
	return []badCase{
		edited("no format", "armwright: brief/1\n", ""),
		edited("later format", "brief/1", "brief/2"),
		edited("format of a frame", "brief/1", "frame/1"),
		edited("format is a list", "brief/1", "[brief, 1]"),
		edited("no name", "name: Station\n", ""),
		edited("empty name", "Station", `""`),
		edited("blank name", "Station", `"   "`),
		edited("long name", "Station", "A station of more words than the title block takes"),
		edited("name of two lines", "Station", `"Sta\ntion"`),
		edited("name that turns the text round", "Station", "\"Sta\u202etion\""),
		edited("name is a list", "Station", "[Sta, tion]"),
		edited("no kind", "kind: arm-pad\n", ""),
		edited("unknown kind", "arm-pad", "standing"),
		edited("kind in capitals", "arm-pad", "ARM-PAD"),
		edited("no resistance", leastBrief[strings.Index(leastBrief, "resistance"):], ""),
		edited("no load", "load:", "# load:"),
		edited("half a load", ", heavy: 80 kg", ""),
		edited("load is one mass", "{light: 10 kg, middle: 40 kg, heavy: 80 kg}", "40 kg"),
		edited("load is a list", "{light: 10 kg, middle: 40 kg, heavy: 80 kg}", "[10 kg, 40 kg, 80 kg]"),
		edited("misspelt key that is needed", "kind:", "knid:"),
		more("misspelt section", "spcae: {width: 1 m}\n"),
		more("misspelt key", "space: {widht: 1 m}\n"),
		more("unknown key", "space: {colour: red}\n"),
		more("key in capitals", "Space: {width: 1 m}\n"),
		more("key of a frame", "geometry: {}\n"),
		more("key of another section", "space: {shoe: 25 mm}\n"),
		more("key is a number", "1: 2\n"),
		more("key is empty", "\"\": 2\n"),
		more("section is a value", "space: 2 m\n"),
		more("section is a list", "space:\n  - width: 1 m\n"),
		more("value is a section", "space: {width: {mm: 1000}}\n"),
		more("value is a list", "space: {width: [1 m]}\n"),
		more("nothing after the colon", "space:\n  width:\n"),
		more("tilde for nothing", "space:\n  width: ~\n"),
		more("unknown word", "drawing: {projection: second}\n"),
		more("misspelt word", "drawing: {projection: thrid}\n"),
		more("unknown tube", "stock: {member: 60x60x30}\n"),
		more("unknown cable", "stock: {cable: rope}\n"),
		more("unknown bearing", "stock: {bearing: UC999}\n"),
		more("unknown steel", "stock: {steel: S999}\n"),
		edited("unknown curve", "resistance:", "resistance:\n  curve: model-thre"),
		more("yes where a word is due", "drawing: {projection: true}\n"),
		more("no such day", "drawing: {date: 2025-02-29}\n"),
		more("date in another order", "drawing: {date: 29.02.2024}\n"),
		more("text too long", "drawing: {owner: "+strings.Repeat("x", 61)+"}\n"),
	}
}

// badQuantities are briefs with numbers, units and ranges that mean nothing.
func badQuantities() []badCase {
	shoe := func(name, value string) badCase { return more(name, "people: {shoe: "+value+"}\n") }
	lean := func(name, value string) badCase { return more(name, "posture: {lean: "+value+"}\n") }
	return []badCase{
		shoe("no unit", "25"),
		shoe("no number", "mm"),
		shoe("mass for a length", "25 kg"),
		more("length for an angle", "limits: {abduction: 25 mm}\n"),
		more("force for a mass", "stock: {max_user: 150 N}\n"),
		more("mass for a force", "space: {push: 20 kg}\n"),
		more("angle for a percentage", "people: {women: 50 deg}\n"),
		more("length for a time", "people: {age: 30 mm}\n"),
		more("unit where none is due", "limits: {cable_factor: 6 kg}\n"),
		shoe("unknown unit", "25 furlong"),
		shoe("unit in capitals", "25 MM"),
		shoe("unit twice", "25 mm mm"),
		shoe("unit first", "mm 25"),
		shoe("decimal comma", `"25,4 mm"`),
		shoe("thousands set apart", `"1,000 mm"`),
		shoe("underscore in a number", "1_0 mm"),
		shoe("hexadecimal", "0x10 mm"),
		shoe("two points", "2.5.4 mm"),
		shoe("two signs", `"--25 mm"`),
		shoe("sum", "20 mm + 5 mm"),
		shoe("foot and inch marks", `"1' 2\""`),
		shoe("division by zero", "1/0 in"),
		shoe("not a number", ".nan"),
		shoe("not a number, with unit", "NaN mm"),
		shoe("infinite", ".inf"),
		shoe("infinite, with unit", "-inf mm"),
		shoe("overflow", "1e999 mm"),
		shoe("very long number", strings.Repeat("9", 200)+" mm"),
		shoe("figures of another script", "٢٥ mm"),
		shoe("below the range", "-1 mm"),
		shoe("above the range", "61 mm"),
		shoe("just above the range", "60.0001 mm"),
		shoe("above the range in inches", "4 in"),
		shoe("empty text", `""`),
		shoe("truth value", "true"),
		shoe("date", "2025-01-01"),
		more("fraction of a count", "people: {sample: 1000.5}\n"),
		more("count with an exponent", "people: {sample: 1e3}\n"),
		more("count beyond counting", "people: {sample: 99999999999999999999}\n"),
		more("negative count", "posture: {seat_positions: -3}\n"),
		more("count of zero", "posture: {axis_positions: 0}\n"),
		more("percentage beyond the range", "people: {low: 50 %}\n"),
		lean("range swapped", "20 deg..0 deg"),
		lean("range with three points", "0 deg...20 deg"),
		lean("range with a dash", "0 deg - 20 deg"),
		lean("range of one end", "20 deg"),
		lean("range without its first end", "..20 deg"),
		lean("range without one unit", "0..20 deg"),
		lean("range beyond the least", "-5 deg..20 deg"),
		lean("range beyond the most", "{from: 0 deg, to: 50 deg}"),
		lean("half a range in keys", "{from: 0 deg}"),
		lean("range with another key", "{from: 0 deg, to: 20 deg, step: 1 deg}"),
		lean("range in keys swapped", "{from: 20 deg, to: 10 deg}"),
		lean("range as a list", "[0 deg, 20 deg]"),
		lean("range not finite", "0 deg..inf deg"),
	}
}

// badRelations are briefs whose values do not go together.
func badRelations() []badCase {
	resistance := func(name, lines string) badCase {
		return edited(name, "resistance:\n", "resistance:\n"+lines)
	}
	table := func(name, pairs string) badCase {
		return resistance(name, "  curve: table\n  curve_table: \""+pairs+"\"\n")
	}
	return []badCase{
		edited("light above middle", "light: 10 kg", "light: 50 kg"),
		edited("heavy below middle", "heavy: 80 kg", "heavy: 30 kg"),
		edited("equal loads", "heavy: 80 kg", "heavy: 40 kg"),
		resistance("least arm above greatest", "  least_arm: 120 mm\n  greatest_arm: 110 mm\n"),
		resistance("nothing loaded", "  loaded: 30 deg..30 deg\n"),
		resistance("table that is not there", "  curve: table\n"),
		table("table of words", "low, high"),
		table("table without units", "15 41, 30 46, 60 52, 105 43"),
		table("table of three points", "15 deg 41, 60 deg 52, 105 deg 43"),
		table("table that does not rise", "15 deg 41, 60 deg 46, 30 deg 52, 105 deg 43"),
		table("table of points too near", "15 deg 41, 15.5 deg 46, 60 deg 52, 105 deg 43"),
		table("table with a strength of zero", "15 deg 41, 30 deg 0, 60 deg 52, 105 deg 43"),
		table("table with an infinite strength", "15 deg 41, 30 deg inf, 60 deg 52, 105 deg 43"),
		table("table beyond what an elbow bends", "15 deg 41, 30 deg 46, 60 deg 52, 205 deg 43"),
		table("table short of the loaded range", "15 deg 41, 30 deg 46, 60 deg 52, 105 deg 43"),
		brief("lever in a cam study", strings.Replace(strings.Replace(leastBrief, "arm-pad", "cam-study", 1), "resistance:", "resistance:\n  drive: lever", 1)),
	}
}
