package optics

import (
	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions for the published check rows.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: RatioOfHidingRelation.Name, Unit: "", Func: checkRatio},
		{Name: HidingReflectanceRelation.Name, Unit: "", Func: checkHiding},
		{Name: FilmRelation.Name, Unit: "", Func: checkFilm},
		{Name: OverGroundRelation.Name, Unit: "", Func: checkFilm},
		{Name: ContrastRelation.Name, Unit: "", Func: checkFilm},
		{Name: HidingThicknessRelation.Name, Unit: "films", Func: checkThickness},
		{Name: LayerOverTwoGroundsRelation.Name, Unit: "per film", Func: checkBack},
		{Name: MixRelation.Name, Unit: "", Func: checkMix},
		{Name: "single-constant mixing", Unit: "", Func: checkSingleConstant},
		{Name: SeenRelation.Name, Unit: "", Func: checkSeen},
		{Name: FresnelRelation.Name, Unit: "", Func: checkFresnel},
		{Name: RelativeOpacityRelation.Name, Unit: "", Func: checkRelativeOpacity},
		{Name: TristimulusRelation.Name, Unit: "Y of white = 100", Func: checkWhite},
		{Name: LabRelation.Name, Unit: "CIELAB", Func: checkLab},
		{Name: ScreenRelation.Name, Unit: "", Func: checkScreen},
		{Name: "sRGB encoding", Unit: "", Func: checkEncode},
		{Name: "colour of a screen value", Unit: "", Func: checkOfScreen},
		{Name: DifferenceRelation.Name, Unit: "ΔE₀₀", Func: checkDifference},
	}
}

type outputs = map[string]float64

func checkRatio(a *check.Args) (outputs, error) {
	q, err := RatioOfHiding(Reflectance(a.Get("R")))
	return outputs{"K/S": float64(q)}, err
}

// constants reads K and S, or K/S with S = 1.
func constants(a *check.Args) Constants {
	if a.Has("K/S") {
		return Constants{K: Absorbing(a.Get("K/S")), S: 1}
	}
	return Constants{K: Absorbing(a.Get("K")), S: Scattering(a.Get("S"))}
}

func checkHiding(a *check.Args) (outputs, error) {
	return outputs{"R": float64(HidingReflectance(constants(a)))}, nil
}

func checkFilm(a *check.Args) (outputs, error) {
	c, x, ground := constants(a), Films(a.Get("X")), Reflectance(a.Get("Rg"))
	l := Film(c, x)
	cr, err := FilmContrast(c, x, ground)
	return outputs{"R0": float64(l.R), "T": float64(l.T), "R": float64(OverGround(l, ground)), "CR": float64(cr)}, err
}

func checkThickness(a *check.Args) (outputs, error) {
	c := constants(a)
	x, err := HidingThickness(c, Reflectance(a.Get("Rg")), ContrastRatio(a.Get("CR")))
	return outputs{"SX": float64(c.S) * float64(x), "KX": float64(c.K) * float64(x)}, err
}

func checkBack(a *check.Args) (outputs, error) {
	l, err := LayerOverTwoGrounds(Reflectance(a.Get("Rb")), Reflectance(a.Get("Rw")), Reflectance(a.Get("gb")), Reflectance(a.Get("gw")))
	if err != nil {
		return nil, err
	}
	c, err := ConstantsOfLayer(l)
	return outputs{"K": float64(c.K), "S": float64(c.S)}, err
}

func checkMix(a *check.Args) (outputs, error) {
	c, err := Mix(
		Part{quantity.Parts(a.Get("c1")), Constants{Absorbing(a.Get("K1")), Scattering(a.Get("S1"))}},
		Part{quantity.Parts(a.Get("c2")), Constants{Absorbing(a.Get("K2")), Scattering(a.Get("S2"))}},
	)
	if err != nil {
		return nil, err
	}
	q, _ := c.Ratio()
	return outputs{"K/S": float64(q), "R": float64(HidingReflectance(c))}, nil
}

func checkSingleConstant(a *check.Args) (outputs, error) {
	q1, err := RatioOfHiding(Reflectance(a.Get("R1")))
	if err != nil {
		return nil, err
	}
	q2, err := RatioOfHiding(Reflectance(a.Get("R2")))
	if err != nil {
		return nil, err
	}
	c, err := Mix(Part{1, Constants{Absorbing(q1), 1}}, Part{1, Constants{Absorbing(q2), 1}})
	return outputs{"R": float64(HidingReflectance(c))}, err
}

func checkSeen(a *check.Args) (outputs, error) {
	s := Surface{K1: Reflectance(a.Get("k1")), K2: Reflectance(a.Get("k2")), Excluded: a.Get("excluded") == 1}
	return outputs{"Rm": float64(s.Seen(HidingReflectance(constants(a))))}, nil
}

func checkFresnel(a *check.Args) (outputs, error) {
	return outputs{"100F": 100 * float64(Fresnel(quantity.RefractiveIndex(a.Get("n")), quantity.RefractiveIndex(a.Get("m"))))}, nil
}

func checkRelativeOpacity(a *check.Args) (outputs, error) {
	n, ref, m := quantity.RefractiveIndex(a.Get("n")), quantity.RefractiveIndex(a.Get("n_ref")), quantity.RefractiveIndex(a.Get("m"))
	return outputs{"percent": 100 * float64(RelativeOpacity(n, ref, m))}, nil
}

func checkWhite(a *check.Args) (outputs, error) {
	o, e := TwoDegree, D65
	if a.Get("observer") == 10 {
		o = TenDegree
	}
	if a.Get("illuminant") == 50 {
		e = D50
	}
	w := White(o, e)
	sum := w.X + w.Y + w.Z
	return outputs{"X": w.X, "Y": w.Y, "Z": w.Z, "x": w.X / sum, "y": w.Y / sum}, nil
}

func checkLab(a *check.Args) (outputs, error) {
	x, y := a.Get("xn"), a.Get("yn")
	white := XYZ{X: x / y, Y: 1, Z: (1 - x - y) / y}
	c := LabOf(XYZ{a.Get("X"), a.Get("Y"), a.Get("Z")}, white)
	return outputs{"L": c.L, "a": c.A, "b": c.B}, nil
}

func checkScreen(a *check.Args) (outputs, error) {
	s := ScreenOf(XYZ{a.Get("X"), a.Get("Y"), a.Get("Z")})
	return outputs{"R": float64(s.R), "G": float64(s.G), "B": float64(s.B)}, nil
}

func checkEncode(a *check.Args) (outputs, error) {
	return outputs{"V": float64(EncodeScreen(quantity.Ratio(a.Get("C"))))}, nil
}

func checkOfScreen(a *check.Args) (outputs, error) {
	c := XYZOfScreen(Screen{R: uint8(a.Get("R")), G: uint8(a.Get("G")), B: uint8(a.Get("B"))})
	lab := LabOf(c, XYZ{95.047, 100, 108.883})
	return outputs{"X": c.X, "Y": c.Y, "Z": c.Z, "L": lab.L, "a": lab.A, "b": lab.B}, nil
}

func checkDifference(a *check.Args) (outputs, error) {
	d := CIEDE2000(Lab{a.Get("L1"), a.Get("a1"), a.Get("b1")}, Lab{a.Get("L2"), a.Get("a2"), a.Get("b2")})
	return outputs{"dE00": float64(d)}, nil
}
