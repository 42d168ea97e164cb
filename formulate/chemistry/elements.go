package chemistry

import "mullwright/formulate/quantity"

// An Element is one element that has a standard atomic weight.
type Element struct {
	Symbol string
	Name   string
	Weight quantity.MolarMass // abridged to five figures
	// Tolerance is how far the weight in any ordinary sample may lie from it. It is
	// widest for lead, whose ores differ.
	Tolerance quantity.MolarMass
}

// WeightsSource is the publication behind the atomic weights.
const WeightsSource = "Prohaska and others, Standard atomic weights of the elements 2021 (IUPAC Technical Report), abridged values (2022)"

// elements holds every element with a standard atomic weight, abridged.
// From [WeightsSource], Pure and Applied Chemistry 94, 573, the table of abridged
// values; read from a transcription of that table, in which the tolerance of
// beryllium (0.00001) contradicts the digits of its weight and was taken as
// 0.0001.
var elements = [...]Element{
	{"H", "hydrogen", 1.0080, 0.0002},
	{"He", "helium", 4.0026, 0.0001},
	{"Li", "lithium", 6.94, 0.06},
	{"Be", "beryllium", 9.0122, 0.0001},
	{"B", "boron", 10.81, 0.02},
	{"C", "carbon", 12.011, 0.002},
	{"N", "nitrogen", 14.007, 0.001},
	{"O", "oxygen", 15.999, 0.001},
	{"F", "fluorine", 18.998, 0.001},
	{"Ne", "neon", 20.180, 0.001},
	{"Na", "sodium", 22.990, 0.001},
	{"Mg", "magnesium", 24.305, 0.002},
	{"Al", "aluminium", 26.982, 0.001},
	{"Si", "silicon", 28.085, 0.001},
	{"P", "phosphorus", 30.974, 0.001},
	{"S", "sulphur", 32.06, 0.02},
	{"Cl", "chlorine", 35.45, 0.01},
	{"Ar", "argon", 39.95, 0.16},
	{"K", "potassium", 39.098, 0.001},
	{"Ca", "calcium", 40.078, 0.004},
	{"Sc", "scandium", 44.956, 0.001},
	{"Ti", "titanium", 47.867, 0.001},
	{"V", "vanadium", 50.942, 0.001},
	{"Cr", "chromium", 51.996, 0.001},
	{"Mn", "manganese", 54.938, 0.001},
	{"Fe", "iron", 55.845, 0.002},
	{"Co", "cobalt", 58.933, 0.001},
	{"Ni", "nickel", 58.693, 0.001},
	{"Cu", "copper", 63.546, 0.003},
	{"Zn", "zinc", 65.38, 0.02},
	{"Ga", "gallium", 69.723, 0.001},
	{"Ge", "germanium", 72.630, 0.008},
	{"As", "arsenic", 74.922, 0.001},
	{"Se", "selenium", 78.971, 0.008},
	{"Br", "bromine", 79.904, 0.003},
	{"Kr", "krypton", 83.798, 0.002},
	{"Rb", "rubidium", 85.468, 0.001},
	{"Sr", "strontium", 87.62, 0.01},
	{"Y", "yttrium", 88.906, 0.001},
	{"Zr", "zirconium", 91.224, 0.002},
	{"Nb", "niobium", 92.906, 0.001},
	{"Mo", "molybdenum", 95.95, 0.01},
	{"Ru", "ruthenium", 101.07, 0.02},
	{"Rh", "rhodium", 102.91, 0.01},
	{"Pd", "palladium", 106.42, 0.01},
	{"Ag", "silver", 107.87, 0.01},
	{"Cd", "cadmium", 112.41, 0.01},
	{"In", "indium", 114.82, 0.01},
	{"Sn", "tin", 118.71, 0.01},
	{"Sb", "antimony", 121.76, 0.01},
	{"Te", "tellurium", 127.60, 0.03},
	{"I", "iodine", 126.90, 0.01},
	{"Xe", "xenon", 131.29, 0.01},
	{"Cs", "caesium", 132.91, 0.01},
	{"Ba", "barium", 137.33, 0.01},
	{"La", "lanthanum", 138.91, 0.01},
	{"Ce", "cerium", 140.12, 0.01},
	{"Pr", "praseodymium", 140.91, 0.01},
	{"Nd", "neodymium", 144.24, 0.01},
	{"Sm", "samarium", 150.36, 0.02},
	{"Eu", "europium", 151.96, 0.01},
	{"Gd", "gadolinium", 157.25, 0.03},
	{"Tb", "terbium", 158.93, 0.01},
	{"Dy", "dysprosium", 162.50, 0.01},
	{"Ho", "holmium", 164.93, 0.01},
	{"Er", "erbium", 167.26, 0.01},
	{"Tm", "thulium", 168.93, 0.01},
	{"Yb", "ytterbium", 173.05, 0.02},
	{"Lu", "lutetium", 174.97, 0.01},
	{"Hf", "hafnium", 178.49, 0.01},
	{"Ta", "tantalum", 180.95, 0.01},
	{"W", "tungsten", 183.84, 0.01},
	{"Re", "rhenium", 186.21, 0.01},
	{"Os", "osmium", 190.23, 0.03},
	{"Ir", "iridium", 192.22, 0.01},
	{"Pt", "platinum", 195.08, 0.02},
	{"Au", "gold", 196.97, 0.01},
	{"Hg", "mercury", 200.59, 0.01},
	{"Tl", "thallium", 204.38, 0.01},
	{"Pb", "lead", 207.2, 1.1},
	{"Bi", "bismuth", 208.98, 0.01},
	{"Th", "thorium", 232.04, 0.01},
	{"Pa", "protactinium", 231.04, 0.01},
	{"U", "uranium", 238.03, 0.01},
}

// weightless are the elements without a standard atomic weight.
const weightless = " Tc Pm Po At Rn Fr Ra Ac Np Pu Am Cm Bk Cf Es Fm Md No Lr Rf Db Sg Bh Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og "

var bySymbol = func() map[string]*Element {
	m := make(map[string]*Element, len(elements))
	for i := range elements {
		m[elements[i].Symbol] = &elements[i]
	}
	return m
}()

// FindElement finds an element by its symbol.
func FindElement(symbol string) (Element, bool) {
	e, ok := bySymbol[symbol]
	if !ok {
		return Element{}, false
	}
	return *e, true
}

// Elements lists every element with a standard atomic weight, by atomic number.
func Elements() []Element { return append([]Element(nil), elements[:]...) }
