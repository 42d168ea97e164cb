package evidence

import (
	"fmt"
	"math"

	"mullwright/formulate/check"
)

// Relations offers the room's relations to the published checks.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "student t factor", Unit: "", Func: checkStudent},
		{Name: "mean of repeats", Unit: "as the readings", Func: checkRepeats},
		{Name: "expanded uncertainty", Unit: "as u", Func: checkExpanded},
		{Name: "grubbs critical value", Unit: "", Func: checkGrubbsCritical},
		{Name: "grubbs test", Unit: "", Func: checkGrubbs},
		{Name: "dixon critical value", Unit: "", Func: checkDixonCritical},
		{Name: "dixon test", Unit: "", Func: checkDixon},
		{Name: "effective degrees of freedom", Unit: "", Func: checkWelch},
		{Name: "uncertainty of a product", Unit: "as y", Func: checkProduct},
		{Name: "uncertainty of a standard solution", Unit: "mg/l", Func: checkStandardSolution},
		{Name: "uncertainty of a titration", Unit: "mol/l", Func: checkTitration},
		{Name: "uncertainty of an area", Unit: "dm²", Func: checkArea},
		{Name: "uncertainty of an end gauge", Unit: "nm", Func: checkEndGauge},
		{Name: "joint readings", Unit: "", Func: checkJoint},
		{Name: "impedance from joint readings", Unit: "ohm", Func: checkImpedance},
		{Name: "draws of a sum of four", Unit: "", Func: checkSumOfFour},
		{Name: "draws of a mass calibration", Unit: "mg", Func: checkMassCalibration},
		{Name: "draws of a sum of squares", Unit: "", Func: checkSumOfSquares},
		{Name: "draws of a falling-ball viscosity", Unit: "mPa·s", Func: checkFallingBall},
		{Name: "weighted mean", Unit: "as the estimates", Func: checkWeighted},
		{Name: "normal update", Unit: "as the readings", Func: checkNormalUpdate},
		{Name: "log-normal update", Unit: "g/100g", Func: checkLogNormalUpdate},
	}
}

// series reads x1, x2, ... of a row.
func series(a *check.Args, name string) []float64 {
	var out []float64
	for i := 1; ; i++ {
		key := fmt.Sprintf("%s%d", name, i)
		if i > 1 && !a.Has(key) {
			return out
		}
		out = append(out, a.Get(key))
	}
}

func checkStudent(a *check.Args) (map[string]float64, error) {
	t, err := Student(Probability(a.Get("p")), a.Get("nu"))
	return map[string]float64{"t": t}, err
}

func checkRepeats(a *check.Args) (map[string]float64, error) {
	r, err := Repeat(series(a, "x"))
	if err != nil {
		return nil, err
	}
	e, err := r.Estimate()
	return map[string]float64{"mean": r.Mean, "sd": r.SD, "u": e.U, "nu": e.DOF}, err
}

func checkExpanded(a *check.Args) (map[string]float64, error) {
	half, err := Estimate[float64]{U: a.Get("u"), DOF: a.Get("nu")}.Expanded(Probability(a.Get("p")))
	return map[string]float64{"U": half}, err
}

func checkGrubbsCritical(a *check.Args) (map[string]float64, error) {
	g, err := GrubbsCritical(int(a.Get("n")), Probability(a.Get("alpha")), Sides(a.Get("sides")))
	return map[string]float64{"critical": g}, err
}

func checkGrubbs(a *check.Args) (map[string]float64, error) {
	o, err := Grubbs(series(a, "x"), Probability(a.Get("alpha")), Sides(a.Get("sides")))
	return outlierOutputs(o), err
}

func checkDixonCritical(a *check.Args) (map[string]float64, error) {
	q, err := DixonCritical(int(a.Get("n")), Probability(a.Get("alpha")), Sides(a.Get("sides")))
	return map[string]float64{"critical": q}, err
}

func checkDixon(a *check.Args) (map[string]float64, error) {
	o, err := Dixon(series(a, "x"), Probability(a.Get("alpha")), Sides(a.Get("sides")))
	return outlierOutputs(o), err
}

func outlierOutputs(o Outlier[float64]) map[string]float64 {
	rejected := 0.0
	if o.Rejected {
		rejected = 1
	}
	return map[string]float64{"suspect": o.Value, "statistic": o.Statistic, "critical": o.Critical, "rejected": rejected}
}

