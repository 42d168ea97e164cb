package render

import (
	"encoding/json"
	"strconv"
	"strings"

	"mullwright/formulate"
)

// ManyRow is one row of many: its answer or its error.
type ManyRow struct {
	Line  int
	ID    string
	Point formulate.Point
	Err   error
}

// ManyHeader names the columns of the CSV answer.
const ManyHeader = "line,id,powder_g,oil_g,paint_g,paint_ml,pvc,cpvc,reduced_pvc,oil_g_per_100g,oil_mass_percent,oil_volume_percent,density_g_per_ml,error\n"

// manyPlaces is how many decimals each value shows: far beyond what the data
// bear, and enough to compare with a single mull.
var manyPlaces = [11]int{4, 4, 4, 4, 6, 6, 6, 4, 4, 4, 5}

// appendFixed prints a value with decimals by whole numbers, several times
// faster than strconv, which it leaves the very large and the negative to.
func appendFixed(b []byte, v float64, places int) []byte {
	scale := [...]uint64{1, 10, 100, 1e3, 1e4, 1e5, 1e6}[places]
	if !(v >= 0 && v < 1e9) {
		return strconv.AppendFloat(b, v, 'f', places, 64)
	}
	n := uint64(v*float64(scale) + 0.5)
	b = strconv.AppendUint(b, n/scale, 10)
	b = append(b, '.')
	rest := n % scale
	for div := scale / 10; div > 0; div /= 10 {
		b = append(b, byte('0'+rest/div%10))
	}
	return b
}

// Append adds the row to b.
func (m *ManyRow) Append(b []byte, f Format) []byte {
	if f == JSON {
		return m.appendJSON(b)
	}
	b = strconv.AppendInt(b, int64(m.Line), 10)
	b = append(b, ',')
	b = appendCell(b, m.ID)
	if m.Err != nil {
		b = append(b, ",,,,,,,,,,,,"...)
		b = appendCell(b, m.Err.Error())
		return append(b, '\n')
	}
	for i, v := range m.values() {
		b = append(b, ',')
		b = appendFixed(b, v, manyPlaces[i])
	}
	return append(b, ",\n"...)
}

func (m *ManyRow) values() [11]float64 {
	f := &m.Point.Figures
	return [11]float64{
		float64(m.Point.Powder), float64(m.Point.Oil), float64(f.Mass), float64(f.Volume),
		float64(f.PVC()), float64(f.CPVC()), float64(f.ReducedPVC()), float64(f.OilPerPigment()),
		float64(f.BinderByMass()) * 100, float64(f.BinderByVolume()) * 100, float64(f.Density()),
	}
}

// appendCell quotes a cell where CSV needs it.
func appendCell(b []byte, s string) []byte {
	if !strings.ContainsAny(s, ",\"\n\r") {
		return append(b, s...)
	}
	b = append(b, '"')
	b = append(b, strings.ReplaceAll(s, `"`, `""`)...)
	return append(b, '"')
}

func (m *ManyRow) appendJSON(b []byte) []byte {
	type row struct {
		Line    int      `json:"line"`
		ID      string   `json:"id"`
		Powder  *float64 `json:"powder_g,omitempty"`
		Oil     *float64 `json:"oil_g,omitempty"`
		Paint   *float64 `json:"paint_g,omitempty"`
		Volume  *float64 `json:"paint_ml,omitempty"`
		PVC     *float64 `json:"pvc,omitempty"`
		CPVC    *float64 `json:"cpvc,omitempty"`
		Reduced *float64 `json:"reduced_pvc,omitempty"`
		Per100  *float64 `json:"oil_g_per_100g,omitempty"`
		ByMass  *float64 `json:"oil_mass_percent,omitempty"`
		ByVol   *float64 `json:"oil_volume_percent,omitempty"`
		Density *float64 `json:"density_g_per_ml,omitempty"`
		Error   string   `json:"error,omitempty"`
	}
	r := row{Line: m.Line, ID: m.ID}
	if m.Err != nil {
		r.Error = m.Err.Error()
	} else {
		v := m.values()
		r.Powder, r.Oil = &v[0], &v[1]
		r.Paint, r.Volume, r.PVC, r.CPVC, r.Reduced = &v[2], &v[3], &v[4], &v[5], &v[6]
		r.Per100, r.ByMass, r.ByVol, r.Density = &v[7], &v[8], &v[9], &v[10]
	}
	line, err := json.Marshal(r)
	if err != nil { // the row holds only finite numbers and text
		line = []byte(`{"error":"unprintable row"}`)
	}
	return append(append(b, line...), '\n')
}
