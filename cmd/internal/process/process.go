// Package process starts programs in groups of their own, so that a signal to
// us does not reach them twice and a kill reaches all that they started, and
// finds ports for them.
package process
