package vapour

import (
	"math"

	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations offers the room's relations to the published checks.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "ppm to mg/m3", Unit: "mg/m³", Func: checkConcentration},
		{Name: "mg/m3 to ppm", Unit: "ppm", Func: checkPPM},
		{Name: "saturation of air", Unit: "ppm", Func: checkSaturation},
		{Name: "room, constant release", Unit: "mg/m³", Func: checkEvenly},
		{Name: "room, single dose", Unit: "mg/m³", Func: checkAtOnce},
		{Name: "room, evaporating dose", Unit: "mg/m³", Func: checkFirstOrder},
		{Name: "time to reach a level", Unit: "h", Func: checkTimeTo},
		{Name: "time to clear the air", Unit: "min", Func: checkClearing},
		{Name: "dilution ventilation, pints", Unit: "ft³/min", Func: checkDilutionPints},
		{Name: "dilution ventilation, pounds", Unit: "ft³/min", Func: checkDilutionPounds},
		{Name: "share of LEL", Unit: "", Func: checkShareOfLEL},
		{Name: "flammability of a mixture", Unit: "share by volume", Func: checkMixture},
		{Name: "flammability from the formula", Unit: "share by volume", Func: checkFormula},
	}
}

// molarVolume reads the molar volume a source converts with, or the state of
// the air.
func molarVolume(a *check.Args) (MolarVolume, error) {
	if a.Has("vm") {
		return MolarVolume(a.Get("vm")), nil
	}
	return MolarVolumeAt(quantity.Celsius(a.Get("t")), quantity.Pressure(a.Get("p")))
}

func checkConcentration(a *check.Args) (map[string]float64, error) {
	vm, err := molarVolume(a)
	c := Concentration(quantity.PartsPerMillion(a.Get("ppm")), quantity.MolarMass(a.Get("m")), vm)
	return map[string]float64{"c": float64(c)}, err
}

func checkPPM(a *check.Args) (map[string]float64, error) {
	vm, err := molarVolume(a)
	ppm := PartsPerMillion(quantity.Concentration(a.Get("c")), quantity.MolarMass(a.Get("m")), vm)
	return map[string]float64{"ppm": float64(ppm)}, err
}

func checkSaturation(a *check.Args) (map[string]float64, error) {
	ppm := Saturation(quantity.Pressure(a.Get("pv")), quantity.Pressure(a.Get("p")))
	return map[string]float64{"ppm": float64(ppm)}, nil
}

func room(a *check.Args) Room {
	r := Room{Volume: quantity.RoomVolume(a.Get("v")), AirChanges: quantity.AirChanges(a.Get("n"))}
	if a.Has("loss") {
		r.Loss = quantity.AirChanges(a.Get("loss"))
	}
	return r
}

func checkEvenly(a *check.Args) (map[string]float64, error) {
	r, mass, over := room(a), a.Get("mass"), a.Get("over_h")
	c, err := NewCourse(r, Release{Evenly, quantity.Mass(mass), seconds(over)})
	if err != nil {
		return nil, err
	}
	steady, err := Steady(r, ReleaseRate(mass/over))
	return map[string]float64{"c": float64(c.At(quantity.Duration(60 * a.Get("min")))), "steady": float64(steady)}, err
}

func checkAtOnce(a *check.Args) (map[string]float64, error) {
	c, err := NewCourse(room(a), Release{Profile: AtOnce, Mass: quantity.Mass(a.Get("mass"))})
	if err != nil {
		return nil, err
	}
	t := quantity.Duration(60 * a.Get("min"))
	out := map[string]float64{"c": float64(c.At(t))}
	if t > 0 {
		mean, err := c.Mean(0, t)
		if err != nil {
			return nil, err
		}
		out["mean"] = float64(mean)
	}
	return out, nil
}

