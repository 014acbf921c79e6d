package sheet_test

import (
	"encoding/binary"
	"io/fs"
	"math"
	"testing"
	"testing/fstest"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/templates"
)

// garbage makes values of any kind out of bytes, constants included.
func garbage(s *sheet.Sheet, data []byte) []expr.Value {
	vals := s.Blank()
	for i := range vals {
		if len(data) < 10 {
			break
		}
		x := math.Float64frombits(binary.LittleEndian.Uint64(data[1:]))
		switch data[0] % 8 {
		case 0:
			vals[i] = expr.Value{Kind: expr.Number, Num: x}
		case 1:
			vals[i] = expr.Value{Kind: expr.Text, Text: string(data[1:5])}
		case 2:
			vals[i] = expr.Value{Kind: expr.Bool, Bool: data[1] > 0}
		case 3:
			vals[i] = expr.Value{Kind: expr.Kind(data[1]), Num: x, Text: "yes"}
		case 4:
			vals[i] = expr.Value{}
		case 5:
			special := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), 5e-324, math.MaxFloat64}
			vals[i] = expr.Value{Kind: expr.Number, Num: special[int(data[1])%len(special)]}
		}
		data = data[3:]
	}
	return vals
}

func FuzzEvaluate(f *testing.F) {
	lib := library(f)
	seed := make([]byte, 400)
	for i := range seed {
		seed[i] = byte(i * 37)
	}
	for n := range lib.Sheets {
		f.Add(uint8(n), seed[n:])
	}
	allowed := map[sheet.Verdict]bool{}
	for _, v := range sheet.Order {
		allowed[v] = true
	}
	f.Fuzz(func(t *testing.T, n uint8, data []byte) {
		s := lib.Sheets[int(n)%len(lib.Sheets)]
		o := s.Evaluate(garbage(s, data))
		if !allowed[o.Verdict] {
			t.Errorf("verdict %q", o.Verdict)
		}
		for _, c := range s.Columns {
			if v := o.Values[c.Slot]; !takes(c) && v.Kind == expr.Number && (math.IsNaN(v.Num) || math.IsInf(v.Num, 0)) {
				t.Errorf("%s is %v", c.Name, v.Num)
			}
		}
		s.Worked(&o)
		o.Notes()
		o.Cells()
		s.Unset(o.Values)
	})
}

// A sheet with a slip in it is refused or read, never a panic.
func FuzzRead(f *testing.F) {
	files, err := fs.Glob(templates.FS, "sheets/*.yaml")
	if err != nil || len(files) == 0 {
		f.Fatal("no sheets")
	}
	var texts [][]byte
	for i, name := range files {
		data, err := fs.ReadFile(templates.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		texts = append(texts, data)
		f.Add(uint8(i), uint16(len(data)/2), uint16(7), "x")
		f.Add(uint8(i), uint16(len(data)/3), uint16(0), "of: nowhere, ")
	}
	f.Fuzz(func(t *testing.T, n uint8, at, cut uint16, put string) {
		text := texts[int(n)%len(texts)]
		from := int(at) % len(text)
		to := min(from+int(cut)%40, len(text))
		changed := append(append(append([]byte(nil), text[:from]...), put...), text[to:]...)
		dir := fstest.MapFS{"sheets/x.yaml": {Data: changed}}
		for _, folder := range []string{"tables", "contact"} {
			entries, _ := fs.ReadDir(templates.FS, folder)
			for _, e := range entries {
				data, _ := fs.ReadFile(templates.FS, folder+"/"+e.Name())
				dir[folder+"/"+e.Name()] = &fstest.MapFile{Data: data}
			}
		}
		lib, problems := sheet.Load(dir)
		if len(lib.Sheets) == 0 && len(problems) == 0 {
			t.Error("neither a sheet nor a problem")
		}
		for _, s := range lib.Sheets {
			o := s.Evaluate(s.Blank())
			s.Worked(&o)
			for _, c := range s.Columns {
				s.Formula(c)
			}
		}
	})
}
