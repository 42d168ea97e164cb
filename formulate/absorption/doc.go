// Package absorption relates a pigment's oil absorption to the oil of a paste.
package absorption
