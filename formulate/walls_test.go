package formulate

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// The walls of the house: arrows point down only, nothing below cmd prints, and
// only the leaves that catalogues stand on read TOML or files.
func TestWalls(t *testing.T) {
	readers := map[string]bool{"formulate/shelf": true, "formulate/strict": true}
	files := 0
	for _, top := range []string{"formulate", "pigments", "media"} {
		err := filepath.WalkDir(filepath.Join("..", top), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			files++
			dir := filepath.ToSlash(strings.TrimPrefix(filepath.Dir(path), "../"))
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			for _, im := range f.Imports {
				name := strings.Trim(im.Path.Value, `"`)
				if why := forbidden(dir, name, readers); why != "" {
					t.Errorf("%s imports %s: %s", path, name, why)
				}
			}
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				if pkg, ok := call.X.(*ast.Ident); ok && pkg.Name == "fmt" && strings.HasPrefix(call.Sel.Name, "Print") {
					t.Errorf("%s prints", path)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 50 {
		t.Fatalf("only %d files were looked at", files)
	}
}

func forbidden(dir, name string, readers map[string]bool) string {
	switch {
	case strings.HasPrefix(name, "mullwright/cmd"):
		return "arrows point down"
	case name == "log" || name == "log/slog" || name == "net/http" || strings.Contains(name, "cobra") || strings.Contains(name, "tablewriter"):
		return "nothing below cmd shows anything"
	case strings.HasPrefix(dir, "pigments") && strings.HasPrefix(name, "mullwright/media"), strings.HasPrefix(dir, "media") && strings.HasPrefix(name, "mullwright/pigments"):
		return "the catalogues do not know each other"
	case (strings.HasPrefix(dir, "pigments") || strings.HasPrefix(dir, "media")) && name == "mullwright/formulate":
		return "a catalogue knows no decision"
	}
	if !strings.HasPrefix(dir, "formulate") || readers[dir] {
		return ""
	}
	switch name {
	case "os", "embed", "io/fs", "path/filepath", "github.com/BurntSushi/toml", "mullwright/formulate/strict", "mullwright/formulate/shelf":
		return "calculation reads no file"
	}
	if strings.HasPrefix(name, "mullwright/pigments") || strings.HasPrefix(name, "mullwright/media") || strings.HasPrefix(name, "mullwright/testdata") {
		return "calculation knows no catalogue"
	}
	return ""
}
