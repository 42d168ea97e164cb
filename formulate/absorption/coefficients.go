package absorption

// fitted holds the coefficients found by package refit from the published
// demands, to four decimals; a test there fits them again and compares.
var fitted = Coefficients{
	Intercept:  0.6723,
	Slope:      0.3007,
	Ground:     -0.2575,
	Colourless: -0.6311,
	Flowing:    0.5279,
	Covariance: Covariance{
		AA: 0.0056, AB: -0.0022, BB: 0.0320,
		AW: -0.0055, BW: 0.0141, WW: 0.0329,
	},
	Misfit:        0.2825,
	Between:       0.2329,
	BetweenWeight: 5,
	RubOutMean:    -0.0559,
	RubOutSpread:  0.4158,
}
