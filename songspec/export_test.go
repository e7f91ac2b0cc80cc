package songspec

// What the tests outside of the package hold against the library of grooves.
var (
	Neighbours = neighbours
	FeelCalled = feelCalled
)
