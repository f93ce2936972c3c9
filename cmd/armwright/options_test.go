package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"armwright/cmd/armwright/listing"
	"armwright/specs"

	"github.com/spf13/cobra"
)

// parsed runs one command that keeps its options instead of acting on them.
func parsed(cmd *cobra.Command, args []string) error {
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetArgs(args)
	return cmd.ExecuteContext(context.Background())
}

func TestDesignOptions(t *testing.T) {
	for _, c := range []struct {
		args string
		want designOptions
		err  string
	}{
		{args: "b.yaml --out d", want: designOptions{brief: "b.yaml", out: "d", dxf: "2000"}},
		{args: "- -o d --json --force", want: designOptions{brief: "-", out: "d", dxf: "2000", json: true, force: true}},
		{args: "b.yaml -o d --dxf r12 --time-limit 90s", want: designOptions{brief: "b.yaml", out: "d", dxf: "r12", limit: 90 * time.Second}},
		{args: "b.yaml -o d --welded A", want: designOptions{brief: "b.yaml", out: "d", dxf: "2000", weld: "A"}},
		{args: "b.yaml -o d --nest", want: designOptions{brief: "b.yaml", out: "d", dxf: "2000", nest: true}},
		{args: "b.yaml", err: "design: --out is missing"},
		{args: "", err: "design: the brief is missing"},
		{args: "a b -o d", err: `design: too many arguments, from "b" on`},
		{args: "b.yaml -o d --welded b", err: `design: --welded "b"`},
		{args: "b.yaml -o d --dxf 2018", err: `design: no DXF form "2018"`},
		{args: "b.yaml -o d --time-limit -1s", err: "design: --time-limit -1s is negative"},
	} {
		s, _, _ := testStreams("")
		var got *designOptions
		err := parsed(newDesign(s, &common{}, func(_ context.Context, o *designOptions) error { got = o; return nil }), strings.Fields(c.args))
		if c.err != "" {
			var f *failure
			if !errors.As(err, &f) || f.code != exitUsage || err.Error() != c.err || got != nil {
				t.Errorf("%q: error %v, want %s", c.args, err, c.err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("%q: %v", c.args, err)
		}
		got.common = nil
		if !reflect.DeepEqual(*got, c.want) {
			t.Errorf("%q: %+v, want %+v", c.args, *got, c.want)
		}
	}
}

func TestCheckOptions(t *testing.T) {
	s, _, _ := testStreams("")
	var got *checkOptions
	keep := func(_ context.Context, o *checkOptions) error { got = o; return nil }
	if err := parsed(newCheck(s, &common{}, keep), []string{"f.yaml", "--json", "-o", "d"}); err != nil {
		t.Fatal(err)
	}
	got.common = nil
	if want := (checkOptions{frame: "f.yaml", json: true, out: "d"}); *got != want {
		t.Errorf("%+v, want %+v", *got, want)
	}
}

func TestNewOptions(t *testing.T) {
	for args, want := range map[string]newOptions{
		"":                     {kind: "arm-pad", region: "iso"},
		"cam-study -o b.yaml":  {kind: "cam-study", region: "iso", out: "b.yaml"},
		"reclined --region us": {kind: "reclined", region: "us"},
		"--example cam-study":  {kind: "arm-pad", region: "iso", example: "cam-study"},
	} {
		s, _, _ := testStreams("")
		var got *newOptions
		if err := parsed(newNew(s, func(o *newOptions) error { got = o; return nil }), strings.Fields(args)); err != nil {
			t.Fatal(err)
		}
		if *got != want {
			t.Errorf("%q: %+v, want %+v", args, *got, want)
		}
	}
}

// Starters of every kind and all examples are briefs that parse.
func TestNewIsValid(t *testing.T) {
	var all []newOptions
	for _, k := range kinds {
		for _, region := range regions {
			all = append(all, newOptions{kind: k, region: region})
		}
	}
	for _, e := range exampleNames() {
		all = append(all, newOptions{example: e})
	}
	if len(all) < 6 {
		t.Fatalf("only %d starters and examples", len(all))
	}
	for _, o := range all {
		s, out, _ := testStreams("")
		if err := runNew(s, &o); err != nil {
			t.Fatal(err)
		}
		b, err := specs.ParseBrief("new", out.Bytes())
		if err != nil {
			t.Errorf("%+v: %v", o, err)
		}
		if o.example == "" && b.Kind != o.kind {
			t.Errorf("%+v: kind %s", o, b.Kind)
		}
	}
}

// The units shown are those that the reader of briefs names in its hints.
func TestUnitsAreTheReaders(t *testing.T) {
	for _, r := range unitRows() {
		_, err := specs.ParseQuantity("1 furlong", r.kind)
		var q *specs.QuantityError
		if !errors.As(err, &q) {
			t.Fatalf("%s: %v", r.kind, err)
		}
		if want := "units of " + string(r.kind) + ": " + strings.Join(r.units, ", "); q.Hint != want {
			t.Errorf("the reader says %q, shown are %q", q.Hint, want)
		}
	}
}

// Every requirement has a limit and keys that a brief has.
func TestRequirementsNameTheirKeys(t *testing.T) {
	list, err := requirements()
	if err != nil {
		t.Fatal(err)
	}
	leaves := specs.Leaves()
	for _, row := range list.Rows {
		id, limit, keys := row[0].(string), row[3].(string), row[4].(string)
		if limit == "" || keys == "" {
			t.Errorf("%s: limit %q, keys %q", id, limit, keys)
		}
		for key := range strings.SplitSeq(strings.ReplaceAll(keys, " or ", ", "), ", ") {
			if !slices.ContainsFunc(leaves, func(l specs.Leaf) bool { return l.Path == key || strings.HasPrefix(l.Path, key+".") }) {
				t.Errorf("%s: no brief has %q", id, key)
			}
		}
	}
}

func TestTable(t *testing.T) {
	list := &listing.Table{Title: "Stock", Columns: []string{"name", "mass_kg", "n"}}
	list.Add("a", 1.5, 3)
	list.Add("long", 10.25, 12)
	var b bytes.Buffer
	if err := list.Text(&b, 0); err != nil {
		t.Fatal(err)
	}
	if want := "Stock\nname  mass kg   n\na        1.50   3\nlong    10.25  12\n"; b.String() != want {
		t.Errorf("got\n%q\nwant\n%q", b.String(), want)
	}
	b.Reset()
	if err := list.JSON(&b); err != nil {
		t.Fatal(err)
	}
	var rows []map[string]any
	if err := json.Unmarshal(b.Bytes(), &rows); err != nil {
		t.Fatal(err)
	}
	if len(rows) != 2 || rows[1]["mass_kg"] != 10.25 || rows[0]["name"] != "a" {
		t.Errorf("rows %v", rows)
	}
}
