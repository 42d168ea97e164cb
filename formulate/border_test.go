package formulate_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"mullwright/formulate/chemistry"
	"mullwright/formulate/evidence"
	"mullwright/formulate/film"
	"mullwright/formulate/gum"
	"mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/settling"
	"mullwright/formulate/trace"
	"mullwright/formulate/vapour"
)

// A border is one relation of a room that refuses what makes no sense, with
// arguments that do.
type border struct {
	name string
	fn   any
	args func() []any
	// bears are places of arguments where an infinity has a meaning.
	bears map[string]bool
}

func mass(v, u float64) evidence.Estimate[quantity.Mass] {
	return evidence.Given(quantity.Mass(v), quantity.Mass(u))
}

func list(args ...any) func() []any { return func() []any { return args } }

var (
	grain  = settling.Grain{Size: 20, Density: 2.7}
	water  = settling.Liquid{Density: 0.998, Viscosity: 1.002}
	room   = vapour.Room{Volume: 40, AirChanges: 0.5}
	gone   = vapour.Release{Profile: vapour.Evenly, Mass: 30, Over: 3600}
	known  = map[string]bool{"DOF": true} // +Inf degrees of freedom: the uncertainty is taken as known
	spirit = vapour.Substance{Name: "spirit", MolarMass: 136, VapourPressure: 0.25, LowerExplosive: 0.008}
)

