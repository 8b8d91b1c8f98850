package source

var cutting = []Source{}
