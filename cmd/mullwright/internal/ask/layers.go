package ask

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// Layers is a painting as asked: its layers from the ground up.
type Layers struct {
	Name   string
	Layers []Layer

	file, text string
}

// Layer is one layer as asked: a thinned paint with a name and the time it
// dries before the next.
type Layer struct {
	Name  string
	Dried string
	Thin  // its Formula is the layer's
}

// Fields lists what may be said of a layer. A formula's amount, the slab and
// the room have no place in a painting's stack.
func (l *Layer) Fields() []Field {
	own := []Field{
		{Name: "name", One: &l.Name, Help: "what you call the layer"},
		{Name: "dried", One: &l.Dried, Help: "how long it dries before the next layer, as in 7 d"},
	}
	for _, f := range l.Thin.Fields() {
		if f.Either != "amount" && !notOfLayers[f.Name] {
			own = append(own, f)
		}
	}
	return own
}

var notOfLayers = map[string]bool{
	"fill": true, "loss": true, "slab": true, "scale": true, "twenty-drops": true, "have": true, "price": true,
	"temperature": true, "room": true, "air-changes": true, "release": true, "over": true,
}

// OpenLayers reads a layers file and the formula files it names.
func OpenLayers(file string) (*Layers, error) {
	text, err := ReadFile(file)
	if err != nil {
		return nil, err
	}
	folder, err := openFolder(file)
	if err != nil {
		return nil, err
	}
	defer folder.Close()
	l := &Layers{file: file, text: text}
	var faults strict.Faults
	tables, err := l.tables()
	if err != nil {
		return nil, err
	}
	for i, table := range tables {
		if faults.Enough() {
			break
		}
		layer, f := l.read(i, table, folder)
		faults = append(faults, f...)
		l.Layers = append(l.Layers, layer)
	}
	sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
	return l, faults.Err()
}

// tables reads the file down to its [[layer]] tables.
func (l *Layers) tables() ([]map[string]any, error) {
	var top map[string]any
	if err := strict.Decode(l.file, l.text, &top); err != nil {
		return nil, err
	}
	var faults strict.Faults
	fault := func(what string, key ...string) {
		faults = append(faults, strict.Fault{File: l.file, Line: strict.LineOf(l.text, key...), Key: strings.Join(key, "."), What: what})
	}
	for _, k := range sortedKeys(top) {
		switch k {
		case "painting":
			body, ok := top[k].(map[string]any)
			if !ok {
				fault("a table [painting] is expected here", k)
				continue
			}
			for _, k2 := range sortedKeys(body) {
				if name, ok := body[k2].(string); ok && k2 == "name" {
					l.Name = name
				} else if k2 == "name" {
					fault("want text in quotes", k, k2)
				} else {
					fault("unknown key; accepted: name", k, k2)
				}
			}
		case "layer":
		default:
			fault("unknown table; this file holds [[layer]] tables, from the ground up, and [painting] with a name", k)
		}
	}
	list, ok := top["layer"].([]map[string]any)
	if !ok && top["layer"] != nil {
		fault("each layer is a table of its own: [[layer]]", "layer")
	} else if len(list) == 0 && len(faults) == 0 {
		fault("no [[layer]] in it")
	}
	return list, faults.Err()
}

// read reads one layer and its formula.
func (l *Layers) read(i int, table map[string]any, folder *folder) (Layer, strict.Faults) {
	var here Layer
	var faults strict.Faults
	fault := func(key, what string) {
		faults = append(faults, l.fault(i, key, what))
	}
	byName := map[string]Field{}
	var names []string
	for _, f := range here.Fields() {
		byName[f.Name] = f
		names = append(names, f.Name)
	}
	for _, k := range sortedKeys(table) {
		f, ok := byName[k]
		if !ok {
			fault(k, "unknown key; accepted: "+strings.Join(names, ", "))
			continue
		}
		if err := f.fill(table[k]); err != nil {
			fault(k, err.Error())
		}
	}
	if here.Name == "" {
		here.Name = fmt.Sprintf("layer %d", i+1)
	}
	switch {
	case here.Formula == "" && len(here.Paint.Pigments) == 0 && len(faults) == 0:
		fault("", "no paint: name a formula file, or pigments")
	case here.Formula != "" && len(here.Paint.Pigments) > 0:
		fault("pigments", "a formula is named too; give one")
	case here.Formula != "":
		var base Thin
		if err := base.from(folder, here.Formula, []string{filepath.Base(l.file)}); err != nil {
			fault("formula", err.Error())
			return here, faults
		}
		base.withoutAmount()
		formula := here.Formula
		here.Formula = ""
		Override(base.Fields(), here.Thin.Fields())
		here.Thin, here.Formula = base, formula
	}
	return here, faults
}

// withoutAmount leaves out what a stack of layers does not read.
func (t *Thin) withoutAmount() {
	for _, f := range t.Fields() {
		if f.Either == "amount" || notOfLayers[f.Name] {
			f.clear()
		}
	}
}

// fault places a fault in a layer; an empty key is the layer itself.
func (l *Layers) fault(i int, key, what string) strict.Fault {
	name := fmt.Sprintf("layer[%d]", i+1)
	if key != "" {
		name += "." + key
	}
	return strict.Fault{File: l.file, Line: lineIn(l.text, i, key), Key: name, What: what}
}