var borders = []border{
	{name: "film.SpreadingRate", fn: film.SpreadingRate, args: list(quantity.Thickness(50))},
	{name: "film.WetThicknessAtRate", fn: film.WetThicknessAtRate, args: list(quantity.SpreadingRate(10))},
	{name: "film.DryThickness", fn: film.DryThickness, args: list(quantity.Thickness(50), quantity.VolumeFraction(0.5))},
	{name: "film.WetThickness", fn: film.WetThickness, args: list(quantity.Thickness(25), quantity.VolumeFraction(0.5))},
	{name: "film.SolidsOf", fn: film.SolidsOf, args: list(quantity.Thickness(50), quantity.Thickness(25))},
	{name: "film.Thinned", fn: film.Thinned, args: list(quantity.VolumeFraction(0.5), quantity.Ratio(0.2))},
	{name: "film.PracticalRate", fn: film.PracticalRate, args: list(quantity.SpreadingRate(10), quantity.VolumeFraction(0.2))},
	{name: "film.MeasuredSolids", fn: film.MeasuredSolids, args: list(quantity.Mass(2), quantity.Volume(1.1), quantity.MassFraction(0.6), quantity.Density(1.2))},
	{name: "film.VOCOf", fn: film.VOCOf, args: list(quantity.Mass(300), quantity.Volume(1000))},
	{name: "film.VOCLessWater", fn: film.VOCLessWater, args: list(quantity.Mass(100), quantity.Volume(1000), quantity.Volume(400))},
	{name: "film.VOCByShares", fn: film.VOCByShares, args: list(quantity.MassFraction(0.5), quantity.MassFraction(0.3), quantity.Density(1.2), quantity.Density(1))},

	{name: "powder.BulkDensity", fn: powder.BulkDensity, args: list(quantity.Mass(22.5), quantity.Volume(50))},
	{name: "powder.CarrIndex", fn: powder.CarrIndex, args: list(quantity.Density(0.45), quantity.Density(0.6))},
	{name: "powder.HausnerRatio", fn: powder.HausnerRatio, args: list(quantity.Density(0.45), quantity.Density(0.6))},
	{name: "powder.FlowOf", fn: powder.FlowOf, args: list(quantity.Ratio(0.2))},
	{name: "powder.JarMass", fn: powder.JarMass, args: list(quantity.Volume(250), quantity.Density(0.45), quantity.Density(0.6))},
	{name: "powder.Displacement.Density", fn: powder.Displacement.Density, args: list(powder.Displacement{Powder: mass(20, 0.05), Before: evidence.Given[quantity.Volume](50, 0.2), After: evidence.Given[quantity.Volume](57, 0.2)}), bears: known},
	{name: "powder.Pyknometer.Density", fn: powder.Pyknometer.Density, args: list(powder.Pyknometer{Empty: 30, Powder: 40, Topped: 86, Full: 80, Liquid: evidence.Given[quantity.Density](0.998, 0.001), Digit: 0.01, Filling: 0.02}), bears: known},
	{name: "powder.HegmanOf", fn: powder.HegmanOf, args: list(quantity.ParticleSize(25))},
	{name: "powder.Hegman.Depth", fn: powder.Hegman.Depth, args: list(powder.Hegman(6))},
	{name: "powder.SieveResidue", fn: powder.SieveResidue, args: list(quantity.Mass(0.12), quantity.Mass(20))},
	{name: "powder.Through", fn: powder.Through, args: func() []any {
		return []any{[]powder.Stage{{Name: "wash", In: 120, Out: 100}, {Name: "dry", In: 60, Out: 44}}}
	}},
	{name: "powder.CheckMoisture", fn: powder.CheckMoisture, args: list(quantity.MassFraction(0.2))},
	{name: "powder.Moisture", fn: powder.Moisture, args: list(quantity.Mass(5), quantity.Mass(4.85))},
	{name: "powder.DryingTest.Moisture", fn: powder.DryingTest.Moisture, args: list(powder.DryingTest{Container: 25.1, Damp: 30.13, Dried: 29.99, Digit: 0.01})},
	{name: "powder.MeanSize", fn: powder.MeanSize, args: func() []any {
		return []any{[]powder.SizeClass{{Low: 1, High: 2, Count: 10}, {Low: 2, High: 4, Count: 5}}, 4, 3}
	}},
	{name: "powder.VolumeShares", fn: powder.VolumeShares, args: func() []any {
		return []any{[]powder.SizeClass{{Low: 1, High: 2, Count: 10}, {Low: 2, High: 4, Count: 5}}}
	}},
	{name: "powder.SpecificSurface", fn: powder.SpecificSurface, args: list(quantity.ParticleSize(1), quantity.Density(2.7))},
	{name: "powder.EquivalentDiameter", fn: powder.EquivalentDiameter, args: list(quantity.SpecificSurface(3), quantity.Density(2.7))},
	{name: "powder.PlateSurface", fn: powder.PlateSurface, args: list(quantity.ParticleSize(1), quantity.Density(2.7))},
	{name: "powder.RodSurface", fn: powder.RodSurface, args: list(quantity.ParticleSize(1), quantity.Density(2.7))},
	{name: "powder.OilOfSurface", fn: powder.OilOfSurface, args: list(quantity.SpecificSurface(3), powder.LayerThickness(2), quantity.VolumeFraction(0.6), quantity.Density(2.7))},
	{name: "powder.FinerOil", fn: powder.FinerOil, args: list(quantity.SpecificSurface(3), quantity.SpecificSurface(6), powder.LayerThickness(2))},

	{name: "settling.Stokes", fn: settling.Stokes, args: list(grain, water)},
	{name: "settling.Terminal", fn: settling.Terminal, args: list(grain, water)},
	{name: "settling.TerminalIn", fn: settling.TerminalIn, args: list(quantity.Ratio(100), grain, water, settling.Drag(settling.Clift))},
	{name: "settling.SizeAt", fn: settling.SizeAt, args: list(quantity.Speed(1e-4), quantity.Density(2.7), water)},
	{name: "settling.Index", fn: settling.Index, args: list(quantity.Ratio(0.1))},
	{name: "settling.Hindered", fn: settling.Hindered, args: list(quantity.Speed(1e-4), quantity.VolumeFraction(0.1), quantity.Ratio(4.65))},
	{name: "settling.Unhindered", fn: settling.Unhindered, args: list(quantity.Speed(1e-4), quantity.VolumeFraction(0.1), quantity.Ratio(4.65))},
	{name: "settling.SedimentFront", fn: settling.SedimentFront, args: list(quantity.Speed(1e-4), quantity.VolumeFraction(0.1), quantity.VolumeFraction(0.5))},
	{name: "settling.ClearingTime", fn: settling.ClearingTime, args: list(quantity.Length(10), quantity.Speed(1e-4), quantity.VolumeFraction(0.1), quantity.VolumeFraction(0.5))},
	{name: "settling.SedimentHeight", fn: settling.SedimentHeight, args: list(quantity.Length(10), quantity.VolumeFraction(0.1), quantity.VolumeFraction(0.5))},
	{name: "settling.FallTime", fn: settling.FallTime, args: list(quantity.Length(10), quantity.Speed(1e-4))},
	{name: "settling.LimitSize", fn: settling.LimitSize, args: list(quantity.Length(10), quantity.Duration(60), quantity.Density(2.7), water)},
	{name: "settling.CutTime", fn: settling.CutTime, args: list(quantity.Length(10), grain, water)},
	{name: "settling.CutSize", fn: settling.CutSize, args: list(quantity.Length(10), quantity.Duration(60), quantity.Density(2.7), water)},
	{name: "settling.DecantedShare", fn: settling.DecantedShare, args: list(quantity.Speed(1e-4), quantity.Duration(60), quantity.Length(10))},
	{name: "settling.StaysBehind", fn: settling.StaysBehind, args: list(quantity.MassFraction(0.4), 3)},
	{name: "settling.Upflow", fn: settling.Upflow, args: list(grain, water)},
	{name: "settling.BrownianDisplacement", fn: settling.BrownianDisplacement, args: list(quantity.ParticleSize(1), quantity.Viscosity(1), quantity.Celsius(20), quantity.Duration(60))},
	{name: "settling.GravitationalHeight", fn: settling.GravitationalHeight, args: list(grain, quantity.Density(0.998), quantity.Celsius(20))},
	{name: "settling.BrownianLimit", fn: settling.BrownianLimit, args: list(quantity.Length(10), quantity.Density(2.7), quantity.Density(0.998), quantity.Celsius(20))},
	{name: "settling.CentrifugeTime", fn: settling.CentrifugeTime, args: list(quantity.Length(5), quantity.Length(10), settling.Turning(3000), grain, water)},
	{name: "settling.TurningFor", fn: settling.TurningFor, args: list(quantity.Ratio(1000), quantity.Length(10))},
	{name: "settling.NearestSieve", fn: settling.NearestSieve, args: list(quantity.ParticleSize(45))},
	{name: "settling.SieveHolding", fn: settling.SieveHolding, args: list(quantity.ParticleSize(45))},

	{name: "rheology.GlycerineViscosity", fn: rheology.GlycerineViscosity, args: list(quantity.MassFraction(0.5), quantity.Celsius(20))},
	{name: "rheology.GlycerineDensity", fn: rheology.GlycerineDensity, args: list(quantity.MassFraction(0.5), quantity.Celsius(20))},
	{name: "rheology.GumArabic", fn: rheology.GumArabic, args: list(quantity.MassFraction(0.3), quantity.Celsius(20))},
	{name: "rheology.ArrheniusMixture", fn: rheology.ArrheniusMixture, args: blend},
	{name: "rheology.GrunbergNissan", fn: rheology.GrunbergNissan, args: func() []any { return append(blend(), quantity.Ratio(0.5)) }},
	{name: "rheology.KendallMonroe", fn: rheology.KendallMonroe, args: blend},
	{name: "rheology.Bingham", fn: rheology.Bingham, args: blend},
	{name: "rheology.Vehicle", fn: rheology.Vehicle, args: func() []any { return append(blend(), quantity.Ratio(0.5)) }},
	{name: "rheology.VehicleRange", fn: rheology.VehicleRange, args: blend},
	{name: "rheology.DoubleLog", fn: rheology.DoubleLog, args: kinematic},
	{name: "rheology.Refutas", fn: rheology.Refutas, args: kinematic},
	{name: "rheology.BlendingNumber", fn: rheology.BlendingNumber, args: list(quantity.KinematicViscosity(30))},
	{name: "rheology.Einstein", fn: rheology.Einstein, args: list(quantity.VolumeFraction(0.02))},
	{name: "rheology.Batchelor", fn: rheology.Batchelor, args: list(quantity.VolumeFraction(0.05))},
	{name: "rheology.Brinkman", fn: rheology.Brinkman, args: list(quantity.VolumeFraction(0.3))},
	{name: "rheology.Mooney", fn: rheology.Mooney, args: list(quantity.VolumeFraction(0.3), quantity.Ratio(1.4))},
	{name: "rheology.KriegerDougherty", fn: rheology.KriegerDougherty, args: list(quantity.VolumeFraction(0.3), quantity.VolumeFraction(0.6), quantity.Ratio(2.5))},
	{name: "rheology.Suspension", fn: rheology.Suspension, args: list(quantity.Viscosity(50), quantity.VolumeFraction(0.3), quantity.VolumeFraction(0.6), quantity.Ratio(2.5))},
	{name: "rheology.SuspensionRange", fn: rheology.SuspensionRange, args: list(evidence.Range[quantity.Viscosity]{Low: 40, Typical: 50, High: 60}, quantity.VolumeFraction(0.3), quantity.VolumeFraction(0.6))},
	{name: "rheology.AndradeThrough", fn: rheology.AndradeThrough, args: list(rheology.Point{At: 20, Viscosity: 50}, rheology.Point{At: 40, Viscosity: 25})},
	{name: "rheology.AndradeFrom", fn: rheology.AndradeFrom, args: list(rheology.Point{At: 20, Viscosity: 50}, quantity.Energy(25.5))},
	{name: "rheology.WaltherThrough", fn: rheology.WaltherThrough, args: list(rheology.KinematicPoint{At: 20, Viscosity: 50}, rheology.KinematicPoint{At: 40, Viscosity: 25})},
	{name: "rheology.WaterDensity", fn: rheology.WaterDensity, args: list(quantity.Celsius(20))},
	{name: "rheology.WaterViscosity", fn: rheology.WaterViscosity, args: list(quantity.Celsius(20))},
	{name: "rheology.WaterViscosityAt", fn: rheology.WaterViscosityAt, args: list(quantity.Celsius(20), quantity.Density(0.998))},

	{name: "vapour.Assess", fn: vapour.Assess, args: list(room, gone, spirit, vapour.OrdinaryAir, (*trace.Tracer)(nil))},
	{name: "vapour.MolarVolumeAt", fn: vapour.MolarVolumeAt, args: list(quantity.Celsius(25), quantity.Pressure(101.325))},
	{name: "vapour.Dilution", fn: vapour.Dilution, args: list(vapour.Airflow(0.1), quantity.PartsPerMillion(100), quantity.Ratio(5))},
	{name: "vapour.MixtureLimit", fn: mixtureLimit, args: list(vapour.Flammable{Share: 1, Limit: 0.01}, vapour.Flammable{Share: 2, Limit: 0.02})},
	{name: "vapour.NewCourse", fn: vapour.NewCourse, args: list(room, gone)},
	{name: "vapour.Steady", fn: vapour.Steady, args: list(room, vapour.ReleaseRate(20))},
	{name: "vapour.TimeTo", fn: vapour.TimeTo, args: list(room, vapour.ReleaseRate(20), quantity.Concentration(100))},
	{name: "vapour.ClearingTime", fn: vapour.ClearingTime, args: list(room, quantity.Concentration(100), quantity.Concentration(10))},

	{name: "gum.PanPours", fn: gum.PanPours, args: list(quantity.Volume(1.8), quantity.VolumeFraction(0.9), quantity.VolumeFraction(0.5), quantity.VolumeFraction(0.6))},
	{name: "gum.RatioOfShare", fn: gum.RatioOfShare, args: list(quantity.MassFraction(0.33))},
	{name: "chemistry.SaltsLeft", fn: chemistry.SaltsLeft, args: list(3, quantity.Volume(500), quantity.Volume(100))},
	{name: "chemistry.RinsesFor", fn: chemistry.RinsesFor, args: list(quantity.MassFraction(0.001), quantity.Volume(500), quantity.Volume(100))},
}

