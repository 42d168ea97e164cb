package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "man1")
	n, err := write(dir)
	if err != nil || n < 15 {
		t.Fatalf("%d pages, %v", n, err)
	}
	page, err := os.ReadFile(filepath.Join(dir, "mullwright-mull.1"))
	if err != nil || !strings.Contains(string(page), "Weighing card") {
		t.Errorf("the mull's page: %v", err)
	}
	if _, err := write(dir); err == nil {
		t.Error("pages were written over pages")
	}
}
