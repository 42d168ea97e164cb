package formulate

// IsPairCaution is for the tests that walk the catalogues from outside.
var IsPairCaution = isPairCaution
