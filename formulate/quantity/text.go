package quantity

import "math"

// Each type reads and prints itself the same way: UnmarshalText for TOML (a
// failure there carries the line), Set and Type for command-line flags, String
// for people. The methods differ only in the unit table they name.

// ParseMass reads a Mass with its unit.
func ParseMass(s string) (Mass, error) { v, err := massKind.parse(s); return Mass(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Mass) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Mass) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Mass) Set(s string) error {
	v, err := massKind.parse(s)
	if err == nil {
		*q = Mass(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Mass) Type() string { return massKind.word }

func (q Mass) String() string { return massKind.print(float64(q)) }

// ParseVolume reads a Volume with its unit.
func ParseVolume(s string) (Volume, error) { v, err := volumeKind.parse(s); return Volume(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Volume) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Volume) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Volume) Set(s string) error {
	v, err := volumeKind.parse(s)
	if err == nil {
		*q = Volume(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Volume) Type() string { return volumeKind.word }

func (q Volume) String() string { return volumeKind.print(float64(q)) }

// ParseDensity reads a Density with its unit.
func ParseDensity(s string) (Density, error) { v, err := densityKind.parse(s); return Density(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Density) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Density) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Density) Set(s string) error {
	v, err := densityKind.parse(s)
	if err == nil {
		*q = Density(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Density) Type() string { return densityKind.word }

func (q Density) String() string { return densityKind.print(float64(q)) }

// ParseAbsorption reads a Absorption with its unit.
func ParseAbsorption(s string) (Absorption, error) {
	v, err := absorptionKind.parse(s)
	return Absorption(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Absorption) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Absorption) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Absorption) Set(s string) error {
	v, err := absorptionKind.parse(s)
	if err == nil {
		*q = Absorption(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Absorption) Type() string { return absorptionKind.word }

func (q Absorption) String() string { return absorptionKind.print(float64(q)) }

// ParseAbsorptionVolume reads a AbsorptionVolume with its unit.
func ParseAbsorptionVolume(s string) (AbsorptionVolume, error) {
	v, err := absorbVolKind.parse(s)
	return AbsorptionVolume(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *AbsorptionVolume) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q AbsorptionVolume) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *AbsorptionVolume) Set(s string) error {
	v, err := absorbVolKind.parse(s)
	if err == nil {
		*q = AbsorptionVolume(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q AbsorptionVolume) Type() string { return absorbVolKind.word }

func (q AbsorptionVolume) String() string { return absorbVolKind.print(float64(q)) }

// ParseMassFraction reads a MassFraction with its unit.
func ParseMassFraction(s string) (MassFraction, error) {
	v, err := massFracKind.parse(s)
	return MassFraction(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *MassFraction) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q MassFraction) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *MassFraction) Set(s string) error {
	v, err := massFracKind.parse(s)
	if err == nil {
		*q = MassFraction(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q MassFraction) Type() string { return massFracKind.word }

func (q MassFraction) String() string { return massFracKind.print(float64(q)) }

// ParseVolumeFraction reads a VolumeFraction with its unit.
func ParseVolumeFraction(s string) (VolumeFraction, error) {
	v, err := volFracKind.parse(s)
	return VolumeFraction(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *VolumeFraction) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q VolumeFraction) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *VolumeFraction) Set(s string) error {
	v, err := volFracKind.parse(s)
	if err == nil {
		*q = VolumeFraction(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q VolumeFraction) Type() string { return volFracKind.word }

func (q VolumeFraction) String() string { return volFracKind.print(float64(q)) }

// ParseParts reads a Parts with its unit.
func ParseParts(s string) (Parts, error) { v, err := partsKind.parse(s); return Parts(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Parts) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Parts) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Parts) Set(s string) error {
	v, err := partsKind.parse(s)
	if err == nil {
		*q = Parts(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Parts) Type() string { return partsKind.word }

func (q Parts) String() string { return partsKind.print(float64(q)) }

// ParseRatio reads a Ratio with its unit.
func ParseRatio(s string) (Ratio, error) { v, err := ratioKind.parse(s); return Ratio(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Ratio) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Ratio) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Ratio) Set(s string) error {
	v, err := ratioKind.parse(s)
	if err == nil {
		*q = Ratio(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Ratio) Type() string { return ratioKind.word }

func (q Ratio) String() string { return ratioKind.print(float64(q)) }

// ParseLength reads a Length with its unit.
func ParseLength(s string) (Length, error) { v, err := lengthKind.parse(s); return Length(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Length) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Length) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Length) Set(s string) error {
	v, err := lengthKind.parse(s)
	if err == nil {
		*q = Length(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Length) Type() string { return lengthKind.word }

func (q Length) String() string { return lengthKind.print(float64(q)) }

// ParseThickness reads a Thickness with its unit.
func ParseThickness(s string) (Thickness, error) {
	v, err := thicknessKind.parse(s)
	return Thickness(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Thickness) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Thickness) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Thickness) Set(s string) error {
	v, err := thicknessKind.parse(s)
	if err == nil {
		*q = Thickness(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Thickness) Type() string { return thicknessKind.word }

func (q Thickness) String() string { return thicknessKind.print(float64(q)) }

// ParseParticleSize reads a ParticleSize with its unit.
func ParseParticleSize(s string) (ParticleSize, error) {
	v, err := particleKind.parse(s)
	return ParticleSize(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *ParticleSize) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q ParticleSize) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *ParticleSize) Set(s string) error {
	v, err := particleKind.parse(s)
	if err == nil {
		*q = ParticleSize(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q ParticleSize) Type() string { return particleKind.word }

func (q ParticleSize) String() string { return particleKind.print(float64(q)) }

// ParseArea reads a Area with its unit.
func ParseArea(s string) (Area, error) { v, err := areaKind.parse(s); return Area(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Area) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Area) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Area) Set(s string) error {
	v, err := areaKind.parse(s)
	if err == nil {
		*q = Area(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Area) Type() string { return areaKind.word }

func (q Area) String() string { return areaKind.print(float64(q)) }

// ParseMassPerArea reads a MassPerArea with its unit.
func ParseMassPerArea(s string) (MassPerArea, error) {
	v, err := perAreaKind.parse(s)
	return MassPerArea(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *MassPerArea) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q MassPerArea) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *MassPerArea) Set(s string) error {
	v, err := perAreaKind.parse(s)
	if err == nil {
		*q = MassPerArea(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q MassPerArea) Type() string { return perAreaKind.word }

func (q MassPerArea) String() string { return perAreaKind.print(float64(q)) }

// ParseSpecificSurface reads a SpecificSurface with its unit.
func ParseSpecificSurface(s string) (SpecificSurface, error) {
	v, err := surfaceKind.parse(s)
	return SpecificSurface(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *SpecificSurface) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q SpecificSurface) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *SpecificSurface) Set(s string) error {
	v, err := surfaceKind.parse(s)
	if err == nil {
		*q = SpecificSurface(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q SpecificSurface) Type() string { return surfaceKind.word }

func (q SpecificSurface) String() string { return surfaceKind.print(float64(q)) }

// ParseCelsius reads a Celsius with its unit.
func ParseCelsius(s string) (Celsius, error) { v, err := celsiusKind.parse(s); return Celsius(v), err }

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Celsius) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Celsius) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Celsius) Set(s string) error {
	v, err := celsiusKind.parse(s)
	if err == nil {
		*q = Celsius(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Celsius) Type() string { return celsiusKind.word }

func (q Celsius) String() string { return celsiusKind.print(float64(q)) }

// ParseViscosity reads a Viscosity with its unit.
func ParseViscosity(s string) (Viscosity, error) {
	v, err := viscosityKind.parse(s)
	return Viscosity(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Viscosity) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Viscosity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Viscosity) Set(s string) error {
	v, err := viscosityKind.parse(s)
	if err == nil {
		*q = Viscosity(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Viscosity) Type() string { return viscosityKind.word }

func (q Viscosity) String() string { return viscosityKind.print(float64(q)) }

// ParseKinematicViscosity reads a KinematicViscosity with its unit.
func ParseKinematicViscosity(s string) (KinematicViscosity, error) {
	v, err := kinematicKind.parse(s)
	return KinematicViscosity(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *KinematicViscosity) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q KinematicViscosity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *KinematicViscosity) Set(s string) error {
	v, err := kinematicKind.parse(s)
	if err == nil {
		*q = KinematicViscosity(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q KinematicViscosity) Type() string { return kinematicKind.word }

func (q KinematicViscosity) String() string { return kinematicKind.print(float64(q)) }

// ParseDuration reads a Duration with its unit.
func ParseDuration(s string) (Duration, error) {
	v, err := durationKind.parse(s)
	return Duration(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Duration) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Duration) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Duration) Set(s string) error {
	v, err := durationKind.parse(s)
	if err == nil {
		*q = Duration(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Duration) Type() string { return durationKind.word }

// String prints a time in the largest unit that leaves a whole number.
func (q Duration) String() string {
	for _, u := range []unit{{"d", float64(Day)}, {"h", float64(Hour)}, {"min", float64(Minute)}} {
		if n := float64(q) / u.factor; n >= 1 && n == math.Trunc(n) {
			return trim(n) + " " + u.name
		}
	}
	return durationKind.print(float64(q))
}

// ParseMolarMass reads a MolarMass with its unit.
func ParseMolarMass(s string) (MolarMass, error) {
	v, err := molarKind.parse(s)
	return MolarMass(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *MolarMass) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q MolarMass) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *MolarMass) Set(s string) error {
	v, err := molarKind.parse(s)
	if err == nil {
		*q = MolarMass(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q MolarMass) Type() string { return molarKind.word }

func (q MolarMass) String() string { return molarKind.print(float64(q)) }

// ParseConcentration reads a Concentration with its unit.
func ParseConcentration(s string) (Concentration, error) {
	v, err := concentKind.parse(s)
	return Concentration(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Concentration) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Concentration) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Concentration) Set(s string) error {
	v, err := concentKind.parse(s)
	if err == nil {
		*q = Concentration(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Concentration) Type() string { return concentKind.word }

func (q Concentration) String() string { return concentKind.print(float64(q)) }

// ParsePartsPerMillion reads a PartsPerMillion with its unit.
func ParsePartsPerMillion(s string) (PartsPerMillion, error) {
	v, err := ppmKind.parse(s)
	return PartsPerMillion(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *PartsPerMillion) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q PartsPerMillion) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *PartsPerMillion) Set(s string) error {
	v, err := ppmKind.parse(s)
	if err == nil {
		*q = PartsPerMillion(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q PartsPerMillion) Type() string { return ppmKind.word }

func (q PartsPerMillion) String() string { return ppmKind.print(float64(q)) }

// ParseRoomVolume reads a RoomVolume with its unit.
func ParseRoomVolume(s string) (RoomVolume, error) {
	v, err := roomKind.parse(s)
	return RoomVolume(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *RoomVolume) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q RoomVolume) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *RoomVolume) Set(s string) error {
	v, err := roomKind.parse(s)
	if err == nil {
		*q = RoomVolume(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q RoomVolume) Type() string { return roomKind.word }

func (q RoomVolume) String() string { return roomKind.print(float64(q)) }

// ParseAirChanges reads a AirChanges with its unit.
func ParseAirChanges(s string) (AirChanges, error) {
	v, err := airKind.parse(s)
	return AirChanges(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *AirChanges) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q AirChanges) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *AirChanges) Set(s string) error {
	v, err := airKind.parse(s)
	if err == nil {
		*q = AirChanges(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q AirChanges) Type() string { return airKind.word }

func (q AirChanges) String() string { return airKind.print(float64(q)) }

// ParsePressure reads a Pressure with its unit.
func ParsePressure(s string) (Pressure, error) {
	v, err := pressureKind.parse(s)
	return Pressure(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *Pressure) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q Pressure) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *Pressure) Set(s string) error {
	v, err := pressureKind.parse(s)
	if err == nil {
		*q = Pressure(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q Pressure) Type() string { return pressureKind.word }

func (q Pressure) String() string { return pressureKind.print(float64(q)) }

// ParseIodineValue reads a IodineValue with its unit.
func ParseIodineValue(s string) (IodineValue, error) {
	v, err := iodineKind.parse(s)
	return IodineValue(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *IodineValue) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q IodineValue) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *IodineValue) Set(s string) error {
	v, err := iodineKind.parse(s)
	if err == nil {
		*q = IodineValue(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q IodineValue) Type() string { return iodineKind.word }

func (q IodineValue) String() string { return iodineKind.print(float64(q)) }

// ParseRefractiveIndex reads a RefractiveIndex with its unit.
func ParseRefractiveIndex(s string) (RefractiveIndex, error) {
	v, err := indexKind.parse(s)
	return RefractiveIndex(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *RefractiveIndex) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q RefractiveIndex) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *RefractiveIndex) Set(s string) error {
	v, err := indexKind.parse(s)
	if err == nil {
		*q = RefractiveIndex(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q RefractiveIndex) Type() string { return indexKind.word }

func (q RefractiveIndex) String() string { return indexKind.print(float64(q)) }

// ParsePricePerGram reads a PricePerGram with its unit.
func ParsePricePerGram(s string) (PricePerGram, error) {
	v, err := priceKind.parse(s)
	return PricePerGram(v), err
}

// UnmarshalText implements encoding.TextUnmarshaler.
func (q *PricePerGram) UnmarshalText(b []byte) error { return q.Set(string(b)) }

// MarshalText implements encoding.TextMarshaler.
func (q PricePerGram) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// Set implements the flag value interface.
func (q *PricePerGram) Set(s string) error {
	v, err := priceKind.parse(s)
	if err == nil {
		*q = PricePerGram(v)
	}
	return err
}

// Type names the quantity in flag help.
func (q PricePerGram) Type() string { return priceKind.word }

func (q PricePerGram) String() string { return priceKind.print(float64(q)) }
