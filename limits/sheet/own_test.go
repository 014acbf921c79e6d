package sheet_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"standclear/limits/sheet"
	"standclear/templates"
)

const ownGap = `id: least-gap
title: Least gaps of the house
standard: {id: house rule 3}
key: part
columns:
  part: {means: body part}
  gap: {unit: mm, means: least gap, source: [house], standing: single}
rows:
  - {part: body, gap: 510}
  - {part: head, gap: 310}
  - {part: leg, gap: 190}
  - {part: foot, gap: 130}
  - {part: toes, gap: 60}
  - {part: arm, gap: 130}
  - {part: hand, gap: 110}
  - {part: finger, gap: 30}
`

const ownSources = "sources: {house: {title: House rules, address: shelf 4}}\n"

func loadOwn(t *testing.T, files map[string]string) (*sheet.Library, string) {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	lib, problems := sheet.LoadWith(templates.FS, []sheet.Own{{FS: fsys, Dir: "own", Name: "mine"}}, nil)
	var out []string
	for _, p := range problems {
		out = append(out, p.Pos.String()+" "+p.Message)
	}
	return lib, strings.Join(out, "\n")
}

// A table of the user stands in for ours, and sheets look up in it.
func TestOwnTable(t *testing.T) {
	lib, problems := loadOwn(t, map[string]string{"gap.yaml": ownGap, "sources.yaml": ownSources})
	if problems != "" {
		t.Fatal(problems)
	}
	s := lib.Sheet("least-gap")
	vals := s.Blank()
	if err := s.Set(vals, "part", "hand"); err != nil {
		t.Fatal(err)
	}
	o := s.Evaluate(vals)
	if got := o.Value("gap").Num; got != 110 {
		t.Errorf("gap %v, want that of the user's table", got)
	}
	if own := lib.Table("least-gap").Own; own != "mine/gap.yaml" {
		t.Errorf("comes from %q", own)
	}
	if built := library(t).Table("least-gap"); built.Own != "" {
		t.Errorf("the table built in comes from %q", built.Own)
	}
}

func TestOwnTableThatDoesNotFit(t *testing.T) {
	for name, tt := range map[string]struct{ find, put, want string }{
		"a row less":      {"  - {part: toes, gap: 60}\n", "", "there is no row toes"},
		"a column less":   {"  gap: {unit: mm,", "  width: {unit: mm,", "there is no column gap"},
		"another unit":    {"unit: mm", "unit: cm", "column gap has another unit"},
		"unknown source":  {"source: [house]", "source: [hous]", "names the source hous, which is not in"},
		"source is taken": {"", "", "the source key `auva` is taken"},
	} {
		sources, text := ownSources, strings.Replace(ownGap, tt.find, tt.put, 1)
		if name == "source is taken" {
			sources = strings.Replace(ownSources, "{house:", "{auva: {title: x, address: y}, house:", 1)
		}
		if name == "a column less" {
			text = strings.ReplaceAll(text, "gap: ", "width: ")
		}
		if _, problems := loadOwn(t, map[string]string{"gap.yaml": text, "sources.yaml": sources}); !strings.Contains(problems, tt.want) || !strings.Contains(problems, "own/") {
			t.Errorf("%s: %s\nwant %s", name, problems, tt.want)
		}
	}
	if _, problems := loadOwn(t, map[string]string{"a.yaml": ownGap, "b.yaml": ownGap, "sources.yaml": ownSources}); !strings.Contains(problems, "stands in mine/a.yaml already") {
		t.Errorf("the same table twice: %s", problems)
	}
}
