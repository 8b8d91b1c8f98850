package source

var supply = []Source{}
