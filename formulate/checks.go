package formulate

import "mullwright/formulate/check"

// Relations adapts the decisions of this package to published check rows.
func Relations() []check.Relation {
	return append(recipeRelations(), gumRecipeRelations()...)
}
