package material

import "slices"

// Families lists the families that a pigment or an extender may be of.
func Families() []string { return slices.Clone(families) }
