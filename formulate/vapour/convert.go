package vapour

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// MolarVolume is the volume of one mole of vapour, in l/mol.
type MolarVolume float64

// StandardPressure is the standard atmosphere, and RoomTemperature and
// TableMolarVolume what tables of limits convert with.
const (
	StandardPressure quantity.Pressure = 101.325
	RoomTemperature  quantity.Celsius  = 25
	TableMolarVolume MolarVolume       = 24.45
)

// MolarVolumeRelation is the molar volume of an ideal gas.
var MolarVolumeRelation = trace.Relation{
	Name:     "molar volume of a vapour",
	Equation: "Vm = R·T/p",
	Source:   "ideal gas; R of CODATA 2018",
}

// MolarVolumeAt is R·T/p, 24.465 l/mol at 25 °C and 101.325 kPa. The ideal gas
// holds to a few parts in a thousand for solvent vapours thinned by air.
func MolarVolumeAt(t quantity.Celsius, p quantity.Pressure) (MolarVolume, error) {
	if !(t.Kelvin() > 0) || math.IsInf(float64(t), 1) {
		return 0, fmt.Errorf("temperature is %g °C: it must lie above absolute zero", float64(t))
	}
	if err := positive("pressure", p, "kPa"); err != nil {
		return 0, err
	}
	return MolarVolume(quantity.GasConstant * t.Kelvin() / float64(p)), nil
}

func positive[Q quantity.Real](what string, q Q, unit string) error {
	if v := float64(q); !(v > 0) || math.IsInf(v, 1) {
		return fmt.Errorf("%s is %g %s: it must be positive and finite", what, v, unit)
	}
	return nil
}

func notNegative[Q quantity.Real](what string, q Q, unit string) error {
	if v := float64(q); !(v >= 0) || math.IsInf(v, 1) {
		return fmt.Errorf("%s is %g %s: it must be finite and not negative", what, v, unit)
	}
	return nil
}

// ConcentrationRelation turns a share of the air into a mass per volume.
var ConcentrationRelation = trace.Relation{
	Name:     "ppm to mg/m³",
	Equation: "C = ppm·M/Vm",
	Source:   "CCOHS, Converting occupational exposure limits from mg/m³ to ppm",
}

// Concentration is the mass per volume of a vapour share: ppm·M/Vm.
func Concentration(ppm quantity.PartsPerMillion, m quantity.MolarMass, vm MolarVolume) quantity.Concentration {
	return quantity.Concentration(float64(ppm) * float64(m) / float64(vm))
}

// PartsPerMillionRelation turns a mass per volume into a share of the air.
var PartsPerMillionRelation = trace.Relation{
	Name:     "mg/m³ to ppm",
	Equation: "ppm = C·Vm/M",
	Source:   "CCOHS, Converting occupational exposure limits from mg/m³ to ppm",
}

// PartsPerMillion is the vapour share of a mass per volume: C·Vm/M.
func PartsPerMillion(c quantity.Concentration, m quantity.MolarMass, vm MolarVolume) quantity.PartsPerMillion {
	return quantity.PartsPerMillion(float64(c) * float64(vm) / float64(m))
}

// SaturationRelation is the most vapour that air can hold.
var SaturationRelation = trace.Relation{
	Name:     "saturation of air with vapour",
	Equation: "ppm = 10⁶·pv/p",
	Source:   "National Research Council, Prudent Practices, p. 196",
}

// Saturation is the vapour share of air in equilibrium with the liquid, as it is
// right over a palette: 10⁶·pv/p. pv belongs to the liquid's own temperature; a
// paste or a mixture stays below it.
func Saturation(vapour, air quantity.Pressure) quantity.PartsPerMillion {
	return quantity.PartsPerMillion(1e6 * float64(vapour) / float64(air))
}
