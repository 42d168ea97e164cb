package refit

import (
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
)

// Coefficients fits the table.
func Coefficients(rows []Row) absorption.Coefficients {
	between, weight := betweenAuthorities(rows)
	groups := byPigment(cells(rows, fitted))
	m := fitMixed(groups, between, full)
	c := absorption.Coefficients{
		Intercept: m.beta[0], Slope: m.beta[1], Ground: m.beta[2], Colourless: m.beta[3], Flowing: flowing(rows),
		Covariance: absorption.Covariance{
			AA: m.cov[0][0], AB: m.cov[0][1], BB: m.cov[1][1],
			AW: m.cov[0][3], BW: m.cov[1][3], WW: m.cov[3][3],
		},
		Misfit: m.omega, Between: between, BetweenWeight: weight,
	}
	c.RubOutMean, c.RubOutSpread = rubOuts(groups)
	return c
}

// fitted reports whether a row goes into the fit.
func fitted(r Row) bool { return r.Use == Fit && r.Consistency != material.BrushReady }

// judged reports whether a row is foretold and judged.
func judged(r Row) bool { return r.Use == Fit && r.Consistency == material.TubeColour }

// betweenAuthorities is how far authorities differ at tube colour, as a log
// standard deviation, and the degrees of freedom that figure deserves.
func betweenAuthorities(rows []Row) (sigma, weight float64) {
	type sample struct{ squares, free float64 }
	var samples []sample
	for _, g := range byPigment(cells(rows, func(r Row) bool { return r.Use != Unused && r.Consistency == material.TubeColour })) {
		if len(g) < 2 {
			continue
		}
		var mean float64
		for _, c := range g {
			mean += c.ln / float64(len(g))
		}
		s := sample{free: float64(len(g) - 1)}
		for _, c := range g {
			s.squares += (c.ln - mean) * (c.ln - mean)
		}
		samples = append(samples, s)
	}
	// Marginal likelihood of the squares when each pigment's variance is scaled
	// inverse chi-square with nu degrees of freedom and scale t².
	likelihood := func(nu, t float64) (sum float64) {
		a, b := nu/2, nu*t*t/2
		for _, s := range samples {
			upper, _ := math.Lgamma(a + s.free/2)
			lower, _ := math.Lgamma(a)
			sum += upper - lower + a*math.Log(b) - (a+s.free/2)*math.Log(b+s.squares/2)
		}
		return sum
	}
	best := math.Inf(-1)
	for nu := 1.0; nu <= 30; nu++ {
		t := math.Exp(maximum(math.Log(0.02), math.Log(2), func(lnT float64) float64 { return likelihood(nu, math.Exp(lnT)) }))
		if l := likelihood(nu, t); l > best {
			best, sigma, weight = l, t, nu
		}
	}
	return sigma, weight
}

// flowing is ln of the oil of brush-ready paint over that of the same
// authority's paste, meaned over pigments.
func flowing(rows []Row) float64 {
	paste := map[[2]string]float64{}
	for _, c := range cells(rows, func(r Row) bool { return r.Use != Unused && r.Consistency == material.GroundPaste }) {
		paste[[2]string{c.Pigment, c.Authority}] = c.ln
	}
	var sum, n float64
	for _, c := range cells(rows, func(r Row) bool { return r.Use != Unused && r.Consistency == material.BrushReady }) {
		if p, ok := paste[[2]string{c.Pigment, c.Authority}]; ok {
			sum += c.ln - p
			n++
		}
	}
	return sum / n
}

// rubOuts is the mean and the standard deviation of ln r over pigments.
func rubOuts(groups [][]cell) (mean, spread float64) {
	n := float64(len(groups))
	for _, g := range groups {
		mean += g[0].lnRubOut() / n
	}
	for _, g := range groups {
		d := g[0].lnRubOut() - mean
		spread += d * d / (n - 1)
	}
	return mean, math.Sqrt(spread)
}

// A design turns a cell into what its coefficients multiply.
type design struct {
	size   int
	x      func(c *cell) [4]float64
	offset func(c *cell) float64
}

func none(*cell) float64 { return 0 }