func blend() []any {
	return []any{[]rheology.Liquid{{Share: 2, Viscosity: 50}, {Share: 1, Viscosity: 1.5}}}
}

func kinematic() []any {
	return []any{[]rheology.KinematicLiquid{{Share: 2, Viscosity: 50}, {Share: 1, Viscosity: 1.5}}}
}

func mixtureLimit(a, b vapour.Flammable) (quantity.VolumeFraction, error) {
	return vapour.MixtureLimit(a, b)
}

// Every relation that can refuse answers sound arguments with numbers, refuses
// each that is not a number or endless, and answers one below nothing with a
// number or a refusal, never with one that is not.
func TestBorders(t *testing.T) {
	for _, b := range borders {
		out, err := b.call(b.args())
		if err != nil {
			t.Errorf("%s: sound arguments are refused: %v", b.name, err)
			continue
		}
		if where := notFinite(out, "result", 0); where != "" {
			t.Errorf("%s: %s", b.name, where)
		}
		places := b.places()
		if len(places) == 0 {
			t.Errorf("%s has no number to spoil", b.name)
		}
		for i, place := range places {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, -1e9, 0, 1e9, 1e-9} {
				out, err := b.call(b.spoilt(i, bad))
				what := fmt.Sprintf("%s with %v in place %d (%s)", b.name, bad, i, place)
				finite := !math.IsNaN(bad) && !math.IsInf(bad, 0)
				switch {
				case err != nil && err.Error() == "":
					t.Errorf("%s: refused without a word", what)
				case err == nil && !finite && !b.bears[place]:
					t.Errorf("%s: accepted", what)
				case err == nil && finite:
					if where := notFinite(out, "result", 0); where != "" {
						t.Errorf("%s: %s", what, where)
					}
				}
			}
		}
	}
}

