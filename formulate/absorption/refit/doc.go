// Package refit fits the coefficients of package absorption to the published
// oil contents of artists' paints, and tells how well they foretell a pigment
// that was left out of the fit.
//
// # Model
//
// A published figure D (g of oil per 100 g of pigment) becomes a volume of oil
// per volume of pigment, d = D·ρp/(100·0.93). For the figure of authority j for
// pigment i, at the consistency c,
//
//	ln d = a + b·ln r + s·[c is ground paste] + w·[i is white or extender] + u(i) + e(i,j)
//
// r = OAv·ρp/100 is the oil of the rub-out per volume of pigment. a, b, s and w
// are fixed; u ~ N(0, ω²) and e ~ N(0, τ²) are what a pigment and an authority
// add of their own.
//
// τ and the weight ν it deserves come first, from every pigment at tube colour
// that two authorities or more weighed: the pigments' own variances are taken as
// scaled inverse chi-square, and ν (whole) and τ are those of greatest marginal
// likelihood. ω follows by restricted maximum likelihood, a, b, s and w by
// generalised least squares (Searle, Casella and McCulloch, Variance Components,
// 1992, chapters 6 and 7, from memory).
//
// # Judging it
//
// Each pigment is left out in turn, everything is fitted again, and its figures
// at tube colour are foretold. Reported are the median |ln(published/foretold)|,
// how many figures lie in the 10–90 range with the 95 per cent Wilson interval
// of that share (which takes figures as independent; those of one pigment are
// not, so the true interval is wider), the median width of the range, and the
// log score: the log of the joint density given to what was published. The same
// is done for the constant factor d = k·r, with its own spreads.
//
// The package calculates only. It does not read files: it is given the table's
// text.
package refit
