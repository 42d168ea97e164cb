package absorption

// steps are provisional until the fit stands.
var steps = [...]Step{
	{"stiff", 0.85, 0.92, 1.00, "stands in crumbs that press together like putty", "common practice"},
	{"buttery", 0.60, 0.75, 0.90, "stands in peaks under the knife, spreads like butter", "common practice"},
	{"soft", 0.50, 0.60, 0.70, "peaks bend over, levels slowly", "common practice"},
	{"flowing", 0.35, 0.45, 0.55, "runs off the knife in a thread, levels", "common practice"},
}