func (b border) call(args []any) (out []reflect.Value, err error) {
	in := make([]reflect.Value, len(args))
	for i, a := range args {
		in[i] = reflect.ValueOf(a)
	}
	out = reflect.ValueOf(b.fn).Call(in)
	last := out[len(out)-1]
	if !last.IsNil() {
		err = last.Interface().(error)
	}
	return out[:len(out)-1], err
}

// places names every number of the arguments by its field.
func (b border) places() []string {
	var names []string
	eachNumber(b.args(), func(name string, _ reflect.Value) { names = append(names, name) })
	return names
}

// spoilt is a fresh set of arguments with one number changed.
func (b border) spoilt(place int, to float64) []any {
	n := 0
	return eachNumber(b.args(), func(_ string, v reflect.Value) {
		if n == place {
			v.SetFloat(to)
		}
		n++
	})
}

// eachNumber visits every number in a list of arguments and returns copies of
// them as they are after the visit.
func eachNumber(args []any, visit func(name string, v reflect.Value)) []any {
	var walk func(name string, v reflect.Value)
	walk = func(name string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Float64:
			visit(name, v)
		case reflect.Struct:
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Type().Field(i).Name, v.Field(i))
				}
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(name, v.Index(i))
			}
		}
	}
	out := make([]any, len(args))
	for i, a := range args {
		v := reflect.New(reflect.TypeOf(a)).Elem()
		v.Set(reflect.ValueOf(a))
		walk(v.Type().Name(), v)
		out[i] = v.Interface()
	}
	return out
}

