package release

// What the test that installs the package finds in its environment: a tar archive of
// a fresh Debian root, and the folders of an older package and of a newer one.
const (
	TryRoot = "KERFSIDE_TRY_ROOT"
	TryOld  = "KERFSIDE_TRY_OLD"
	TryNew  = "KERFSIDE_TRY_NEW"
)