func checkWelch(a *check.Args) (map[string]float64, error) {
	u, nu := series(a, "u"), series(a, "nu")
	if len(u) != len(nu) {
		return nil, fmt.Errorf("%d uncertainties, %d degrees of freedom", len(u), len(nu))
	}
	parts := make([]Estimate[float64], len(u))
	for i := range u {
		parts[i] = Estimate[float64]{U: u[i], DOF: nu[i]}
	}
	dof, err := WelchSatterthwaite(parts)
	return map[string]float64{"nu": dof}, err
}

func combinedOutputs(c Combined) map[string]float64 {
	out := map[string]float64{"y": c.Value, "u": c.U, "nu": c.DOF, "u_higher": c.Higher}
	for i, p := range c.Parts {
		out[fmt.Sprintf("part%d", i+1)] = p
	}
	return out
}

func checkProduct(a *check.Args) (map[string]float64, error) {
	x, u := series(a, "x"), series(a, "u")
	if len(x) != len(u) {
		return nil, fmt.Errorf("%d values, %d uncertainties", len(x), len(u))
	}
	factors := make([]Factor, len(x))
	for i := range x {
		e := Given(x[i], u[i])
		if key := fmt.Sprintf("nu%d", i+1); a.Has(key) {
			e.DOF = a.Get(key)
		}
		power := 1.0
		if key := fmt.Sprintf("p%d", i+1); a.Has(key) {
			power = a.Get(key)
		}
		factors[i] = Factor{In(fmt.Sprintf("x%d", i+1), e), power}
	}
	k := 1.0
	if a.Has("k") {
		k = a.Get("k")
	}
	c, err := Product(k, factors...)
	return combinedOutputs(c), err
}

// checkStandardSolution is example A1 of the guide: c = 1000·m·P/V.
func checkStandardSolution(a *check.Args) (map[string]float64, error) {
	v := Given(a.Get("v"), RootSum(Triangular(a.Get("v_flask")), a.Get("v_fill"), Rectangular(a.Get("v_warmth"))))
	c, err := Product(1000,
		Factor{In("mass", Given(a.Get("m"), a.Get("m_u"))), 1},
		Factor{In("purity", Given(a.Get("p"), Rectangular(a.Get("p_half")))), 1},
		Factor{In("volume", v), -1},
	)
	return combinedOutputs(c), err
}

// checkTitration is example A3: c = R·1000·m·P·V2/(M·V1·V).
func checkTitration(a *check.Args) (map[string]float64, error) {
	// The burette's and pipettes' volumes: mark and warmth, 2.1e-4 per kelvin
	// over 4 K either way.
	volume := func(name string, nominal, mark float64, v string) Factor {
		return Factor{In(name, Given(a.Get(v), RootSum(Triangular(mark), Rectangular(nominal*2.1e-4*4)))), -1}
	}
	v2 := volume("first titration", 15, 0.03, "v2")
	v2.Power = 1
	m := 8*12.0107 + 5*1.00794 + 4*15.9994 + 39.0983
	mU := RootSum(8*Rectangular(0.0008), 5*Rectangular(0.00007), 4*Rectangular(0.0003), Rectangular(0.0001))
	weighing := Rectangular(a.Get("m_half"))
	c, err := Product(1000,
		Factor{In("repeatability", Given(1, a.Get("r_u"))), 1},
		Factor{In("mass", Given(a.Get("m"), RootSum(weighing, weighing))), 1},
		Factor{In("purity", Given(1, Rectangular(a.Get("p_half")))), 1},
		v2,
		Factor{In("molar mass", Given(m, mU)), -1},
		volume("second titration", 19, 0.03, "v1"),
		volume("aliquot", 15, 0.02, "v"),
	)
	return combinedOutputs(c), err
}

// checkArea is example A5: a = π·d²/4 with a shape factor of 1.
func checkArea(a *check.Args) (map[string]float64, error) {
	c, err := Product(math.Pi/4,
		Factor{In("diameter", Given(a.Get("d"), a.Get("d_u"))), 2},
		Factor{In("shape", Given(1, a.Get("shape_u"))), 1},
	)
	return combinedOutputs(c), err
}