// notFinite names the first number of a result that is not one.
func notFinite(v any, path string, depth int) string {
	var walk func(v reflect.Value, path string, depth int) string
	walk = func(v reflect.Value, path string, depth int) string {
		if depth > 12 {
			return ""
		}
		switch v.Kind() {
		case reflect.Float64:
			if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
				return fmt.Sprintf("%s is %v", path, f)
			}
		case reflect.Pointer, reflect.Interface:
			if !v.IsNil() {
				return walk(v.Elem(), path, depth+1)
			}
		case reflect.Slice:
			for i := range v.Len() {
				if where := walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), depth+1); where != "" {
					return where
				}
			}
		case reflect.Struct:
			for i := range v.NumField() {
				f := v.Type().Field(i)
				if !f.IsExported() || f.Name == "DOF" || f.Name == "ClearsFrom" {
					continue // may be endless: a known uncertainty, a room that never clears
				}
				if where := walk(v.Field(i), path+"."+f.Name, depth+1); where != "" {
					return where
				}
			}
		}
		return ""
	}
	if list, ok := v.([]reflect.Value); ok {
		for _, x := range list {
			if where := walk(x, path, depth); where != "" {
				return where
			}
		}
		return ""
	}
	return walk(reflect.ValueOf(v), path, depth)
}
