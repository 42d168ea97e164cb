package picture

// Column sets drawings of one unit one below another.
func Column(title, desc string, parts ...*Drawing) *Drawing {
	d := &Drawing{Title: title, Desc: desc}
	for _, p := range parts {
		d.inset(p, 0, d.H)
		d.W, d.H, d.Unit = max(d.W, p.W), d.H+p.H, p.Unit
	}
	return d
}