// checkEndGauge is example H.1 of the GUM: l = ls + d − ls·(da·θ + as·dt).
func checkEndGauge(a *check.Args) (map[string]float64, error) {
	names := []string{"ls", "d", "da", "theta", "as", "dt"}
	inputs := make([]Input, len(names))
	for i, n := range names {
		inputs[i] = In(n, Given(a.Get(n), a.Get(n+"_u")))
	}
	c, err := Propagate(func(x []float64) float64 {
		return x[0] + x[1] - x[0]*(x[2]*x[3]+x[4]*x[5])
	}, inputs...)
	return combinedOutputs(c), err
}

func checkJoint(a *check.Args) (map[string]float64, error) {
	r, err := Correlation(series(a, "x"), series(a, "y"))
	return map[string]float64{"r": float64(r)}, err
}

// checkImpedance is example H.2 of the GUM in its second way: each joint
// reading gives one R, X and Z.
func checkImpedance(a *check.Args) (map[string]float64, error) {
	v, i, phi := series(a, "v"), series(a, "i"), series(a, "phi")
	if len(v) != len(i) || len(v) != len(phi) {
		return nil, fmt.Errorf("%d, %d and %d joint readings", len(v), len(i), len(phi))
	}
	r, x, z := make([]float64, len(v)), make([]float64, len(v)), make([]float64, len(v))
	for k := range v {
		z[k] = 1000 * v[k] / i[k] // current in mA
		r[k], x[k] = z[k]*math.Cos(phi[k]), z[k]*math.Sin(phi[k])
	}
	out := map[string]float64{}
	for name, values := range map[string][]float64{"R": r, "X": x, "Z": z} {
		s, err := Repeat(values)
		if err != nil {
			return nil, err
		}
		e, err := s.Estimate()
		if err != nil {
			return nil, err
		}
		out[name], out["u_"+name] = e.Value, e.U
	}
	for name, pair := range map[string][2][]float64{"r_RX": {r, x}, "r_RZ": {r, z}, "r_XZ": {x, z}} {
		c, err := Correlation(pair[0], pair[1])
		if err != nil {
			return nil, err
		}
		out[name] = float64(c)
	}
	return out, nil
}

// checkDraws is how many draws a check by draws takes.
const checkDraws = 1 << 17

// drawn works a model over draws of its inputs and gives the mean, standard
// deviation, central and shortest 95 % interval.
func drawn(inputs int, model func(z []float64) float64) (map[string]float64, error) {
	values := Run(checkDraws, inputs, 1, DefaultSeed, func() func(z, out []float64) {
		return func(z, out []float64) { out[0] = model(z) }
	})[0]
	r, err := Repeat(values)
	if err != nil {
		return nil, err
	}
	low, high, err := ShortestInterval(values, 0.95)
	return map[string]float64{
		"mean": r.Mean, "u": r.SD,
		"low": Quantile(values, 0.025), "high": Quantile(values, 0.975),
		"shortest_low": low, "shortest_high": high, "shortest_width": high - low,
	}, err
}