// lineIn finds the line of a key in the n'th [[layer]], or of its header.
func lineIn(text string, n int, key string) int {
	header, at := 0, -1
	for i, line := range strings.Split(text, "\n") {
		t := strings.TrimSpace(line)
		if strings.HasPrefix(t, "[") {
			if at == n {
				break
			}
			if strings.HasPrefix(t, "[[") && strings.Trim(strings.SplitN(t, "]", 2)[0], "[ ") == "layer" {
				at++
				if at == n {
					header = i + 1
				}
			}
			continue
		}
		if name, _, ok := strings.Cut(t, "="); ok && at == n && key != "" && strings.TrimSpace(name) == key {
			return i + 1
		}
	}
	return header
}

// Request turns the painting into a request. Every layer's fault is reported.
func (l *Layers) Request(w *Workshop, s formulate.Sampling) (formulate.LayersRequest, error) {
	req := formulate.LayersRequest{Sampling: s}
	var faults strict.Faults
	for i := range l.Layers {
		layer := &l.Layers[i]
		asked, err := layer.request(w, s)
		if err != nil {
			key := ""
			var field *FieldError
			if errors.As(err, &field) {
				key, err = field.Field, field.Err
				if key == "pigment" {
					key = "pigments"
				}
			}
			if layer.Formula != "" && lineIn(l.text, i, key) == lineIn(l.text, i, "") {
				key = "formula"
			}
			// What a flag says on the command line is a key here.
			faults = append(faults, l.fault(i, key, strings.ReplaceAll(err.Error(), "--", "")))
			continue
		}
		req.Layers = append(req.Layers, asked)
	}
	return req, faults.Err()
}

// Fault places an error about one layer in the file.
func (l *Layers) Fault(err error) error {
	var of *formulate.LayerError
	if errors.As(err, &of) {
		return strict.Faults{l.fault(of.Layer, "", of.Err.Error())}
	}
	return err
}

func (l *Layer) request(w *Workshop, s formulate.Sampling) (formulate.LayerAsked, error) {
	out := formulate.LayerAsked{Name: l.Name}
	thin, err := l.Thin.Request(w, s)
	if err != nil {
		return out, err
	}
	out.Thin = thin
	if l.Dried != "" {
		d, err := quantity.ParseDuration(l.Dried)
		if err != nil {
			return out, at("dried", err)
		}
		out.Dried = &d
	}
	if l.WetFilm == "" && l.PigmentPerArea == "" {
		return out, at("wet-film", errors.New("it is missing, as in wet-film = \"30um\""))
	}
	return out, nil
}

// A folder is where a file lies: its formula files lie in it or below it, and
// nothing outside it is read.
type folder struct{ root *os.Root }

func openFolder(file string) (*folder, error) {
	root, err := os.OpenRoot(filepath.Dir(file))
	if err != nil {
		return nil, plain(file, err)
	}
	return &folder{root}, nil
}

func (f *folder) Close() error { return f.root.Close() }

// read reads a file of the folder; name has forward slashes.
func (f *folder) read(name string) (string, error) {
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return "", fmt.Errorf("%q lies outside the folder of this file; a formula lies in it or below it", name)
	}
	file, err := f.root.Open(filepath.FromSlash(name))
	switch {
	case os.IsNotExist(err):
		return "", fmt.Errorf("%q: no such file", name)
	case err != nil:
		return "", fmt.Errorf("%q cannot be read in the folder of this file", name)
	}
	defer file.Close()
	b, err := io.ReadAll(io.LimitReader(file, maxFile+1))
	switch {
	case err != nil:
		return "", fmt.Errorf("%q cannot be read: it is no plain file", name)
	case len(b) > maxFile:
		return "", fmt.Errorf("%q is larger than a megabyte", name)
	}
	return string(b), nil
}

// from fills a thinning from a formula file of the folder, and from the formula
// that one starts from. chain holds the files that led here.
func (t *Thin) from(f *folder, name string, chain []string) error {
	name = path.Clean(filepath.ToSlash(name))
	for _, before := range chain {
		if before == name {
			return fmt.Errorf("the formulas lead in a circle: %s", strings.Join(append(chain, name), " > "))
		}
	}
	text, err := f.read(name)
	if err != nil {
		return err
	}
	if err := t.Load(name, text); err != nil {
		return err
	}
	return t.resolve(f, name, append(chain[:len(chain):len(chain)], name))
}

// resolve lays the thinning over the formula it starts from, where it names
// one.
func (t *Thin) resolve(f *folder, name string, chain []string) error {
	if t.Formula == "" {
		return nil
	}
	if len(t.Paint.Pigments) > 0 {
		return fmt.Errorf("%s: thin.formula: pigments are given too; give one", name)
	}
	var base Thin
	if err := base.from(f, path.Join(path.Dir(name), filepath.ToSlash(t.Formula)), chain); err != nil {
		return err
	}
	t.Formula = ""
	Override(base.Fields(), t.Fields())
	*t = base
	return nil
}

// LoadFile fills the question from the text of a formula file, and from the
// formula that one starts from, in its folder or below it.
func (t *Thin) LoadFile(file, text string) error {
	if err := t.Load(file, text); err != nil || t.Formula == "" {
		return err
	}
	f, err := openFolder(file)
	if err != nil {
		return err
	}
	defer f.Close()
	name := filepath.Base(file)
	if err := t.resolve(f, name, []string{name}); err != nil {
		return strict.Faults{{File: file, Line: strict.LineOf(text, "thin", "formula"), Key: "thin.formula", What: err.Error()}}
	}
	return nil
}
