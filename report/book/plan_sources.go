package book

// sources plans what the results rest on.
func (p *planner) sources() *Sheet {
	b := &Block{ID: "sources", Title: "Public sources of the values in use", Columns: []*Column{
		{Key: refKey, Head: "Key", Width: 20, Look: Ident},
		{Key: "title", Head: "Title", Width: 60},
		{Key: "used", Head: "Used for", Width: 44},
		{Key: "standing", Head: "Weakest standing", Means: "of the values in use", Width: 14},
		{Key: "address", Head: "Address", Width: 60},
	}}
	for _, s := range p.r.Sources {
		b.Rows = append(b.Rows, &Row{ID: s.Key, Cells: []Cell{show(s.Key), show(s.Title), show(s.Used), show(s.Standing), show(s.Address)}})
	}
	return &Sheet{ID: "sources", Name: "Sources", Blocks: []*Block{p.standards(), b},
		About: "Standards are cited, not copied. The figures were taken from the public sources below; a bought copy of the standard decides."}
}

// standards lists the calculation sheets in use with what they are taken from.
func (p *planner) standards() *Block {
	b := &Block{ID: "standards", Title: "Standards", Columns: []*Column{
		{Key: refKey, Head: "Sheet", Width: 20, Look: Ident},
		{Key: "title", Head: "What it works out", Width: 60},
		{Key: "standard", Head: "Standard and clause", Width: 44},
		{Key: "standing", Head: "Standing", Width: 14},
		{Key: "sources", Head: "Sources", Width: 60},
	}}
	for _, s := range p.inUse() {
		b.Rows = append(b.Rows, &Row{ID: "sheet:" + s.Key(), Cells: []Cell{show(s.ID), show(s.Title), show(s.Standard.String()),
			show(string(s.Standing)), show(joined(s.Source))}})
	}
	return b
}
