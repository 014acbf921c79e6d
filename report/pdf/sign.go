package pdf

import "standclear/hazards/file"

// Heights of a signature block, in mm.
const (
	lineHigh  = 7.4
	sealRound = 15.0 // radius of the room for a seal
)

// signaturesHigh is the height of all blocks with their heading, in mm. They
// stand on one page, so that nobody signs a part.
const signaturesHigh = 215.0

// signatures are blocks to fill in by hand, each with its scope and room for a
// seal.
func (d *doc) signatures() {
	if d.y+signaturesHigh > d.bottom() {
		d.newPage()
	}
	d.section("signatures")
	d.lead(d.w.Sentence("signatures_intro", short(d.r.Fingerprint)) + " " + d.w.Sentence("signatures_scope"))
	h := &d.r.File.Head
	d.block("prepared", &h.PreparedBy)
	d.block("checked", h.CheckedBy)
	d.block("licensed", nil)
	d.block("approved_block", h.ApprovedBy)
}

// block is one signature block. What the file says of the person is printed, the
// rest has a line to write on: licence, date, and the scope, which is what the
// person visited, relied on and did not review.
func (d *doc) block(key string, p *file.Person) {
	var fields [][]string
	name := para{spans: []span{{text: d.w.Label(key), style: textBold}}}
	if p != nil {
		known := joined("  ·  ", person(p), labelled(d.w.Label("licence"), p.Licence), p.Date)
		name.spans = append(name.spans, span{text: "  " + known, style: text})
	} else {
		fields = append(fields, []string{"name", "role"})
	}
	fields = append(fields, []string{"licence", "date"}, []string{"signature", "visited"}, []string{"relied"}, []string{"not_reviewed"})
	wide := d.width - 2*sealRound - 8
	ls := d.broken(name, wide)
	d.room(tall(ls) + float64(len(fields))*lineHigh + 9)
	d.y += 4
	top := d.y
	d.lines(ls, sideMargin)
	for _, f := range fields {
		d.y += lineHigh
		w := (wide - 6*float64(len(f)-1)) / float64(len(f))
		for i, label := range f {
			x := sideMargin + float64(i)*(w+6)
			d.write(x, d.y, d.w.Label(label), cellGrey)
			d.rule(x, d.y+1.2, w, hair, grey)
		}
	}
	d.seal(sideMargin+d.width-sealRound, max(top+sealRound, (top+d.y)/2+2))
	d.y = max(d.y, top+2*sealRound) + 3
}

// seal is a dashed ring to stamp into.
func (d *doc) seal(x, y float64) {
	d.pdf.SetLineWidth(hair)
	d.pdf.SetDrawColor(int(grey.r), int(grey.g), int(grey.b))
	d.pdf.SetDashPattern([]float64{1, 1.2}, 0)
	d.pdf.Circle(x, y, sealRound-0.5, "D")
	d.pdf.SetDashPattern(nil, 0)
	label := d.w.Label("seal")
	d.write(x-d.ink.width(label, cellGrey)/2, y+1, label, cellGrey)
}