var (
	full = design{4, func(c *cell) [4]float64 {
		return [4]float64{1, c.lnRubOut(), c.ground(), indicator(c.colourless())}
	}, none}
	// constantFactor is d = k·r.
	constantFactor = design{2, func(c *cell) [4]float64 { return [4]float64{1, c.ground()} },
		func(c *cell) float64 { return c.lnRubOut() }}
	// oneVolume is d = k, whatever the oil absorption.
	oneVolume = design{2, func(c *cell) [4]float64 { return [4]float64{1, c.ground()} }, none}
	// oilAlone is the full design without the term for whites and extenders.
	oilAlone = design{3, func(c *cell) [4]float64 { return [4]float64{1, c.lnRubOut(), c.ground()} }, none}
	// whiteAlone is the full design without the oil absorption.
	whiteAlone = design{3, func(c *cell) [4]float64 { return [4]float64{1, c.ground(), indicator(c.colourless())} }, none}
)

func indicator(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// mixed is a fitted mixed model.
type mixed struct {
	omega float64 // spread between pigments
	beta  []float64
	cov   [][]float64
}

// fitMixed finds the spread between pigments by restricted maximum likelihood,
// the one between authorities given.
func fitMixed(groups [][]cell, tau float64, d design) mixed {
	ln := maximum(math.Log(0.01), math.Log(2), func(v float64) float64 {
		_, l := solve(groups, tau, math.Exp(v), d)
		return l
	})
	m, _ := solve(groups, tau, math.Exp(ln), d)
	return m
}

// solve is generalised least squares at given variances, and the restricted log
// likelihood up to a constant. The covariance of a pigment's k figures is
// ω²·J + τ²·I, J all ones; its inverse is (I − J·ω²/(τ² + k·ω²))/τ².
func solve(groups [][]cell, tau, omega float64, d design) (mixed, float64) {
	information, b := square(d.size), make([]float64, d.size)
	var logDet, quad float64
	for _, g := range groups {
		k := float64(len(g))
		shrink := omega * omega / (tau*tau + k*omega*omega)
		var sumX [4]float64
		var sumY float64
		add := func(x [4]float64, y, weight float64) {
			for r := range b {
				b[r] += weight * x[r] * y
				for c := range b {
					information[r][c] += weight * x[r] * x[c]
				}
			}
			quad += weight * y * y
		}
		for i := range g {
			x, y := d.x(&g[i]), g[i].y()-d.offset(&g[i])
			add(x, y, 1/(tau*tau))
			for r := range x {
				sumX[r] += x[r]
			}
			sumY += y
		}
		add(sumX, sumY, -shrink/(tau*tau))
		logDet += (k-1)*math.Log(tau*tau) + math.Log(tau*tau+k*omega*omega)
	}
	cov, logDetInformation := invert(information)
	m := mixed{omega: omega, cov: cov, beta: make([]float64, d.size)}
	for r := range cov {
		for c := range cov {
			m.beta[r] += cov[r][c] * b[c]
		}
		quad -= b[r] * m.beta[r]
	}
	return m, -(logDet + logDetInformation + quad) / 2
}

func square(n int) [][]float64 {
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
	}
	return out
}

// invert returns the inverse of a positive definite matrix and the log of its
// determinant, by Gauss and Jordan's elimination.
func invert(a [][]float64) (inverse [][]float64, logDet float64) {
	n := len(a)
	m, inverse := square(n), square(n)
	for i := range a {
		copy(m[i], a[i])
		inverse[i][i] = 1
	}
	for i := range m {
		pivot := m[i][i]
		logDet += math.Log(pivot)
		for j := range m {
			m[i][j] /= pivot
			inverse[i][j] /= pivot
		}
		for r := range m {
			factor := m[r][i]
			if r == i || factor == 0 {
				continue
			}
			for j := range m {
				m[r][j] -= factor * m[i][j]
				inverse[r][j] -= factor * inverse[i][j]
			}
		}
	}
	return inverse, logDet
}

// maximum is where a function with one peak is greatest, by golden section.
func maximum(low, high float64, f func(float64) float64) float64 {
	const ratio = 0.6180339887498949
	x1, x2 := high-ratio*(high-low), low+ratio*(high-low)
	f1, f2 := f(x1), f(x2)
	for high-low > 1e-10 {
		if f1 < f2 {
			low, x1, f1 = x1, x2, f2
			x2 = low + ratio*(high-low)
			f2 = f(x2)
		} else {
			high, x2, f2 = x2, x1, f1
			x1 = high - ratio*(high-low)
			f1 = f(x1)
		}
	}
	return (low + high) / 2
}
