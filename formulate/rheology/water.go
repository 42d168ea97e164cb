package rheology

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Temperatures at which water is liquid at the pressure of the air.
const (
	WaterFreezes quantity.Celsius = 0
	WaterBoils   quantity.Celsius = 100
)

func wet(t quantity.Celsius) error {
	if !(t >= WaterFreezes && t <= WaterBoils) {
		return fmt.Errorf("temperature is %g °C: water is liquid from %g to %g °C", float64(t), float64(WaterFreezes), float64(WaterBoils))
	}
	return nil
}

// WaterDensityRelation is the density of water.
var WaterDensityRelation = trace.Relation{
	Name:     "density of water",
	Equation: "ρ = (999.83952 + 16.945176·t − 7.9870401·10⁻³·t² − 46.170461·10⁻⁶·t³ + 105.56302·10⁻⁹·t⁴ − 280.54253·10⁻¹²·t⁵)/(1 + 16.879850·10⁻³·t)",
	Source:   "Kell, J. Chem. Eng. Data 20 (1975) 97, equation 16",
}

// WaterDensity is the density of water free of air at the pressure of the air,
// from 0 to 100 °C, within 0.00002 g/ml of IAPWS-95.
func WaterDensity(t quantity.Celsius) (quantity.Density, error) {
	if err := wet(t); err != nil {
		return 0, err
	}
	x := float64(t)
	top := 999.83952 + x*(16.945176+x*(-7.9870401e-3+x*(-46.170461e-6+x*(105.56302e-9-x*280.54253e-12))))
	return quantity.Density(top / (1 + 16.879850e-3*x) / 1000), nil
}

// WaterViscosityRelation is the viscosity of water.
var WaterViscosityRelation = trace.Relation{
	Name:     "viscosity of water, IAPWS 2008",
	Equation: "µ = µ₀(T)·µ₁(T, ρ), without the critical enhancement",
	Source:   "IAPWS R12-08 (2008), equations 10 to 12, tables 1 and 2",
}

// WaterViscosity is the viscosity of water at the pressure of the air, from 0 to
// 100 °C, good to 1 %.
func WaterViscosity(t quantity.Celsius) (quantity.Viscosity, error) {
	d, err := WaterDensity(t)
	if err != nil {
		return 0, err
	}
	return WaterViscosityAt(t, d)
}

// Coefficients of R12-08: the dilute gas, and row i by column j for the powers
// i of (1/T̄ − 1) and j of (ρ̄ − 1).
var (
	iapwsDilute = [4]float64{1.67752, 2.20462, 0.6366564, -0.241605}
	iapwsDense  = [6][7]float64{
		{0.520094, 0.222531, -0.281378, 0.161913, -0.0325372, 0, 0},
		{0.0850895, 0.999115, -0.906851, 0.257399, 0, 0, 0},
		{-1.08374, 1.88797, -0.772479, 0, 0, 0, 0},
		{-0.289555, 1.26613, -0.489837, 0, 0.0698452, 0, -0.00435673},
		{0, 0, -0.257040, 0, 0, 0.00872102, 0},
		{0, 0.120573, 0, 0, 0, 0, -0.000593264},
	}
)

// WaterViscosityAt is the viscosity of water or steam of a density, from 0 to
// 900 °C, by the formulation of the International Association for the Properties
// of Water and Steam, left without its term for the critical point.
func WaterViscosityAt(t quantity.Celsius, density quantity.Density) (quantity.Viscosity, error) {
	if k := t.Kelvin(); !(k >= quantity.ZeroCelsius && k <= 1173.15) {
		return 0, fmt.Errorf("temperature is %g °C: want 0 to 900 °C", float64(t))
	}
	if !(density > 0 && density <= 1.3) {
		return 0, fmt.Errorf("density of water is %g g/ml: want above 0 and at most 1.3", float64(density))
	}
	warmth, pack := t.Kelvin()/647.096, float64(density)/0.322
	gas := 0.0
	for i := len(iapwsDilute) - 1; i >= 0; i-- {
		gas = gas/warmth + iapwsDilute[i]
	}
	liquid := 0.0
	for i := len(iapwsDense) - 1; i >= 0; i-- {
		row := 0.0
		for j := len(iapwsDense[i]) - 1; j >= 0; j-- {
			row = row*(pack-1) + iapwsDense[i][j]
		}
		liquid = liquid*(1/warmth-1) + row
	}
	// The formulation counts in µPa·s.
	return quantity.Viscosity(100 * math.Sqrt(warmth) / gas * math.Exp(pack*liquid) * 1e-3), nil
}
