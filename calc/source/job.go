package source

// jobs are the sources of how a job is computed.
var jobs = []Source{
	{ID: "joe-kuo", By: "Joe and Kuo", Title: "Constructing Sobol sequences with better two-dimensional projections", Where: "SIAM Journal on Scientific Computing 30 (2008), 2635–2654, the first direction numbers", Standing: Memory},
}
