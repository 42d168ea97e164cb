package settling

import (
	"fmt"

	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions to published check rows. Inputs are
// named with their units: um, g_per_ml, mpas, cm, s, pct.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "settling-stokes", Unit: "m/s, mm/day, s", Func: checkStokes},
		{Name: "settling-drag", Unit: "1", Func: checkDrag},
		{Name: "settling-terminal", Unit: "m/s, s, 1", Func: checkTerminal},
		{Name: "settling-limit-size", Unit: "µm", Func: checkLimit},
		{Name: "settling-cut-size", Unit: "µm", Func: checkCutSize},
		{Name: "settling-hindered", Unit: "m/s, 1", Func: checkHindered},
		{Name: "settling-batch", Unit: "m/s", Func: checkBatch},
		{Name: "settling-centrifuge", Unit: "s, g", Func: checkCentrifuge},
		{Name: "settling-rotation", Unit: "rpm", Func: checkRotation},
		{Name: "settling-brownian", Unit: "µm", Func: checkBrownian},
		{Name: "settling-sieve", Unit: "µm", Func: checkSieve},
		{Name: "settling-nearest-sieve", Unit: "number", Func: checkNearest},
		{Name: "settling-principal-sieve", Unit: "µm", Func: checkPrincipal},
	}
}

func grain(a *check.Args) Grain {
	return Grain{Size: quantity.ParticleSize(a.Get("um")), Density: quantity.Density(a.Get("grain"))}
}

func liquid(a *check.Args) Liquid {
	return Liquid{Density: quantity.Density(a.Get("liquid")), Viscosity: quantity.Viscosity(a.Get("mpas"))}
}

func checkStokes(a *check.Args) (map[string]float64, error) {
	g, l := grain(a), liquid(a)
	v, err := Stokes(g, l)
	if err != nil {
		return nil, err
	}
	out := map[string]float64{
		"m_per_s": float64(v), "mm_per_s": 1e3 * float64(v), "mm_per_day": float64(v) * 1e3 * float64(quantity.Day),
		"re": float64(Reynolds(g.Size, v, l)),
	}
	if a.Has("cm") {
		t, err := FallTime(quantity.Length(a.Get("cm")), v)
		if err != nil {
			return nil, err
		}
		out["s"], out["min"] = float64(t), float64(t)/60
	}
	return out, nil
}

func checkDrag(a *check.Args) (map[string]float64, error) {
	re := quantity.Ratio(a.Get("re"))
	return map[string]float64{
		"stokes": float64(StokesDrag(re)), "clift": float64(Clift(re)), "haider-levenspiel": float64(HaiderLevenspiel(re)),
		"khan-richardson": float64(KhanRichardson(re)), "intermediate": float64(IntermediateDrag(re)),
	}, nil
}

func checkTerminal(a *check.Args) (map[string]float64, error) {
	field := Gravity
	if a.Has("field") {
		field = quantity.Ratio(a.Get("field"))
	}
	drag := Drag(Clift)
	if a.Has("intermediate") && a.Get("intermediate") == 1 {
		drag = IntermediateDrag
	}
	f, err := TerminalIn(field, grain(a), liquid(a), drag)
	if err != nil {
		return nil, err
	}
	out := map[string]float64{"m_per_s": float64(f.Speed), "mm_per_s": 1e3 * float64(f.Speed), "re": float64(f.Reynolds), "drag": float64(f.Drag)}
	if a.Has("cm") {
		t, err := FallTime(quantity.Length(a.Get("cm")), f.Speed)
		if err != nil {
			return nil, err
		}
		out["s"], out["min"] = float64(t), float64(t)/60
	}
	return out, nil
}

func checkLimit(a *check.Args) (map[string]float64, error) {
	d, err := LimitSize(quantity.Length(a.Get("cm")), quantity.Duration(a.Get("s")), quantity.Density(a.Get("grain")), liquid(a))
	return map[string]float64{"um": float64(d)}, err
}

func checkCutSize(a *check.Args) (map[string]float64, error) {
	d, err := CutSize(quantity.Length(a.Get("cm")), quantity.Duration(a.Get("s")), quantity.Density(a.Get("grain")), liquid(a))
	return map[string]float64{"um": float64(d)}, err
}

func checkHindered(a *check.Args) (map[string]float64, error) {
	phi := quantity.VolumeFraction(a.Get("phi_pct") / 100)
	var n quantity.Ratio
	var err error
	if a.Has("n") {
		n = quantity.Ratio(a.Get("n"))
	} else if n, err = Index(quantity.Ratio(a.Get("re"))); err != nil {
		return nil, err
	}
	if a.Has("cloud_um_per_s") {
		v, err := Unhindered(quantity.Speed(a.Get("cloud_um_per_s")*1e-6), phi, n)
		return map[string]float64{"um_per_s": 1e6 * float64(v)}, err
	}
	v, err := Hindered(quantity.Speed(a.Get("mm_per_s")*1e-3), phi, n)
	return map[string]float64{"mm_per_s": 1e3 * float64(v), "n": float64(n)}, err
}

func checkBatch(a *check.Args) (map[string]float64, error) {
	phi := quantity.VolumeFraction(a.Get("phi_pct") / 100)
	v, err := SedimentFront(quantity.Speed(a.Get("cloud_mm_per_s")*1e-3), phi, quantity.VolumeFraction(a.Get("sediment_pct")/100))
	return map[string]float64{"mm_per_s": 1e3 * float64(v)}, err
}

func checkCentrifuge(a *check.Args) (map[string]float64, error) {
	n, outer := Turning(a.Get("rpm")), quantity.Length(a.Get("outer_cm"))
	t, err := CentrifugeTime(quantity.Length(a.Get("inner_cm")), outer, n, grain(a), liquid(a))
	return map[string]float64{"s": float64(t), "g": float64(CentrifugalForce(n, outer))}, err
}

func checkRotation(a *check.Args) (map[string]float64, error) {
	n, err := TurningFor(quantity.Ratio(a.Get("field")), quantity.Length(a.Get("cm")))
	return map[string]float64{"rpm": float64(n), "rad_per_s": n.omega()}, err
}

func checkBrownian(a *check.Args) (map[string]float64, error) {
	x, err := BrownianDisplacement(quantity.ParticleSize(a.Get("um")), quantity.Viscosity(a.Get("mpas")), quantity.Celsius(a.Get("celsius")), quantity.Duration(a.Get("s")))
	return map[string]float64{"um": 1e4 * float64(x)}, err
}

func checkSieve(a *check.Args) (map[string]float64, error) {
	s, err := SieveByNumber(int(a.Get("number")))
	return map[string]float64{"um": float64(s.Opening)}, err
}

func checkPrincipal(a *check.Args) (map[string]float64, error) {
	i, all := int(a.Get("place")), PrincipalSizes()
	if i < 1 || i > len(all) {
		return nil, fmt.Errorf("place %d of %d", i, len(all))
	}
	return map[string]float64{"um": float64(all[i-1])}, nil
}

func checkNearest(a *check.Args) (map[string]float64, error) {
	s, err := NearestSieve(quantity.ParticleSize(a.Get("um")))
	return map[string]float64{"number": float64(s.Number), "um": float64(s.Opening)}, err
}
