package source

var metals = []Source{}