func checkFirstOrder(a *check.Args) (map[string]float64, error) {
	over := quantity.Duration(60 / a.Get("per_min"))
	c, err := NewCourse(room(a), Release{FirstOrder, quantity.Mass(a.Get("mass")), over})
	if err != nil {
		return nil, err
	}
	return map[string]float64{"c": float64(c.At(quantity.Duration(60 * a.Get("min"))))}, nil
}

func checkTimeTo(a *check.Args) (map[string]float64, error) {
	r, rate := room(a), ReleaseRate(a.Get("g_per_h"))
	steady, err := Steady(r, rate)
	if err != nil {
		return nil, err
	}
	t, err := TimeTo(r, rate, quantity.Concentration(a.Get("c")))
	return map[string]float64{"steady": float64(steady), "hours": t.Hours()}, err
}

func checkClearing(a *check.Args) (map[string]float64, error) {
	r := room(a)
	t, err := ClearingTime(r, quantity.Concentration(a.Get("from")), quantity.Concentration(a.Get("to")))
	return map[string]float64{"minutes": float64(t) / 60, "per_min": float64(r.AirChanges) / 60}, err
}

// Customary units of the published examples: US pint and cubic foot by NIST
// Handbook 44, avoirdupois pound.
const (
	mlPerPint = 473.176473
	m3PerFt3  = 0.028316846592
)

// dilution gives the flow in ft³/min, with and without the mixing factor.
func dilution(a *check.Args, gramsPerMin float64, vm MolarVolume) (map[string]float64, error) {
	q := VapourFlow(ReleaseRate(60*gramsPerMin), quantity.MolarMass(a.Get("m")), vm)
	ppm := quantity.PartsPerMillion(a.Get("ppm"))
	plain, err := Dilution(q, ppm, LeastMixing)
	if err != nil {
		return nil, err
	}
	mixed, err := Dilution(q, ppm, quantity.Ratio(a.Get("k")))
	toFt3 := func(f Airflow) float64 { return float64(f) / 60 / m3PerFt3 }
	return map[string]float64{"vapour": toFt3(q), "unmixed": toFt3(plain), "flow": toFt3(mixed)}, err
}

// checkDilutionPints takes the source's cubic feet of vapour per pint (at a
// density and molar mass of 1) as the molar volume it stands for.
func checkDilutionPints(a *check.Args) (map[string]float64, error) {
	vm := MolarVolume(a.Get("ft3_per_pint") * m3PerFt3 * 1000 / mlPerPint)
	return dilution(a, a.Get("pints")*mlPerPint*a.Get("sg")/a.Get("min"), vm)
}

// checkDilutionPounds takes the cubic feet of vapour per pound-mole.
func checkDilutionPounds(a *check.Args) (map[string]float64, error) {
	vm := MolarVolume(a.Get("ft3_per_lbmol") * m3PerFt3 * 1000 / quantity.GramsPerPound)
	return dilution(a, a.Get("pounds")*quantity.GramsPerPound/a.Get("min"), vm)
}

func checkShareOfLEL(a *check.Args) (map[string]float64, error) {
	f := ShareOfLEL(quantity.PartsPerMillion(a.Get("ppm")), quantity.VolumeFraction(a.Get("lel")))
	return map[string]float64{"share": float64(f)}, nil
}

func checkMixture(a *check.Args) (map[string]float64, error) {
	var vapours []Flammable
	for _, i := range []string{"1", "2", "3"} {
		vapours = append(vapours, Flammable{quantity.Ratio(a.Get("y" + i)), quantity.VolumeFraction(a.Get("l" + i))})
	}
	l, err := MixtureLimit(vapours...)
	return map[string]float64{"limit": float64(l)}, err
}

func checkFormula(a *check.Args) (map[string]float64, error) {
	lower, upper, err := LimitsFromFormula(int(math.Round(a.Get("c"))), int(math.Round(a.Get("h"))), int(math.Round(a.Get("o"))))
	return map[string]float64{"lower": float64(lower), "upper": float64(upper)}, err
}
