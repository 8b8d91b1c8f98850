package source

// lives are the sources of how long parts last.
var lives = []Source{
	{ID: "nist-8-4", By: "NIST/SEMATECH", Title: "e-Handbook of Statistical Methods, chapter 8, Assessing product reliability", Where: "8.4.1.2 maximum likelihood, 8.4.1.3 a Weibull example, 8.2.5 priors", Standing: Seen},
	{ID: "oakes-1995", By: "Oakes", Title: "Multiple time scales in survival analysis, Lifetime Data Analysis 1, 7–18 (1995)", Where: "scales that are sums of two", Standing: Memory},
}
