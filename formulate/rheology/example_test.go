package rheology_test

import (
	"errors"
	"fmt"

	"mullwright/formulate/rheology"
)

// A paint of 20 % pigment that packs at 50 %, its oil thinned with a third of
// turpentine by volume.
func Example() {
	vehicle, _ := rheology.VehicleRange([]rheology.Liquid{
		{Share: 2, Viscosity: 50},   // linseed oil, 20 °C
		{Share: 1, Viscosity: 1.48}, // turpentine, 20 °C
	})
	paint, _ := rheology.SuspensionRange(vehicle, 0.20, 0.50)
	fmt.Printf("vehicle %.0f (%.0f to %.0f) mPa·s, paint %.0f (%.0f to %.0f) mPa·s\n",
		vehicle.Typical, vehicle.Low, vehicle.High, paint.Typical, paint.Low, paint.High)
	// Output: vehicle 15 (13 to 18) mPa·s, paint 38 (25 to 66) mPa·s
}

func ExampleKriegerDougherty() {
	v, _ := rheology.KriegerDougherty(0.30, 0.63, 2.5)
	fmt.Printf("%.2f times the liquid\n", v)
	_, err := rheology.KriegerDougherty(0.63, 0.63, 2.5)
	fmt.Println(errors.Is(err, rheology.ErrPacked), err)
	// Output:
	// 2.77 times the liquid
	// true solids fill 63.0 % of the volume and pack at 63.0 %: the solids are packed, and viscosity has no meaning
}

// Linseed oil was measured at 37.8 and 98.9 °C; the studio is at 20 °C.
func ExampleWaltherThrough() {
	oil, _ := rheology.WaltherThrough(
		rheology.KinematicPoint{At: 37.8, Viscosity: 30},
		rheology.KinematicPoint{At: 98.9, Viscosity: 7})
	v, _ := oil.At(20)
	fmt.Printf("%.0f mm²/s, outside the measured range: %v\n", v, oil.Extrapolates(20))
	// Output: 57 mm²/s, outside the measured range: true
}

func ExampleGumArabic() {
	table, _ := rheology.GumArabic(0.20, 20)
	grade := rheology.GumGrade().Range()
	fmt.Printf("%.0f mPa·s by the table; gums run from %.1f to %.1f times that\n", table, grade.Low, grade.High)
	// Output: 46 mPa·s by the table; gums run from 0.3 to 1.4 times that
}

func ExampleGlycerineViscosity() {
	v, _ := rheology.GlycerineViscosity(0.30, 20)
	fmt.Printf("%.2f mPa·s\n", v)
	// Output: 2.46 mPa·s
}
