// Package fold computes what a set of events means: how the rigs stand, where each
// part is, what is in stock, which session is open. A Fold takes events one by one,
// in any order; a view is what a screen shows of it. A snapshot is the fold as a
// phone stores it, so that it need not read all events at each start. The
// specification is calc/journal/kinds.md and views.md.
package fold
