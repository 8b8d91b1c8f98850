// Package journaltest writes journals for tests: short ones by hand, with readable
// ids, drawn ones for the laws, and long ones like those of a crew. Only tests import
// it. All that it holds is invented.
package journaltest
