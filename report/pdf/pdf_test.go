package pdf

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/report/officetest"
)

func TestSameInputSameBytes(t *testing.T) {
	for _, paper := range []string{"A4", "Letter"} {
		o := Options{Paper: paper, Attach: []Attachment{{Name: "cell.yaml", Means: "the assessment", Data: []byte("a: b\n")}}}
		want := write(t, o, fixture(t))
		for range 5 {
			if got := write(t, o, fixture(t)); !bytes.Equal(got, want) {
				t.Fatalf("%s: the same input gave other bytes", paper)
			}
		}
	}
}

func TestBadCalls(t *testing.T) {
	if err := Write(&bytes.Buffer{}, nil); err == nil {
		t.Error("no result: no error")
	}
	if err := Write(&bytes.Buffer{}, &hazards.Result{}); err == nil {
		t.Error("no assessment: no error")
	}
	if err := (Options{Paper: "A9"}).Write(&bytes.Buffer{}, fixture(t)); err == nil || !strings.Contains(err.Error(), "A9") {
		t.Errorf("unknown paper: %v", err)
	}
	if err := Write(full{}, fixture(t)); err == nil {
		t.Error("a writer that fails: no error")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

// An assessment that says next to nothing is printed all the same.
func TestEmptyResult(t *testing.T) {
	pages := traced(t, Options{}, &hazards.Result{File: &file.Assessment{}})
	withinMargins(t, pages, papers["A4"])
}

// traced writes a document and gives what landed on each page.
func traced(t testing.TB, o Options, r *hazards.Result) map[int][]spot {
	t.Helper()
	pages := map[int][]spot{}
	o.trace = func(s spot) { pages[s.page] = append(pages[s.page], s) }
	write(t, o, r)
	return pages
}

func withinMargins(t *testing.T, pages map[int][]spot, paper [2]float64) {
	t.Helper()
	const line = 0.35 // half a stroke and the side bearing of a letter
	for n := 1; n <= len(pages); n++ {
		words := 0
		for _, s := range pages[n] {
			if s.text != "" && s.y > topMargin-6 && s.y+s.h < paper[1]-footMargin+line {
				words++
			}
			if s.x < sideMargin-line || s.x+s.w > paper[0]-sideMargin+line {
				t.Errorf("page %d: %q stands from %.2f to %.2f, beyond the margins", n, s.text, s.x, s.x+s.w)
			}
			if s.y < 8 || s.y+s.h > paper[1]-8 {
				t.Errorf("page %d: %q stands at %.2f, beyond the margins", n, s.text, s.y)
			}
			if foot := paper[1] - footAt - 4; s.y < foot-2 && s.y+s.h > paper[1]-footMargin+1.2 {
				t.Errorf("page %d: %q runs into the footer", n, s.text)
			}
		}
		if words < 3 {
			t.Errorf("page %d is all but empty", n)
		}
	}
}

func TestNothingBeyondTheMargins(t *testing.T) {
	for _, paper := range []string{"A4", "Letter"} {
		withinMargins(t, traced(t, Options{Paper: paper}, fixture(t)), papers[paper])
	}
}

func TestLongTextsWrap(t *testing.T) {
	r := fixture(t)
	long := strings.Repeat("a rather long sentence about a jar that is set down ", 60)
	word := strings.Repeat("Donaudampfschifffahrt", 12)
	h := r.Rows[0].Spec
	h.Situation, h.Measures[0].What, h.Residual.Why = long, long+word, word
	h.Event = "long/" + strings.Repeat("part-of-a-word/", 20)
	r.File.Head.Title, r.File.Head.Number = long, word
	r.Findings[0].Message, r.Findings[0].About = long, word
	r.Checks[0].Area, r.Checks[0].Why = word, long
	pages := traced(t, Options{}, r)
	withinMargins(t, pages, papers["A4"])
	all := everything(pages)
	for _, want := range []string{long, word} {
		if got := strings.Count(squeezed(all), squeezed(want)); got == 0 && want == long {
			// Columns mix their lines; every word of the text has to be there.
			for _, w := range strings.Fields(want) {
				if !strings.Contains(all, w) {
					t.Errorf("%q is not printed", w)
				}
			}
		}
	}
	if n := strings.Count(squeezed(all), "Donau"); n < 12*3 {
		t.Errorf("found %d of the syllables of a long word", n)
	}
	// The row goes on over pages under a repeated head and says so.
	if !strings.Contains(all, "(cont.)") {
		t.Error("a row over two pages is not marked as going on")
	}
}

func everything(pages map[int][]spot) string {
	var b strings.Builder
	for n := 1; n <= len(pages); n++ {
		for _, s := range pages[n] {
			if s.text != "" {
				b.WriteString(s.text + "\n")
			}
		}
	}
	return b.String()
}

func squeezed(s string) string { return strings.Join(strings.Fields(s), "") }

// A heading is never the last line of a page.
func TestNoHeadingStandsAlone(t *testing.T) {
	for shift := range 24 {
		r := fixture(t)
		for range shift {
			r.File.Limits.Use.Misuses = append(r.File.Limits.Use.Misuses, file.Misuse{ID: "again", What: "the same again"})
		}
		for range shift / 2 {
			r.Rows = append(r.Rows, r.Rows[0])
		}
		d := newDoc(Options{}, r, papers["A4"])
		last := map[int]string{}
		low := map[int]float64{}
		d.trace = func(s spot) {
			if s.text == "" || s.y > d.bottom() || s.y < topMargin-6 {
				return
			}
			if s.y >= low[s.page] {
				low[s.page] = s.y
				last[s.page] = d.font.style()
			}
		}
		d.compose()
		for n := 1; n < d.pdf.PageNo(); n++ {
			if last[n] == "heading" {
				t.Errorf("%d more rows: page %d ends with a heading", shift, n)
			}
		}
	}
}

// style names what a heading is set in.
func (st style) style() string {
	if st.face == bold && (st.size == head || st.size == body) {
		return "heading"
	}
	return "text"
}

var never = regexp.MustCompile(`(?i)\b(safe|pass|passes|passed|certified|compliant)\b`)

func TestNeverPrinted(t *testing.T) {
	all := everything(traced(t, Options{}, fixture(t)))
	if m := never.FindString(all); m != "" {
		t.Errorf("found %q as a word of the summary", m)
	}
	if strings.Contains(all, "⟨") {
		t.Error("a text is missing in the wording")
	}
}

func TestTextCanBeTakenOut(t *testing.T) {
	tool := officetest.Need(t, "pdftotext")
	name := filepath.Join(t.TempDir(), "cell.pdf")
	if err := os.WriteFile(name, write(t, Options{}, fixture(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := string(out)
	for _, want := range []string{
		"Jar packing beside the sealing table, hall 1", "RA-2207", "Not ready", "nobody named yet", "4C1D-09B2", "ISO/TS 15066:2016",
		"face-at-belt", "not permitted", "draft — not reviewed", "fedc ba98 7654 3210", "hand-at-carton", "within, by model",
		"It is not legal advice", "leaves out the push of the drives", "Licensed review by", "room for a seal", "memory", "608", "≤ 158",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the text", want)
		}
	}
	pages := strings.Split(strings.TrimSuffix(text, "\f"), "\f")
	for i, p := range pages {
		if !strings.Contains(p, "page "+number(float64(i+1), nearest)+" of "+number(float64(len(pages)), nearest)) {
			t.Errorf("page %d has no page number", i+1)
		}
		if len(strings.Fields(p)) < 30 {
			t.Errorf("page %d is all but empty", i+1)
		}
	}
}

func TestFileIsSound(t *testing.T) {
	tool := officetest.Need(t, "qpdf")
	name := filepath.Join(t.TempDir(), "cell.pdf")
	o := Options{Attach: []Attachment{{Name: "cell.yaml", Data: []byte("a: b\n")}}}
	if err := os.WriteFile(name, write(t, o, fixture(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(tool, "--check", name).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

func TestLinksLeadSomewhere(t *testing.T) {
	d := newDoc(Options{}, fixture(t), papers["A4"])
	d.compose()
	d.finish()
	for _, want := range []string{"row:H-01", "check:hand-at-carton", "worked:hand-at-carton", "check:curtain-distance", "finding:third-step-alone H-01", "point:V-01"} {
		if _, ok := d.anchors[want]; !ok {
			t.Errorf("no place %s", want)
		}
		if !slices.ContainsFunc(d.links, func(l link) bool { return l.to == want }) && want != "point:V-01" {
			t.Errorf("nothing leads to %s", want)
		}
	}
	for _, s := range sections {
		if _, ok := d.anchors["section:"+s]; !ok {
			t.Errorf("section %s is in the contents and not in the document", s)
		}
	}
}

// Every key of the wording that the sources name is there.
func TestWordingIsComplete(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil || len(names) == 0 {
		t.Fatal("no sources", err)
	}
	call := regexp.MustCompile(`\b(?:Heading|Label|Sentence|l|subsection|section)\("([a-z_]+)"`)
	w := newDoc(Options{}, fixture(t), papers["A4"]).w
	n := 0
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range call.FindAllStringSubmatch(string(src), -1) {
			n++
			_, a := w.Headings.Find(m[1])
			_, b := w.Labels.Find(m[1])
			_, c := w.Sentences.Find(m[1])
			if !a && !b && !c {
				t.Errorf("%s: no wording for %s", name, m[0])
			}
		}
	}
	if n < 80 {
		t.Errorf("found only %d uses of the wording", n)
	}
}
