package ask

// Paper is what a maker wants written on a card or a label, as given.
type Paper struct {
	Maker string
	Batch string
	Date  string
	Page  string
}

// Fields lists what may be said of it.
func (p *Paper) Fields() []Field {
	return []Field{
		{Name: "maker", One: &p.Maker, Help: "maker's name, to print as given"},
		{Name: "batch", One: &p.Batch, Help: "batch, to print as given"},
		{Name: "date", One: &p.Date, Help: "date, to print as given"},
		{Name: "page", One: &p.Page, Help: "sheet of paper: A4 or Letter (default A4)"},
	}
}
