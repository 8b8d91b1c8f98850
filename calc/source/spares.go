package source

// spares are the sources of how many parts a job uses up.
var spares = []Source{
	{ID: "birolini-2007", By: "Birolini", Title: "Reliability Engineering: Theory and Practice, 5th edition (Springer, 2007), provisioning of spare parts", Where: "section 4.5, a page of it", Standing: SecondHand},
}
