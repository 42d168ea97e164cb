package absorption

// fitted holds the coefficients found by package refit from the published
// demands; a test there fits them again and compares to the last digit here.
var fitted = Coefficients{
	Intercept: 0.63, Slope: 0.33, Ground: -0.46, Flowing: 0.60,
	Families: []FamilyEffect{
		{White, -0.42, 0.1, 0},
		{Extender, -0.36, 0.1, 0},
		{Earth, 0.22, 0.1, 0},
		{IronOxide, 0.29, 0.1, 0},
		{Mineral, -0.02, 0.1, 0},
		{Organic, 0.19, 0.1, 0},
		{Black, 0.11, 0.1, 0},
	},
	Unknown:    FamilyEffect{Other, 0, 0.3, 0},
	V2:         0.02,
	RubOutMean: -0.05, RubOutSpread: 0.4,
	Misfit: 0.28, FamilySpread: 0.4, Between: 0.23, BetweenWeight: 5,
}