// uniform turns a standard normal deviate into a share of a range, 0 to 1.
func uniform(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// checkSumOfFour is example 9.2 of Supplement 1 to the GUM.
func checkSumOfFour(a *check.Args) (map[string]float64, error) {
	rectangular := a.Get("rectangular") != 0
	return drawn(4, func(z []float64) float64 {
		var sum float64
		for _, x := range z {
			if rectangular {
				x = math.Sqrt(3) * (2*uniform(x) - 1)
			}
			sum += x
		}
		return sum
	})
}

// checkMassCalibration is example 9.3 of Supplement 1: the weight differs from
// its nominal mass by dm = (mR + dR)(1 + (a − 1.2)(1/rW − 1/rR)) − 100 000.
func checkMassCalibration(a *check.Args) (map[string]float64, error) {
	mR, mRu, dR, dRu := a.Get("mr"), a.Get("mr_u"), a.Get("dr"), a.Get("dr_u")
	air, rW, rR := a.Get("air"), a.Get("rw"), a.Get("rr")
	airHalf, rWHalf, rRHalf := a.Get("air_half"), a.Get("rw_half"), a.Get("rr_half")
	model := func(x []float64) float64 {
		return (mR+x[0]+dR+x[1])*(1+(air+x[2]-1.2)*(1/(rW+x[3])-1/(rR+x[4]))) - 100000
	}
	out, err := drawn(5, func(z []float64) float64 {
		return model([]float64{mRu * z[0], dRu * z[1],
			airHalf * (2*uniform(z[2]) - 1), rWHalf * (2*uniform(z[3]) - 1), rRHalf * (2*uniform(z[4]) - 1)})
	})
	if err != nil {
		return nil, err
	}
	c, err := Propagate(model,
		In("mass", Given(0, mRu)), In("difference", Given(0, dRu)),
		In("air", Given(0, Rectangular(airHalf))), In("weight", Given(0, Rectangular(rWHalf))), In("reference", Given(0, Rectangular(rRHalf))))
	out["first_order"], out["first_order_u"], out["higher_order_u"] = c.Value, c.U, c.Higher
	return out, err
}

// checkSumOfSquares is example 9.4 of Supplement 1, comparison loss.
func checkSumOfSquares(a *check.Args) (map[string]float64, error) {
	x1, x2, u := a.Get("x1"), a.Get("x2"), a.Get("u")
	model := func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] }
	out, err := drawn(2, func(z []float64) float64 { return model([]float64{x1 + u*z[0], x2 + u*z[1]}) })
	if err != nil {
		return nil, err
	}
	c, err := Propagate(model, In("x1", Given(x1, u)), In("x2", Given(x2, u)))
	out["first_order"], out["first_order_u"] = c.Value, c.U
	return out, err
}

// checkFallingBall is example E3 of NIST TN 1900:
// μ = μc·(rb − rm)·tm/((rb − rc)·tc).
func checkFallingBall(a *check.Args) (map[string]float64, error) {
	names := []string{"muc", "rb", "rm", "rc", "tm", "tc"}
	inputs := make([]Input, len(names))
	for i, n := range names {
		inputs[i] = In(n, Given(a.Get(n), a.Get(n+"_u")))
	}
	model := func(x []float64) float64 { return x[0] * (x[1] - x[2]) * x[4] / ((x[1] - x[3]) * x[5]) }
	out, err := drawn(len(names), func(z []float64) float64 {
		x := make([]float64, len(z))
		for i := range z {
			x[i] = inputs[i].Value + inputs[i].U*z[i]
		}
		return model(x)
	})
	if err != nil {
		return nil, err
	}
	c, err := Propagate(model, inputs...)
	out["first_order"], out["first_order_u"] = c.Value, c.U
	return out, err
}

func checkWeighted(a *check.Args) (map[string]float64, error) {
	x, u := series(a, "x"), series(a, "u")
	if len(x) != len(u) {
		return nil, fmt.Errorf("%d values, %d uncertainties", len(x), len(u))
	}
	estimates := make([]Estimate[float64], len(x))
	for i := range x {
		estimates[i] = Given(x[i], u[i])
	}
	w, err := WeightedMean(estimates)
	return map[string]float64{"mean": w.Mean, "u": w.U, "birge": float64(w.Birge), "scaled": w.Scaled}, err
}

func checkNormalUpdate(a *check.Args) (map[string]float64, error) {
	n := Normal{a.Get("theta"), a.Get("tau")}.Update(a.Get("y"), a.Get("sigma")/math.Sqrt(a.Get("n")))
	return map[string]float64{"mean": n.Mean, "sd": n.SD, "variance": n.SD * n.SD}, nil
}

// checkLogNormalUpdate gives a single lot n tests that all read the data's
// geometric mean.
func checkLogNormalUpdate(a *check.Args) (map[string]float64, error) {
	prior := Prior[float64]{General: Distribution[float64]{Median: a.Get("median"), Sigma: math.Log(a.Get("gsd"))}}
	tests := make([]Observation[float64], int(a.Get("n")))
	for i := range tests {
		tests[i] = Observation[float64]{Value: a.Get("y"), Scatter: math.Log(a.Get("y_gsd"))}
	}
	p, err := Update(prior, tests)
	if err != nil {
		return nil, err
	}
	own := p.Lot("")
	t, err := Student(0.95, math.Inf(1))
	return map[string]float64{"median": own.Median, "sigma": own.Sigma, "low": own.At(-t), "high": own.At(t)}, err
}
